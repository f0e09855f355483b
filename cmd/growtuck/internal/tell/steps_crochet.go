package tell

import (
	"strconv"

	"growtuck/sizing/plan"
)

// crochet is how crochet is worded, by the abbreviations of the trade standard: in
// US terms, which term turns into those asked for.
var crochet = craft{
	steps:        crochetSteps,
	increaseUses: 1,
	plain:        func(st Style, _ plan.Step) string { return st.mainStitch() + " in each st" },
	some:         func(st Style, _ plan.Step) string { return st.mainStitch() + " {}" },
	increase:     func(Style, plan.Step) string { return "inc" },
	decrease:     func(st Style, _ plan.Step) string { return st.mainStitch() + "2tog" },
	start: func(st Style, step plan.Step) string {
		if step.InRounds && st.Rounds == plan.RoundsSpiral {
			return ""
		}
		return "ch " + strconv.Itoa(st.turningChain()) + ", "
	},
	end: func(st Style, step plan.Step) string {
		switch {
		case !step.InRounds:
			return "; turn"
		case st.Rounds == plan.RoundsSpiral:
			return ""
		case st.Rounds == plan.RoundsJoined:
			return "; join"
		}
		return "; join, turn"
	},
	sided:  func(step plan.Step) bool { return step.Row == 1 },
	shape:  crochetShape,
	raglan: crochetRaglan,
	slots: func(st Style) []string {
		s := st.mainStitch()
		foundation := st.foundation()
		return []string{"{sc}", s, "{sc2tog}", s + "2tog", "{inch}", foundation, "{skip}", st.term("skip"), "{sl st}", st.term("sl st"),
			"{FP}", "FP" + s, "{BP}", "BP" + s, "{tch}", "ch " + strconv.Itoa(st.turningChain()) + ", ", "{ch0}", st.spiralOr("ch " + strconv.Itoa(st.turningChain()) + ", "),
			"{foundation}", "foundation " + s}
	},
	noun: func(st Style) string { return st.mainStitch() },
	notes: func(st Style, inRounds bool) []string {
		s, chain := st.mainStitch(), "ch "+strconv.Itoa(st.turningChain())
		items := []string{s + " 4 is 1 " + s + " in each of the next 4 sts; what stands in brackets is worked as often as it says. Move markers up with the work.",
			"Rows begin with " + chain + ", which is no stitch: the first " + s + " goes into the first st."}
		switch {
		case !inRounds:
			return items
		case st.Rounds == plan.RoundsSpiral:
			return append(items, "Rounds go on in a spiral, without joining; keep a marker in the first st of the round.")
		case st.Rounds == plan.RoundsJoined:
			return append(items, "join: "+st.term("sl st")+" in the first st of the round. Rounds are not turned.")
		}
		return append(items, "join, turn: "+st.term("sl st")+" in the first st of the round, then turn: the fabric is that of turned rows.")
	},
}

// ukTerms are the UK's words where they are other ones.
var ukTerms = map[string]string{"sc": "dc", "hdc": "htr", "dc": "tr", "sl st": "ss", "skip": "miss"}

// term is a US term in the terms asked for.
func (st Style) term(us string) string {
	if uk, other := ukTerms[us]; other && st.Terms == plan.UK {
		return uk
	}
	return us
}

// mainStitch is the fabric's stitch.
func (st Style) mainStitch() string {
	if st.Stitch == "" {
		return st.term(string(plan.Single))
	}
	return st.term(string(st.Stitch))
}

func (st Style) turningChain() int { return plan.How{Stitch: st.Stitch}.TurningChain() }

// spiralOr is a word that spiral rounds have not.
func (st Style) spiralOr(word string) string {
	if st.Rounds == plan.RoundsSpiral {
		return ""
	}
	return word
}

// foundation says where the first stitch is worked into a chain.
func (st Style) foundation() string {
	return "in the " + ordinal(st.turningChain()+1) + " ch from the hook and in each ch"
}

// postRibbing reports ribbing worked in rounds or rows of post stitches: those of
// double crochet. Lower stitches are worked sideways, in their back loops.
func (st Style) postRibbing() bool { return st.Stitch == plan.Double }

