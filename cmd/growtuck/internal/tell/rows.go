package tell

import (
	"strconv"

	"growtuck/sizing/plan"
)

// buttonholes is a row of buttonholes, stitch by stitch.
func (st Style) buttonholes(step plan.Step) phrase {
	c, b := st.craft(), *step.Buttonholes
	some := c.some(st, step)
	hole := "bind off " + strconv.Itoa(b.Size)
	if st.Craft == string(plan.Crochet) {
		hole = "ch " + strconv.Itoa(b.Size) + ", " + st.term("skip") + " " + strconv.Itoa(b.Size)
	}
	var p phrase
	p.add(c.start(st, step))
	if b.Ends > 0 {
		p.add(some+", ", b.Ends)
	}
	p.add(hole + ", ")
	p.groups(b.Gaps, some, hole)
	if b.Ends > 0 {
		p.add(", "+some, b.Ends)
	}
	return p
}

// pickUp is how stitches are picked up along the ends of rows: "3 for every 4 rows,
// 4 for every 5".
func (st Style) pickUp(step plan.Step) phrase {
	var p phrase
	pick := *step.PickUp
	switch {
	case len(pick.Groups) == 0 && pick.Stitches == pick.Rows:
		p.add("1 in each row")
	case len(pick.Groups) == 0:
		p.add("{} evenly over {rows}", pick.Stitches, pick.Rows)
	default:
		for i, g := range pick.Groups {
			if i > 0 {
				p.add(", then ")
			}
			p.add("{} in {rows}", g-1, g)
		}
		if len(pick.Groups) > 1 {
			p.add(", and so on")
		} else {
			p.add(" each time")
		}
		p.add(": {}", pick.Stitches)
	}
	if rib, ok := step.Values["rib"].(int); ok && rib > 0 {
		p.add(", and {} along the ribbing", rib)
	}
	return p
}
