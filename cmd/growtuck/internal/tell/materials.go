package tell

import (
	"math"
	"strconv"
	"strings"

	"growtuck/data"
	"growtuck/sizing"
	"growtuck/sizing/plan"
)

// buttonCm is a button for the buttonholes that plans have.
const buttonCm = 1.5

// materials are what the work takes.
func (x pattern) materials() Chapter {
	m := x.plan.Materials()
	items := x.yarn(m)
	items = append(items, x.tool(m))
	if z := m.Zipper; z != nil {
		switch {
		case z.Shorten:
			items = append(items, x.say("zipper-to-shorten", z.LongerIn, sizing.Length(z.UseCm)))
		case x.plan.Garment.Group == "upper":
			items = append(items, x.say("zipper-bought", z.LengthIn, z.LengthCm))
		default:
			items = append(items, x.say("zipper-closed", z.LengthIn, z.LengthCm))
		}
	}
	if m.Buttons > 0 {
		items = append(items, x.say("buttons-bought", m.Buttons, sizing.Length(buttonCm)))
	}
	items = append(items, x.notions(m)...)
	return Chapter{ID: "materials", Title: "Materials", Items: items}
}

// yarn is the yarn by its class, and how much of it.
func (x pattern) yarn(m plan.Materials) []string {
	var items []string
	if len(m.Yarn) == 0 {
		items = append(items, x.say("yarn-any"))
	} else {
		items = append(items, x.say("yarn-class", classes(m.Yarn), titles(m.Yarn)))
	}
	y, b := x.plan.Yarn, x.plan.How.Ball
	switch {
	case y == nil:
		return append(items, x.say("balls-unknown"))
	case len(y.Colours) == 1 && y.Colours[0].Colour == "":
		return append(items, x.say("balls", y.Need.Balls, b.Grams, b.Metres, y.Need.Grams, y.Need.Metres, y.Margin))
	}
	for _, c := range y.Colours {
		items = append(items, x.say("balls-colour", Capital(c.Colour), c.Need.Balls, b.Grams, b.Metres, c.Need.Grams, c.Need.Metres))
	}
	return items
}

// tool is the hook or the needles to begin with.
func (x pattern) tool(m plan.Materials) string {
	low, high := sizeBounds(m.Yarn, x.plan.How.Craft)
	if low == "" {
		return x.say("tool-any")
	}
	return x.say("tool", low+high)
}

// sizeBounds are the bounds of the classes' hooks or needles in mm: "5.5", " to 6.5".
func sizeBounds(yarns []data.Yarn, craft plan.Craft) (low, high string) {
	for i, y := range yarns {
		from, to := y.NeedleLow, y.NeedleHigh
		if craft == plan.Crochet {
			from, to = y.HookLow, y.HookHigh
		}
		if i == 0 && from != nil {
			low = Figure(*from).String()
		}
		high = ""
		if to != nil {
			high = " to " + Figure(*to).String()
		}
	}
	return low, high
}

// notions are the small things.
func (x pattern) notions(m plan.Materials) []string {
	var items []string
	if m.Markers > 0 {
		items = append(items, x.say("markers", m.Markers))
	}
	if m.Holders > 0 {
		items = append(items, x.say("holders", m.Holders))
	}
	if g := x.plan.Filling(); g > 0 {
		items = append(items, x.say("stuffing", math.Ceil(g/5)*5))
	}
	return append(items, x.say("sundries"))
}

func classes(yarns []data.Yarn) string {
	var all []string
	for _, y := range yarns {
		all = append(all, y.Class)
	}
	return strings.Join(all, " or ")
}

func titles(yarns []data.Yarn) string {
	var all []string
	for _, y := range yarns {
		all = append(all, y.Title)
	}
	return strings.Join(all, " or ")
}

// yarnAndTime are grams, metres and hours by part and by colour.
func (x pattern) yarnAndTime() (Chapter, bool) {
	p := x.plan
	c := Chapter{ID: "yarn", Title: x.say("by-part")}
	time := p.How.Pace.For(p.Stitches())
	if p.Yarn == nil && time == nil {
		return c, false
	}
	t := Table{Columns: []Column{{Head: "section", Wrap: true}, {Head: "stitches", Right: true}, {Head: "g", Right: true}, {Head: "m", Right: true}, {Head: "hours", Right: true}}}
	for i, s := range p.Sections {
		row := newRow(sectionName(s.Kind), strconv.Itoa(s.Stitches()), "", "", "")
		if p.Yarn != nil {
			part := p.Yarn.Parts[i]
			row.Cells[2], row.Cells[3] = fixed(part.Grams, 0), fixed(part.Metres, 0)
		}
		if of := p.How.Pace.For(s.Stitches()); of != nil {
			row.Cells[4] = fixed(of.Hours, 1)
		}
		t.Rows = append(t.Rows, row)
	}
	c.Table = &t
	c.After = x.hours(p.How.Pace, time, "time")
	return c, true
}

// hours say how long some stitches take, and whether there is time for them.
func (st Style) hours(pace plan.Pace, t *plan.Time, id string) []string {
	if t == nil {
		return nil
	}
	lines := []string{st.say(id, t.Stitches, t.Hours, pace.Per10Min)}
	switch {
	case !t.Ready.IsZero():
		lines = append(lines, st.say("time-ready", pace.HoursADay, t.Days, t.Ready.Format(plan.Day)))
	case t.Days > 0:
		lines = append(lines, st.say("time-days", pace.HoursADay, t.Days))
	}
	if t.DaysLeft > 0 {
		by, from := pace.By.Format(plan.Day), pace.From.Format(plan.Day)
		switch {
		case t.Days > t.DaysLeft:
			lines = append(lines, st.say("time-late", by, t.ADay, from, pace.HoursADay, t.Days-t.DaysLeft))
		case t.Late(pace):
			lines = append(lines, st.say("time-never", by, t.ADay, from))
		case t.Days > 0:
			lines = append(lines, st.say("time-enough", by, t.ADay, from))
		default:
			lines = append(lines, st.say("time-needed", by, t.ADay, from))
		}
	}
	return lines
}
