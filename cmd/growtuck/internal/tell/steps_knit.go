package tell

import (
	"strconv"
	"strings"

	"growtuck/sizing/plan"
)

// knit is how knitting is worded, by the abbreviations of the trade standard.
var knit = craft{
	steps: knitSteps,
	plain: func(_ Style, step plan.Step) string {
		switch {
		case step.InRounds:
			return "knit"
		case step.Rows > 1:
			return "work in St st"
		case step.WrongSide:
			return "purl"
		}
		return "knit"
	},
	some:     func(_ Style, step plan.Step) string { return knitOrPurl(step) + "{}" },
	increase: func(_ Style, step plan.Step) string { return map[bool]string{false: "M1L", true: "M1p"}[purled(step)] },
	decrease: func(_ Style, step plan.Step) string { return knitOrPurl(step) + "2tog" },
	start:    func(Style, plan.Step) string { return "" },
	end:      func(Style, plan.Step) string { return "" },
	sided:    func(plan.Step) bool { return true },
	shape:    knitShape,
	raglan:   knitRaglan,
	slots:    func(Style) []string { return nil },
	noun:     func(Style) string { return "sts" },
	notes: func(_ Style, inRounds bool) []string {
		items := []string{"k4 is knit 4, p4 purl 4; what stands in brackets is worked as often as it says. Markers are slipped where they are not named."}
		if inRounds {
			items = append(items, "Narrow rounds are worked on double-pointed needles or by magic loop, wide ones on a circular needle.")
		}
		return items
	},
}

func purled(step plan.Step) bool { return step.WrongSide && !step.InRounds }

func knitOrPurl(step plan.Step) string {
	if purled(step) {
		return "p"
	}
	return "k"
}

func knitShape(_ Style, where string, increases bool, n int) string {
	k2tog, ssk := repeatedWord("k2tog", n), repeatedWord("ssk", n)
	m1r, m1l := apart("M1R", n), apart("M1L", n)
	two := strconv.Itoa(2 * n)
	switch where {
	case "tube":
		if increases {
			return "k1, " + m1r + ", knit to the last " + someSts(n) + ", " + m1l + ", k1"
		}
		return "k1, " + k2tog + ", knit to the last " + someSts(2*n+1) + ", " + ssk + ", k1"
	case "edges":
		if increases {
			return "k1, " + m1r + ", knit to the last " + someSts(n) + ", " + m1l + ", k1"
		}
		return "k1, " + ssk + ", knit to the last " + someSts(2*n+1) + ", " + k2tog + ", k1"
	case "sides":
		if increases {
			return "(knit to " + toMarker(n-1) + ", " + m1r + ", sm) twice, knit to the end"
		}
		return "(knit to " + two + " sts before the marker, " + k2tog + ", sm) twice, knit to the end"
	}
	if increases { // the middle of the back
		return "knit to " + toMarker(n-1) + ", " + m1r + ", sm, " + m1l + ", knit to the end"
	}
	return "knit to " + two + " sts before the marker, " + ssk + ", sm, " + k2tog + ", knit to the end"
}

// knitRaglan makes stitches on the body's side and the sleeve's side of each line:
// the body is before the first and third marker and after the second and fourth.
func knitRaglan(_ Style, body, sleeve, between int) string {
	made := func(n int, what string) string {
		if n == 2 {
			return what + ", k" + strconv.Itoa(between) + ", " + what
		}
		return what
	}
	before := func(n int, what string) string {
		if n == 0 {
			return "knit to the marker, sm"
		}
		return "knit to " + toMarker(1+(n-1)*between) + ", " + made(n, what) + ", k1, sm"
	}
	after := func(n int, what string) string {
		if n == 0 {
			return ""
		}
		return ", k1, " + made(n, what)
	}
	if body == sleeve {
		return "(" + before(body, "M1R") + after(sleeve, "M1L") + ") 4 times, knit to the end"
	}
	return "(" + before(body, "M1R") + after(sleeve, "M1L") + ", " + before(sleeve, "M1R") + after(body, "M1L") + ") twice, knit to the end"
}

// apart repeats an increase that is made between two stitches.
func apart(word string, n int) string {
	return strings.TrimSuffix(strings.Repeat(word+", k1, ", n), ", k1, ")
}