func crochetShape(st Style, where string, increases bool, n int) string {
	s := st.mainStitch()
	dec, inc := repeatedWord(s+"2tog", n), repeatedWord("inc", n)
	to := func(n int) string { return s + " to " + toMarker(n) }
	last := func(n int) string { return s + " to the last " + someSts(n) }
	switch where {
	case "tube", "edges":
		if increases {
			return s + " 1, " + inc + ", " + last(n+1) + ", " + inc + ", " + s + " 1"
		}
		return s + " 1, " + dec + ", " + last(2*n+1) + ", " + dec + ", " + s + " 1"
	case "sides":
		if increases {
			return "(" + to(n) + ", " + inc + ", move the marker up) twice, " + s + " to the end"
		}
		return "(" + to(2*n) + ", " + dec + ", move the marker up) twice, " + s + " to the end"
	}
	if increases { // the middle of the back
		return to(n) + ", " + inc + ", move the marker up, " + inc + ", " + s + " to the end"
	}
	return to(2*n) + ", " + dec + ", move the marker up, " + dec + ", " + s + " to the end"
}

// crochetRaglan makes stitches on the body's side and the sleeve's side of each
// line: the body is before the first and third marker and after the second and
// fourth.
func crochetRaglan(st Style, body, sleeve, between int) string {
	s := st.mainStitch()
	incs := func(n int) string {
		if n == 2 {
			return "inc, " + s + " " + strconv.Itoa(between) + ", inc"
		}
		return "inc"
	}
	at := func(before, after int) string {
		text := s + " to " + toMarker(before+max(0, before-1)*between) + ", "
		if before > 0 {
			text += incs(before) + ", "
		}
		text += "move the marker up"
		if after > 0 {
			text += ", " + incs(after)
		}
		return text
	}
	if body == sleeve {
		return "(" + at(body, sleeve) + ") 4 times, " + s + " to the end"
	}
	return "(" + at(body, sleeve) + ", " + at(sleeve, body) + ") twice, " + s + " to the end"
}

// sideways is ribbing of back loops: the plan's stitches are its rows, one for each
// stitch of the edge, and the plan's rows the stitches that it is deep.
const (
	sidewaysStrip = "Ribbing, worked sideways: ch {deep_chain}. First row: {sc} {inch} — {deep} {sc}. In each next row: turn, {tch}{sc} {deep} in BLO; {stitches} rows in all."
	sidewaysEdge  = "Ribbing, worked sideways along the edge: join yarn, ch {deep_chain}. First row: {sc} {inch}; {sl st} in the next st of the edge — {deep} {sc}. In each next row, turned each time: {sc} {deep} in BLO, and in every row that comes to the edge {sl st} in its next 2 sts: {stitches} rows, one for each st of the edge. Fasten off."
	sidewaysRing  = " Sew the first row to the last."
)

