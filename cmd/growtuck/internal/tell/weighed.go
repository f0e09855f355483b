package tell

import (
	"math"
	"strconv"

	"growtuck/sizing/plan"
)

type weighedRow struct {
	Section  string  `json:"section" doc:"id of the section that is to be worked"`
	Name     string  `json:"name" doc:"name in words"`
	Stitches int     `json:"stitches" doc:"stitches of all its rows"`
	Grams    Figure  `json:"grams" doc:"grams of yarn that it takes"`
	Hours    *Figure `json:"hours" doc:"hours that it takes; null where the pace is not known"`
}

// A WeighedDocument is whether the yarn that was weighed is enough, as JSON.
type WeighedDocument struct {
	Garment    string       `json:"garment" doc:"id of the garment"`
	After      string       `json:"after" doc:"id of the last section that is worked; empty where none is"`
	LeftGrams  Figure       `json:"left_grams" doc:"grams of yarn that are left"`
	UsedGrams  *Figure      `json:"used_grams" doc:"grams that went into the work between the first weighing and the last; null where there is one weighing"`
	NeedGrams  Figure       `json:"need_grams" doc:"grams that the rest takes, the margin included"`
	BySwatch   *Figure      `json:"need_by_swatch" doc:"grams that the rest takes by the swatch; null without one"`
	SpareGrams Figure       `json:"spare_grams" doc:"grams left over, below 0 missing"`
	Enough     bool         `json:"enough" doc:"whether the yarn is enough"`
	Left       []weighedRow `json:"left" doc:"the sections that are to be worked"`
	Time       *timeRecord  `json:"time" doc:"how long the rest takes; null where the pace is not known"`
}

// Weighed reports whether the yarn that is left is enough for what is to be worked.
func (st Style) Weighed(p *plan.Plan, w *plan.Weighed) Document {
	st.Craft = string(p.How.Craft)
	pace := p.How.Pace
	doc := WeighedDocument{Garment: p.Garment.ID, LeftGrams: Figure(w.Grams), UsedGrams: Known(w.UsedGrams, w.Used > 0), NeedGrams: Figure(w.Need()),
		BySwatch: Known(w.BySwatch, w.BySwatch > 0), SpareGrams: Figure(w.Spare()), Enough: w.Spare() >= 0, Left: []weighedRow{}, Time: newTimeRecord(pace, w.Stitches)}
	r := Document{Heading: []string{p.Garment.Title + ", " + st.Spec(p.Spec) + ": yarn and time for the rest"}}
	if w.After != nil {
		doc.After = w.After.ID
		r.Heading = append(r.Heading, "Worked up to and with: "+sectionName(w.After.Kind)+".")
	}
	t := Table{Columns: []Column{{Head: "section", Wrap: true}, {Head: "stitches", Right: true}, {Head: "g", Right: true}, {Head: "hours", Right: true}}}
	for _, l := range w.Left {
		row := weighedRow{Section: l.Section.ID, Name: sectionName(l.Section.Kind), Stitches: l.Section.Stitches(), Grams: Figure(l.Grams)}
		hours := ""
		if of := pace.For(row.Stitches); of != nil {
			row.Hours, hours = Known(of.Hours, true), fixed(of.Hours, 1)
		}
		doc.Left = append(doc.Left, row)
		t.Rows = append(t.Rows, newRow(row.Name, strconv.Itoa(row.Stitches), fixed(l.Grams, 0), hours))
	}
	r.Tables = []Table{t}
	r.Remarks = append(st.enough(p, w), st.hours(pace, pace.For(w.Stitches), "time-left")...)
	r.Rows, r.JSON = doc.Left, doc
	return r
}

// enough says what the rest takes, and whether what is left is enough.
func (st Style) enough(p *plan.Plan, w *plan.Weighed) []string {
	if len(w.Left) == 0 {
		return []string{st.say("weighed-done", w.Grams)}
	}
	var lines []string
	switch {
	case w.ByUse > 0 && w.BySwatch > 0:
		lines = append(lines, st.say("weighed-by-use", w.ByUse, w.UsedGrams, w.Used, w.Margin, w.BySwatch))
	case w.ByUse > 0:
		lines = append(lines, st.say("weighed-by-use-only", w.ByUse, w.UsedGrams, w.Used, w.Margin))
	default:
		lines = append(lines, st.say("weighed-by-swatch", w.BySwatch, w.Margin))
	}
	if w.Spare() >= 0 {
		return append(lines, st.say("weighed-enough", w.Grams, w.Spare()))
	}
	balls := ""
	if b := p.How.Ball; b.Grams > 0 {
		balls = st.say("weighed-balls", int(math.Ceil(-w.Spare()/b.Grams)), b.Grams)
	}
	return append(lines, st.say("weighed-missing", w.Grams, -w.Spare(), balls))
}

// TimeLeft says how long the stitches that are left take; nothing where the pace is not
// known.
func (st Style) TimeLeft(p *plan.Plan, left *plan.Remaining) []string {
	pace := p.How.Pace
	return st.hours(pace, pace.For(int(math.Round(left.Progress.StitchesLeft))), "time-left")
}