func repeatedWord(word string, n int) string {
	return strings.TrimSuffix(strings.Repeat(word+", ", n), ", ")
}

func someSts(n int) string {
	if n == 1 {
		return "st"
	}
	return strconv.Itoa(n) + " sts"
}

// toMarker is a place before the next marker.
func toMarker(n int) string {
	switch n {
	case 0:
		return "the marker"
	case 1:
		return "1 st before the marker"
	}
	return strconv.Itoa(n) + " sts before the marker"
}

// knitSteps are the words of knitting for the steps of a plan, by kind; steps.go
// says what the slots are.
var knitSteps = map[string]string{
	// Beginning, and going on from what is there.
	"cast-on-strap":           "Cast on {cast_on:sts}.",
	"cast-on":                 "Cast on {cast_on:sts} with a stretchy cast-on.",
	"cast-on@rounds":          "Cast on {cast_on:sts} with a stretchy cast-on on double-pointed needles or for magic loop; join in the round without twisting, pm.",
	"cast-on-brim":            "Cast on {cast_on:sts} for the brim with a stretchy cast-on; join in the round without twisting, pm.",
	"cast-on-tube":            "Cast on {cast_on:sts} with a stretchy cast-on; join in the round without twisting, pm at the middle of the front.",
	"cast-on-waist":           "Cast on {cast_on:sts} for the waist with a stretchy cast-on; join in the round without twisting. Pm at the middle of the back, where the round begins, and one at each side, a quarter of the round from there.",
	"cast-on-neck":            "Cast on {cast_on:sts} for the neck on a circular needle, not tightly; the row begins at the middle of the front. Do not join.",
	"cast-on-neck@rounds":     "Cast on {cast_on:sts} for the neck on a circular needle, not tightly; join in the round without twisting, pm at the middle of the front.",
	"cast-on-back":            "Cast on {cast_on:sts}: {shoulder} for a shoulder, {neck} for the neck, {shoulder} for a shoulder.",
	"cast-on-neck-edge":       "At the neck edge cast on {cast_on:sts}: {to:sts}.",
	"cast-on-neck-edges":      "Cast on {cast_on:sts} at the neck edge of one half and {cast_on_other} at the other: {to:sts} and {to_other}.",
	"start-oval":              "Cast on {cast_on:sts}. {at}: knit them, then pick up and knit {other_side} along their other side; join in the round, pm{end}",
	"start-ring":              "Cast on {cast_on:sts} and join in the round, pm. {at}: {all}{end}",
	"pick-up-neck":            "{at}: with RS facing, pick up and knit {stitches} round the neck{end}",
	"hood-pick-up":            "{at}: with RS facing, from the right front edge pick up and knit {stitches} round the neck; pm at the middle of the back{end}",
	"hood-from-tube":          "{at}: from the middle of the front and in rows from here on, k{stitches}; pm at the middle of the back{end}",
	"mark-sides":              "Pm at each side, with {half} for the front and {half} for the back.",
	"pick-up-shoulders":       "{at}: with RS facing, pick up and knit {stitches} along a shoulder of the back{end}",
	"pick-up-armholes":        "{at}: with RS facing, pick up and knit {stitches} round the armhole on double-pointed needles or for magic loop; join in the round{end}",
	"pick-up-sides":           "{at}: with RS facing, pick up and knit {stitches} along the sides of front and back{end}",
	"pick-up-sides@rounds":    "{at}: with RS facing, from the underarm pick up and knit {stitches} along the sides of front and back, on double-pointed needles or for magic loop; join in the round, pm{end}",
	"pick-up-thumb":           "{at}: k{on_hold} from hold, pick up and knit 1 in the corner, {other_side} along their other side and 1 in the other corner{end}",
	"pick-up-front-edges":     "{at}: with RS facing, pick up and knit along each front edge {pickup}{end} Work {rows:rows} in all in garter st (knit every row); bind off so that the edge neither gathers nor flares.",
	"pick-up-button-band":     "{at}: behind one front edge pick up and knit {stitches}{end} Work {rows:rows} in all in garter st for a band that lies under the other edge: the fronts meet edge to edge. Bind off.",
	"sleeve-from-yoke":        "{at}: from the middle of the underarm pick up and knit {half} along it, k{on_hold} from hold, pick up and knit {rest}{end} The seam will run down from there.",
	"sleeve-from-yoke@rounds": "{at}: on double-pointed needles or for magic loop, from the middle of the underarm pick up and knit {half} along it, k{on_hold} from hold, pick up and knit {rest}; join in the round, pm{end}",
	"divide":                  "{at}: k{front} (front), place {on_hold} on hold for a sleeve, cast on {cast_on} (underarm), k{back} (back), place {on_hold} on hold for a sleeve, cast on {cast_on} (underarm), k{other_front} (front){end} Pm in the middle of each underarm.",
	"join-halves":             "Join the two halves of the front on one needle: {stitches:sts}.",
	"join-halves-cast-on":     "Join the two sides of the front, with {cast_on:sts} cast on between them: {stitches:sts}.",
	"join-fronts-cast-on":     "The front is closed from here on: at its end cast on {cast_on:sts}, as wide as the edges and what closes them will be, and join in the round: {stitches:sts}. The lower ends of the edges are sewn to them.",
	"join-fronts-back":        "Join fronts and back on one needle, pm at each side: {stitches:sts}.",
	"join-front-back-cast-on": "Join front and back on one needle, with {cast_on:sts} cast on at each underarm, pm in the middle of each: {stitches:sts}.",
	"divide-legs":             "Divide at the centre front and the centre back: {each:sts} for each leg; place those of the second leg on hold. For the first leg cast on a bridge of {bridge:sts} from front to back; the second leg picks up along its other side.",
	"leg-round":               "{at}: from the middle of the bridge k{half} of the bridge, k{body} of the body, k{rest} of the bridge{end} The seam will run from there down the inside of the leg.",
	"leg-round@rounds":        "{at}: from the middle of the bridge k{half} of the bridge (for the second leg pick up and knit them), k{body} of the body, k{rest} of the bridge; join in the round, pm{end}",
	"thumb-hole":              "Thumb hole: place {on_hold:sts} on hold at the side; cast on {cast_on} over them in the next {line}.",

	// Ribbing.
	"rib":           "{at}: (k1, p1) to the end{end}",
	"rib-elastic":   "{at}: (k1, p1) to the end{end} For elastic work it twice as deep and fold it in.",
	"rib-finish":    "{at}: (k1, p1) to the end{end} Bind off loosely in rib, so that the edge stretches.",
	"rib-finish-on": "{at}: (k1, p1) to the end{end} Bind off loosely in rib, so that the edge stretches.",
	"bind-off":      "Bind off loosely, so that the edge stretches.",

	// Straight work.
	"skirt-straight-open": "{at}: {all}{end} Work the last 4 rows of them in garter st (knit every row), so that the edge neither rolls nor draws in; bind off loosely.",
	"skirt-straight":      "{at}: {all}{end} Work the last 4 rounds of them in garter st (purl 1 round, knit 1 round), so that the edge neither rolls nor draws in; bind off loosely.",

	// Shaping over many rows.
	"armhole-increase-every-row": "{at}: work in St st; in the last {last} of them k1, M1R, knit to the last st, M1L, k1 (on WS rows purl and M1p){end}",
	"armhole-increase-every-2nd": "{at}: work in St st; in every 2nd of the last {last} of them, on RS rows, k1, M1R, knit to the last st, M1L, k1{end}",
	"neck-increase-every-row":    "{at}: work in St st, the first {rows} even; then in every row M1 inside the edge st at the neck edge, {then} times in all{end}",
	"neck-increase-every-nth":    "{at}: work in St st, the first {rows} even; then in every {every:nth} row, on RS rows, M1 inside the edge st at the neck edge{end}",
	"tip-turned":                 "{at}: pm after half of the sts; in each row k1, ssk, knit to 2 sts before the marker, k2tog, sm, ssk, knit to the last 3 sts, k2tog, k1{end} Graft the two halves or join them with a 3-needle bind-off.",
	"tip-turned-every":           "{at}: pm after half of the sts; in each RS row k1, ssk, knit to 2 sts before the marker, k2tog, sm, ssk, knit to the last 3 sts, k2tog, k1; purl the others{end} Graft the two halves or join them with a 3-needle bind-off.",
	"tip":                        "{at}: pm after half of the sts; in each {line} (ssk, knit to 2 sts before the marker, k2tog, sm) twice{end} Graft the two halves or join them with a 3-needle bind-off.",
	"gather":                     "Cut the yarn, draw it through the {stitches:sts} left and pull tight.",

	// Short rows, which are German ones: at each turn a double stitch.
	"heel":                 "German short rows over {stitches:sts}, half of the foot: knit or purl to the turn, turn, slip the first st and pull it over the needle into a double stitch.",
	"heel-leave":           "{at}: in each row leave {each} more unworked before the turn; {middle} remain in the middle{end}",
	"heel-leave-uneven":    "{at}: in each row leave {each} more unworked before the turn in {pairs} of the {all_pairs:pairs}, {each_other} in the other {pairs_other}; {middle} remain in the middle{end}",
	"heel-take-up":         "{at}: in each row work that many more before the turn, in the opposite order, the double stitches as one{end}",
	"short-rows-neck":      "Back of the neck in German short rows (at each turn slip the first st and pull it over the needle into a double stitch). {at}: work {start_at}, turn, work {first}, turn.",
	"short-rows-neck-end":  "{at}: work to the end of the row, the double stitches as one{end}",
	"short-rows-neck-join": "{at}: work to the end, the double stitches as one{end} From here on in rounds.",
	"short-rows-seat":      "Back of the seat in German short rows (at each turn slip the first st and pull it over the needle into a double stitch). {at}: from the middle of the back k{half}, turn, p{first}, turn.",
	"short-rows-seat-end":  "{at}: k{half} back to the middle of the back{end}",
	"short-rows-further":   "{at}: each row to {further:sts} past the turn before it, the double stitch as one, turn; the last is over {last:sts}.",

	// Openings and closures.
	"zipper-guard": "Pick up a few sts at the top end of the zipper and knit a small flap over it, so that it cannot catch the chin.",
	"strap-hole":   "In row {hole_row} a buttonhole: after {side:sts} bind off {size}; in the next row cast on {size} over the gap — {stitches:sts}.",
	"buttonholes":  "Buttonholes, in the first row of the other front edge: {holes} — {stitches:sts}. In the next row cast on {size} over each gap.",

	// Room to grow.
	"let-down-on-hold": "{section:section}: undo what is below the thread, take its {stitches:sts} on the needle, work {rows:rows} more even, then the edge as before: the {part} is {then:cm1}.",

	// Joining and finishing.
	"finish-piece":          "Bind off loosely with a long end to sew with.",
	"join-flat":             "Graft the last {stitches:sts}, or join them with a 3-needle bind-off.",
	"seam-sides":            "Sew the side edges together with mattress st.",
	"hood-seam":             "Fold the hood in half, RS together, and join its top with a 3-needle bind-off, {half:sts} to {half}. Turn it RS out.",
	"hood-seam-point":       "Fold the hood in half, RS together, and join its top with a 3-needle bind-off, {half:sts} to {half}; the fold keeps a point. Turn it RS out.",
	"hood-panel":            "{at}: on the {panel} at the middle of the back work in St st{end} Sew the {each_side:sts} of each side evenly along its edges.",
	"hood-edge":             "{at}: with RS facing, along the face edge pick up and knit {each} up one side and {each} down the other{end} Work {rows:rows} in all, in one with the front edges, in garter st (knit every row), and bind off." + noCord + "a smaller needle or k1, p1 ribbing.",
	"hood-edge-alone":       "{at}: with RS facing, along the face edge pick up and knit {each} up one side and {each} down the other{end} Work {rows:rows} in all, in garter st (knit every row), and bind off." + noCord + "a smaller needle or k1, p1 ribbing. Lay one end of the edge over the other at the neck, and sew both down.",
	"hood-edge-panel":       "{at}: with RS facing, along the face edge pick up and knit {each} up one side, {panel} along the end of the panel and {each} down the other side{end} Work {rows:rows} in all, in one with the front edges, in garter st (knit every row), and bind off." + noCord + "a smaller needle or k1, p1 ribbing.",
	"hood-edge-panel-alone": "{at}: with RS facing, along the face edge pick up and knit {each} up one side, {panel} along the end of the panel and {each} down the other side{end} Work {rows:rows} in all, in garter st (knit every row), and bind off." + noCord + "a smaller needle or k1, p1 ribbing. Lay one end of the edge over the other at the neck, and sew both down.",
}