// crochetSteps are the words of crochet for the steps of a plan, by kind; steps.go
// says what the slots are.
var crochetSteps = map[string]string{
	// Beginning, and going on from what is there.
	"cast-on":                 "The ribbing is made first.",
	"cast-on@posts":           "Ch {cast_on_chain}; row 1 is worked {inch}.",
	"cast-on@posts@rounds":    "Ch {cast_on}; join with a {sl st} in the first ch to a ring without twisting.",
	"cast-on-tube":            "The ribbing is made first. The round begins at the middle of the front.",
	"cast-on-tube@posts":      "Ch {cast_on}; join with a {sl st} in the first ch to a ring without twisting, at the middle of the front.",
	"cast-on-waist":           "The ribbing is made first. The round begins at the middle of the back: place a marker there, and one at each side, a quarter of the round from there.",
	"cast-on-waist@posts":     "Ch {cast_on} for the waist; join with a {sl st} in the first ch to a ring without twisting. The round begins at the middle of the back: place a marker there, and one at each side, a quarter of the round from there.",
	"cast-on-strap":           "Ch {cast_on_chain}; row 1 is worked {inch}.",
	"cast-on-neck":            "Ch {cast_on_chain} for the neck, loosely; the row begins at the middle of the front.",
	"cast-on-neck@rounds":     "Ch {cast_on} for the neck, loosely; join with a {sl st} in the first ch to a ring without twisting, at the middle of the front.",
	"cast-on-neck@chainless":  "The neck of {cast_on} sts is begun without a chain; the row begins at the middle of the front.",
	"cast-on-back":            "Ch {cast_on_chain}: {shoulder} for a shoulder, {neck} for the neck, {shoulder} for a shoulder, and the turning chain; the first row is worked {inch}.",
	"cast-on-back@chainless":  "Work {cast_on} {foundation} as the first row: {shoulder} for a shoulder, {neck} for the neck, {shoulder} for a shoulder.",
	"cast-on-neck-edge":       "At the neck edge ch {cast_on}; the next row is worked along it too: {to} sts.",
	"cast-on-neck-edges":      "Ch {cast_on} at the neck edge of one half and {cast_on_other} at the other; the next row is worked along them too: {to} and {to_other} sts.",
	"start-ring":              "{at}: {ch0}{cast_on} {sc} in a magic ring{end}",
	"start-oval":              "{at}: ch {chain}; {sc} {first} in the 2nd ch from the hook, {sc} {straight} along the ch, {sc} {curve} in the last ch; along the other side of the ch {sc} {straight}, {sc} 1 in the ch of the beginning{end}",
	"pick-up-neck":            "{at}: with RS facing, join yarn at the neck; {tch}{sc} {stitches} round it, in the other side of the foundation chain{end}",
	"hood-pick-up":            "{at}: with RS facing, join yarn at the right front edge of the neck; {tch}{sc} {stitches} in the other side of the foundation chain; place a marker at the middle of the back{end}",
	"pick-up-neck@chainless":  "{at}: with RS facing, join yarn at the neck; {tch}{sc} {stitches} round it, in the lower edge of the first row{end}",
	"hood-pick-up@chainless":  "{at}: with RS facing, join yarn at the right front edge of the neck; {tch}{sc} {stitches} in the lower edge of the first row; place a marker at the middle of the back{end}",
	"hood-from-tube":          "{at}: from the middle of the front and in rows from here on, {tch}{sc} {stitches}; place a marker at the middle of the back{end}",
	"mark-sides":              "Place a marker at each side, with {half} for the front and {half} for the back.",
	"pick-up-shoulders":       "{at}: with RS facing, join yarn at a shoulder of the back; {tch}{sc} {stitches} in the other side of its chain{end}",
	"pick-up-armholes":        "{at}: with RS facing, join yarn at the underarm; {ch0}{sc} {stitches} evenly round the armhole{end}",
	"pick-up-sides":           "{at}: with RS facing, join yarn at the underarm; {tch}{sc} {stitches} evenly along the sides of front and back{end}",
	"pick-up-thumb":           "{at}: join yarn; {ch0}{sc} {on_hold} in the sts left, 1 in the corner, {other_side} along the other side of the chain and 1 in the other corner{end}",
	"pick-up-front-edges":     "{at}: with RS facing, join yarn at a front edge; {tch}{sc} {pickup}{end} Work {rows:rows} in all, turned, at each front edge, so that it neither gathers nor flares.",
	"pick-up-button-band":     "{at}: behind one front edge join yarn; {tch}{sc} {stitches}{end} Work {rows:rows} in all for a band that lies under the other edge: the fronts meet edge to edge.",
	"sleeve-from-yoke":        "{at}: join yarn in the middle of the ch at the underarm; {ch0}{sc} {half} along the other side of the ch, {sc} {on_hold} round the armhole, {sc} {rest} along the ch{end} The seam will run down from there.",
	"sleeve-from-yoke@rounds": "{at}: join yarn in the middle of the ch at the underarm; {ch0}{sc} {half} along the other side of the ch, {sc} {on_hold} round the armhole, {sc} {rest} along the ch{end}",
	"divide":                  "{at}: {tch}{sc} {front} (front), ch {cast_on} (underarm), {skip} {on_hold} for a sleeve, {sc} {back} (back), ch {cast_on} (underarm), {skip} {on_hold} for a sleeve, {sc} {other_front} (front){turn} — {body} sts: {worked} {sc} and the ch. Place a marker in the middle of each ch; the next {line} is worked into them too.",
	"join-halves":             "Join the two halves of the front: the next {line} is worked over both — {stitches:sts}.",
	"join-halves-cast-on":     "Join the two sides of the front, with ch {cast_on} between them: the next {line} is worked over all — {stitches:sts}.",
	"join-fronts-cast-on":     "The front is closed from here on: at its end ch {cast_on}, as wide as the edges and what closes them will be, and join to the other front; the next round is worked over all — {stitches:sts}. The lower ends of the edges are sewn to the ch.",
	"join-fronts-back":        "Join fronts and back, a marker at each side: the next {line} is worked over all — {stitches:sts}.",
	"join-front-back-cast-on": "Join front and back, with ch {cast_on} at each underarm and a marker in the middle of each: the next {line} is worked over all — {stitches:sts}.",
	"divide-legs":             "Divide at the centre front and the centre back: {each} sts for each leg. Between them ch {bridge} for the bridge; the second leg is worked along its other side.",
	"leg-round":               "{at}: join yarn in the middle of the bridge; {ch0}{sc} {half} along the bridge, {sc} {body} of the body, {sc} {rest} along the bridge{end} The seam will run from there down the inside of the leg.",
	"leg-round@rounds":        "{at}: join yarn in the middle of the bridge; {ch0}{sc} {half} along the bridge, {sc} {body} of the body, {sc} {rest} along the bridge{end}",
	"thumb-hole":              "Thumb hole, at the side: in the next {line} ch {cast_on} and {skip} {on_hold} sts.",

	// Ribbing: on its own, and along an edge.
	"rib":                  sidewaysStrip,
	"rib@rounds":           sidewaysStrip + sidewaysRing + " The next round is worked into the ends of its rows, one st in each.",
	"rib@posts":            "{at}: {tch}({FP}, {BP}) to the end{end}",
	"rib-elastic":          sidewaysStrip + sidewaysRing + " For elastic work it twice as deep and fold it in. The next round is worked into the ends of its rows, one st in each.",
	"rib-elastic@posts":    "{at}: {tch}({FP}, {BP}) to the end{end} For elastic work it twice as deep and fold it in.",
	"rib-finish":           sidewaysEdge,
	"rib-finish@rounds":    sidewaysEdge + sidewaysRing,
	"rib-finish@posts":     "{at}: {tch}({FP}, {BP}) to the end{end} Fasten off.",
	"rib-finish-on":        sidewaysEdge,
	"rib-finish-on@rounds": sidewaysEdge + sidewaysRing,
	"rib-finish-on@posts":  "{at}: {tch}({FP}, {BP}) to the end{end} Fasten off.",
	"bind-off":             "Fasten off.",

	// Straight work.
	"skirt-straight-open": "{at}: {tch}{all}{end} Finish with a row that does not draw in.",
	"skirt-straight":      "{at}: {ch0}{all}{end} Finish with a round that does not draw in.",

	// Shaping over many rows.
	"armhole-increase-every-row": "{at}: {tch}{all}; in the last {last} of them {tch}{sc} 1, inc, {sc} to the last 2 sts, inc, {sc} 1{end}",
	"armhole-increase-every-2nd": "{at}: {tch}{all}; in every 2nd of the last {last} of them {tch}{sc} 1, inc, {sc} to the last 2 sts, inc, {sc} 1{end}",
	"neck-increase-every-row":    "{at}: {tch}{all}, the first {rows} even; then in every row inc in the 2nd st from the neck edge, {then} times in all{end}",
	"neck-increase-every-nth":    "{at}: {tch}{all}, the first {rows} even; then in every {every:nth} row inc in the 2nd st from the neck edge{end}",
	"tip-turned":                 "{at}: place a marker after half of the sts; in each row {tch}{sc} 1, {sc2tog}, {sc} to 2 sts before the marker, {sc2tog}, move the marker up, {sc2tog}, {sc} to the last 3 sts, {sc2tog}, {sc} 1{end} Sew or {sl st} the two halves together.",
	"tip-turned-every":           "{at}: place a marker after half of the sts; in every {every:nth} row, the first one first, {tch}{sc} 1, {sc2tog}, {sc} to 2 sts before the marker, {sc2tog}, move the marker up, {sc2tog}, {sc} to the last 3 sts, {sc2tog}, {sc} 1{end} Sew or {sl st} the two halves together.",
	"tip":                        "{at}: place a marker after half of the sts; in each {line} {ch0}({sc2tog}, {sc} to 2 sts before the marker, {sc2tog}, move the marker up) twice{end} Sew or {sl st} the two halves together.",
	"gather":                     "Fasten off, draw the end through the {stitches:sts} left and pull tight.",

	// Short rows.
	"heel":                           "Short rows over {stitches:sts}, half of the foot: turn before the sts that are left, without a turning chain, {sl st} in the first st.",
	"heel-leave":                     "{at}: in each row leave {each} more unworked before the turn; {middle} remain in the middle{end}",
	"heel-leave-uneven":              "{at}: in each row leave {each} more unworked before the turn in {pairs} of the {all_pairs:pairs}, {each_other} in the other {pairs_other}; {middle} remain in the middle{end}",
	"heel-take-up":                   "{at}: in each row work that many more before the turn, in the opposite order{end}",
	"short-rows-neck":                "Back of the neck in short rows. {at}: {sc} {inch}, {start_at} in all; turn; {sc} {first}; turn.",
	"short-rows-neck@chainless":      "Back of the neck in short rows. {at}: {start_at} {foundation}; turn; {sc} {first}; turn.",
	"short-rows-further@chainless":   "{at}: each row to {further:sts} past the turn before it, where the first row ended as {foundation}; turn; the last is over {last:sts}.",
	"short-rows-neck-end@chainless":  "{at}: {sc} to the end of the row, and {foundation} on to all of the neck{end}",
	"short-rows-neck-join@chainless": "{at}: {sc} to the end of the row, and {foundation} on to all of the neck{end} From here on in rounds.",
	"short-rows-neck-end":            "{at}: {sc} to the end of the row{end}",
	"short-rows-neck-join":           "{at}: {sc} to the end{end} From here on in rounds.",
	"short-rows-seat":                "Back of the seat in short rows. {at}: from the middle of the back {tch}{sc} {half}; turn; {sc} {first}; turn.",
	"short-rows-seat-end":            "{at}: {sc} the {half} back to the middle of the back{end}",
	"short-rows-further":             "{at}: each row to {further:sts} past the turn before it, no turning chain; turn; the last is over {last:sts}.",

	// Openings and closures.
	"zipper-guard": "At the top end of the zipper work a small flap over it, so that it cannot catch the chin.",
	"strap-hole":   "In row {hole_row} a buttonhole: after {side:sts} ch {size}, skip {size:sts}; in the next row {sc} in each ch — {stitches:sts}.",
	"buttonholes":  "Buttonholes, in the first row of the other front edge: {holes}; turn — {stitches:sts}. In the next row {sc} in each ch.",

	// Room to grow.
	"let-down-on-hold": "{section:section}: undo what is below the thread, join yarn in the first of its {stitches:sts}, work {rows:rows} more even, then the edge as before: the {part} is {then:cm1}.",

	// Joining and finishing.
	"finish-piece":          "Fasten off with a long end to sew with.",
	"join-flat":             "Sew or {sl st} the last {stitches} sts together, half to half.",
	"seam-sides":            "Sew the side edges together.",
	"hood-seam":             "Fold the hood in half, RS together, and {sl st} its top together, {half} to {half}. Turn it RS out.",
	"hood-seam-point":       "Fold the hood in half, RS together, and {sl st} its top together, {half} to {half}; the fold keeps a point. Turn it RS out.",
	"hood-panel":            "{at}: on the {panel} at the middle of the back {tch}{all}{end} Sew the {each_side} sts of each side evenly along its edges.",
	"hood-edge":             "{at}: with RS facing, join yarn at the neck; {tch}{sc} {each} up one side of the face edge and {each} down the other{end} Work {rows:rows} in all, turned, in one with the front edges." + noCord + "a smaller hook or ribbing.",
	"hood-edge-alone":       "{at}: with RS facing, join yarn at the neck; {tch}{sc} {each} up one side of the face edge and {each} down the other{end} Work {rows:rows} in all, turned." + noCord + "a smaller hook or ribbing. Lay one end of the edge over the other at the neck, and sew both down.",
	"hood-edge-panel":       "{at}: with RS facing, join yarn at the neck; {tch}{sc} {each} up one side of the face edge, {panel} along the end of the panel and {each} down the other side{end} Work {rows:rows} in all, turned, in one with the front edges." + noCord + "a smaller hook or ribbing.",
	"hood-edge-panel-alone": "{at}: with RS facing, join yarn at the neck; {tch}{sc} {each} up one side of the face edge, {panel} along the end of the panel and {each} down the other side{end} Work {rows:rows} in all, turned." + noCord + "a smaller hook or ribbing. Lay one end of the edge over the other at the neck, and sew both down.",
}

// crochetChain is how many chains a foundation of so many stitches takes.
func (st Style) crochetChain(stitches int) int { return stitches + st.turningChain() }
