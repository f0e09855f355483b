package follow

import "fmt"

func crochetSentences() []sentence {
	strip := "Ribbing, worked sideways: ch {n}. First row: {S} in the {into} and in each ch — {n} {S}. In each next row: turn, ch {n}, {S} {n} in BLO; {n} rows in all."
	edge := "Ribbing, worked sideways along the edge: join yarn, ch {n}. First row: {S} in the {into} and in each ch; {sl st} in the next st of the edge — {n} {S}. In each next row, turned each time: {S} {n} in BLO, and in every row that comes to the edge {sl st} in its next 2 sts: {n} rows, one for each st of the edge."
	return []sentence{
		// Beginnings.
		{"The ribbing is made first. The round begins at the middle of the back: place a marker there, and one at each side, a quarter of the round from there.", func(w *worker, _ []int) error { w.live, w.sides = 0, true; return nil }},
		{"The ribbing is made first. The round begins at the middle of the front.", func(w *worker, _ []int) error { w.live = 0; return nil }},
		{"Ch {n}; join with a {sl st} in the first ch to a ring without twisting, at the middle of the front.", func(w *worker, n []int) error { return w.begun(n[0]) }},
		{"The ribbing is made first.", func(w *worker, _ []int) error { w.live = 0; return nil }},
		{"In row {n} a buttonhole: after {n} {sts} ch {n}, {skip} {n} {sts}; in the next row {S} in each ch — {n} {sts}.", (*worker).strapHoleCrochet},
		{"Ch {n}; row 1 is worked in the {into} and in each ch.", func(w *worker, n []int) error { return w.begun(n[0] - w.turning) }},
		{"Ch {n}; join with a {sl st} in the first ch to a ring without twisting.", func(w *worker, n []int) error { return w.begun(n[0]) }},
		{"Ch {n} for the waist; join with a {sl st} in the first ch to a ring without twisting. The round begins at the middle of the back: place a marker there, and one at each side, a quarter of the round from there.", (*worker).waist},
		{"Ch {n} for the neck, loosely; the row begins at the middle of the front.", func(w *worker, n []int) error { return w.neckOf(n[0] - w.turning) }},
		{"Ch {n} for the neck, loosely; join with a {sl st} in the first ch to a ring without twisting, at the middle of the front.", func(w *worker, n []int) error { return w.neckOf(n[0]) }},
		{"The neck of {n} sts is begun without a chain; the row begins at the middle of the front.", func(w *worker, n []int) error { return w.neckOf(n[0]) }},
		{"Ch {n}: {n} for a shoulder, {n} for the neck, {n} for a shoulder, and the turning chain; the first row is worked in the {into} and in each ch.", func(w *worker, n []int) error { return w.backOf(n[0]-w.turning, n[1:]) }},
		{"Work {n} foundation {S} as the first row: {n} for a shoulder, {n} for the neck, {n} for a shoulder.", func(w *worker, n []int) error { return w.backOf(n[0], n[1:]) }},
		{"At the neck edge ch {n}; the next row is worked along it too: {n} sts.", (*worker).neckEdge},
		{"Ch {n} at the neck edge of one half and {n} at the other; the next row is worked along them too: {n} and {n} sts.", (*worker).neckEdges},

		// Going on.
		{"Place a marker at each side, with {n} for the front and {n} for the back.", (*worker).bothSides},
		{"The seam will run down from there.", nothing},
		{"The seam will run from there down the inside of the leg.", nothing},
		{"Place a marker in the middle of each ch; the next {line} is worked into them too.", nothing},
		{"Join the two halves of the front: the next {line} is worked over both — {n} {S}.", (*worker).joinHalves},
		{"Join the two sides of the front, with ch {n} between them: the next {line} is worked over all — {n} {S}.", (*worker).joinSides},
		{"Join fronts and back, a marker at each side: the next {line} is worked over all — {n} {S}.", (*worker).joinAll},
		{"Join front and back, with ch {n} at each underarm and a marker in the middle of each: the next {line} is worked over all — {n} {S}.", (*worker).joinAllWith},
		{"Divide at the centre front and the centre back: {n} sts for each leg. Between them ch {n} for the bridge; the second leg is worked along its other side.", (*worker).divideLegs},
		{"Thumb hole, at the side: in the next {line} ch {n} and {skip} {n} sts.", func(w *worker, n []int) error { return w.thumbHole(n[1], n[0]) }},

		{"The front is closed from here on: at its end ch {n}, as wide as the edges and what closes them will be, and join to the other front; the next round is worked over all — {n} {S}. The lower ends of the edges are sewn to the ch.", (*worker).closeFronts},

		// Ribbing.
		{strip, (*worker).strip},
		{edge, (*worker).sideways},
		{"Sew the first row to the last.", nothing},
		{"The next round is worked into the ends of its rows, one st in each.", nothing},
		{"Fasten off, draw the end through the {n} {sts} left and pull tight.", (*worker).gather},
		{"Fasten off.", nothing},
		{"Sew or {sl st} the two halves together.", nothing},
		{"Sew or {sl st} the last {n} sts together, half to half.", (*worker).gather},
		{"Finish with a round that does not draw in.", nothing},
		{"Finish with a row that does not draw in.", nothing},

		// Short rows.
		{"Short rows over {n} {S}, half of the foot: turn before the sts that are left, without a turning chain, {sl st} in the first st.", (*worker).heel},
		{"Back of the neck in short rows. Rows {n}–{n}: {S} in the {into} and in each ch, {n} in all; turn; {S} {n}; turn.", (*worker).shortFromEdge},
		{"Back of the neck in short rows. Rows {n}–{n}: {n} foundation {S}; turn; {S} {n}; turn.", (*worker).shortFromEdge},
		{"Back of the seat in short rows. Rows {n}–{n}: from the middle of the back ch {n}, {S} {n}; turn; {S} {n}; turn.", func(w *worker, n []int) error { return w.shortFromMiddle(append(n[:2:2], n[3:]...)) }},
		{"Rows {n}–{n}: each row to {n} {sts} past the turn before it, no turning chain; turn; the last is over {n} {sts}.", (*worker).further},
		{"Rows {n}–{n}: each row to {n} {sts} past the turn before it, where the first row ended as foundation {S}; turn; the last is over {n} {sts}.", (*worker).further},
		{"From here on in rounds.", nothing},

		// Edges and closures.
		{"Work {n} {rows} in all, turned, at each front edge, so that it neither gathers nor flares.", (*worker).edgeRows},
		{"Work {n} {rows} in all for a band that lies under the other edge: the fronts meet edge to edge.", (*worker).edgeRows},
		{"Work {n} {rows} in all, turned, in one with the front edges. No cord: for a closer edge use a smaller hook or ribbing.", (*worker).edgeRows},
		{"Work {n} {rows} in all, turned. No cord: for a closer edge use a smaller hook or ribbing. Lay one end of the edge over the other at the neck, and sew both down.", (*worker).edgeRows},
		{"At the top end of the zipper work a small flap over it, so that it cannot catch the chin.", nothing},
		{"Fold the hood in half, RS together, and {sl st} its top together, {n} to {n}.", (*worker).foldHood},
		{"Fold the hood in half, RS together, and {sl st} its top together, {n} to {n}; the fold keeps a point.", (*worker).foldHood},
		{"Sew the {n} sts of each side evenly along its edges.", (*worker).panelSides},
		{"Sew the side edges together.", nothing},
		{"In the next row {S} in each ch.", nothing},
	}
}

// strip is ribbing worked sideways before what goes on from the ends of its rows.
func (w *worker) strip(n []int) error {
	chain, first, turning, each, rows := n[0], n[1], n[2], n[3], n[4]
	if chain-w.turning != first || first != each || turning != w.turning {
		return fmt.Errorf("a chain of %d gives %d, not %d, and each row is over %d", chain, chain-w.turning, first, each)
	}
	w.live, w.markers = rows, nil
	if w.sides {
		w.sides, w.markers = false, []int{rows / 4, rows - rows/4}
	}
	for range first {
		w.worked(rows)
	}
	return nil
}

// sideways is ribbing worked sideways along an edge, a row for each of its stitches.
func (w *worker) sideways(n []int) error {
	chain, first, each, rows := n[0], n[1], n[2], n[3]
	switch {
	case chain-w.turning != first || first != each:
		return fmt.Errorf("a chain of %d gives %d, not %d, and each row is over %d", chain, chain-w.turning, first, each)
	case rows != w.live:
		return fmt.Errorf("%d rows for the %d stitches of the edge", rows, w.live)
	}
	for range first {
		w.worked(rows)
	}
	return nil
}
