package follow

func knitSentences() []sentence {
	return []sentence{
		// Beginnings.
		{"Cast on {n} {sts} with a stretchy cast-on on double-pointed needles or for magic loop; join in the round without twisting, pm.", func(w *worker, n []int) error { return w.begun(n[0]) }},
		{"Cast on {n} {sts}.", func(w *worker, n []int) error { return w.begun(n[0]) }},
		{"In row {n} a buttonhole: after {n} {sts} bind off {n}; in the next row cast on {n} over the gap — {n} {sts}.", (*worker).strapHole},
		{"Cast on {n} {sts} with a stretchy cast-on.", func(w *worker, n []int) error { return w.begun(n[0]) }},
		{"Cast on {n} {sts} for the brim with a stretchy cast-on; join in the round without twisting, pm.", func(w *worker, n []int) error { return w.begun(n[0]) }},
		{"Cast on {n} {sts} for the waist with a stretchy cast-on; join in the round without twisting. Pm at the middle of the back, where the round begins, and one at each side, a quarter of the round from there.", (*worker).waist},
		{"Cast on {n} {sts} for the neck on a circular needle, not tightly; the row begins at the middle of the front. Do not join.", func(w *worker, n []int) error { return w.neckOf(n[0]) }},
		{"Cast on {n} {sts} for the neck on a circular needle, not tightly; join in the round without twisting, pm at the middle of the front.", func(w *worker, n []int) error { return w.neckOf(n[0]) }},
		{"Cast on {n} {sts}: {n} for a shoulder, {n} for the neck, {n} for a shoulder.", func(w *worker, n []int) error { return w.backOf(n[0], n[1:]) }},
		{"At the neck edge cast on {n} {sts}: {n} {sts}.", (*worker).neckEdge},
		{"Cast on {n} {sts} at the neck edge of one half and {n} at the other: {n} {sts} and {n}.", (*worker).neckEdges},

		{"Cast on {n} {sts} with a stretchy cast-on; join in the round without twisting, pm at the middle of the front.", func(w *worker, n []int) error { return w.begun(n[0]) }},

		// Going on.
		{"Pm at each side, with {n} for the front and {n} for the back.", (*worker).bothSides},
		{"The seam will run down from there.", nothing},
		{"The seam will run from there down the inside of the leg.", nothing},
		{"Pm in the middle of each underarm.", nothing},
		{"Join the two halves of the front on one needle: {n} {sts}.", (*worker).joinHalves},
		{"Join the two sides of the front, with {n} {sts} cast on between them: {n} {sts}.", (*worker).joinSides},
		{"Join fronts and back on one needle, pm at each side: {n} {sts}.", (*worker).joinAll},
		{"Join front and back on one needle, with {n} {sts} cast on at each underarm, pm in the middle of each: {n} {sts}.", (*worker).joinAllWith},
		{"Divide at the centre front and the centre back: {n} {sts} for each leg; place those of the second leg on hold. For the first leg cast on a bridge of {n} {sts} from front to back; the second leg picks up along its other side.", (*worker).divideLegs},
		{"Thumb hole: place {n} {sts} on hold at the side; cast on {n} over them in the next row.", func(w *worker, n []int) error { return w.thumbHole(n[0], n[1]) }},
		{"Thumb hole: place {n} {sts} on hold at the side; cast on {n} over them in the next round.", func(w *worker, n []int) error { return w.thumbHole(n[0], n[1]) }},

		{"The front is closed from here on: at its end cast on {n} {sts}, as wide as the edges and what closes them will be, and join in the round: {n} {sts}. The lower ends of the edges are sewn to them.", (*worker).closeFronts},

		// Edges.
		{"Bind off loosely in rib, so that the edge stretches.", nothing},
		{"Bind off loosely, so that the edge stretches.", nothing},
		{"Bind off.", nothing},
		{"Work the last 4 rounds of them in garter st (purl 1 round, knit 1 round), so that the edge neither rolls nor draws in; bind off loosely.", nothing},
		{"Work {n} {rows} in all in garter st (knit every row); bind off so that the edge neither gathers nor flares.", (*worker).edgeRows},
		{"Work {n} {rows} in all in garter st for a band that lies under the other edge: the fronts meet edge to edge.", (*worker).edgeRows},
		{"Work {n} {rows} in all, in one with the front edges, in garter st (knit every row), and bind off. No cord: for a closer edge use a smaller needle or k1, p1 ribbing.", (*worker).edgeRows},
		{"Work the last 4 rows of them in garter st (knit every row), so that the edge neither rolls nor draws in; bind off loosely.", nothing},
		{"Work {n} {rows} in all in garter st (knit every row), and bind off. No cord: for a closer edge use a smaller needle or k1, p1 ribbing. Lay one end of the edge over the other at the neck, and sew both down.", (*worker).edgeRows},
		{"Work {n} {rows} in all, in garter st (knit every row), and bind off. No cord: for a closer edge use a smaller needle or k1, p1 ribbing. Lay one end of the edge over the other at the neck, and sew both down.", (*worker).edgeRows},
		{"Graft the two halves or join them with a 3-needle bind-off.", nothing},
		{"Graft the last {n} {sts}, or join them with a 3-needle bind-off.", (*worker).gather},
		{"Cut the yarn, draw it through the {n} {sts} left and pull tight.", (*worker).gather},
		{"Sew the side edges together with mattress st.", nothing},
		{"Fold the hood in half, RS together, and join its top with a 3-needle bind-off, {n} {sts} to {n}.", (*worker).foldHood},
		{"Fold the hood in half, RS together, and join its top with a 3-needle bind-off, {n} {sts} to {n}; the fold keeps a point.", (*worker).foldHood},
		{"Sew the {n} {sts} of each side evenly along its edges.", (*worker).panelSides},
		{"Pick up a few sts at the top end of the zipper and knit a small flap over it, so that it cannot catch the chin.", nothing},
		{"In the next row cast on {n} over each gap.", (*worker).overGaps},

		// Short rows.
		{"German short rows over {n} {sts}, half of the foot: knit or purl to the turn, turn, slip the first st and pull it over the needle into a double stitch.", (*worker).heel},
		{"Back of the neck in German short rows (at each turn slip the first st and pull it over the needle into a double stitch). Rows {n}–{n}: work {n}, turn, work {n}, turn.", (*worker).shortFromEdge},
		{"Back of the seat in German short rows (at each turn slip the first st and pull it over the needle into a double stitch). Rows {n}–{n}: from the middle of the back k{n}, turn, p{n}, turn.", (*worker).shortFromMiddle},
		{"Rows {n}–{n}: each row to {n} {sts} past the turn before it, the double stitch as one, turn; the last is over {n} {sts}.", (*worker).further},
		{"From here on in rounds.", nothing},
	}
}
