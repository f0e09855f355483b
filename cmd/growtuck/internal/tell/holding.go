package tell

import (
	"math"
	"strconv"

	"growtuck/sizing"
	"growtuck/sizing/plan"
)

const holdingTitle = "Room to grow"

// holding is how room to grow is held, when it is let down, and what it looks like
// before and after.
func (x pattern) holding() (Chapter, bool) {
	held := x.plan.Held()
	if len(held) == 0 {
		return Chapter{}, false
	}
	c := x.holdingOf()
	t := Table{Columns: []Column{{Head: LetterHead}, {Head: "held", Wrap: true}, {Head: "by"}, {Head: "rows", Right: true}, {Head: "after row", Right: true}}}
	units := x.Units()
	for _, u := range units {
		t.Columns = append(t.Columns, Column{Head: "with it, " + u, Right: true}, Column{Head: "let down, " + u, Right: true})
	}
	if x.plan.Yarn != nil {
		t.Columns = append(t.Columns, Column{Head: "yarn, g", Right: true})
	}
	for _, h := range held {
		for i, part := range h.Parts {
			p, ok := x.plan.Part(part)
			if !ok {
				continue
			}
			row := newRow(letter(x.plan.Finished, part), p.Line.Part.Name, string(h.Way), strconv.Itoa(h.Rows), strconv.Itoa(h.Row))
			for _, u := range units {
				row.Cells = append(row.Cells, LengthIn(h.WornCm[i], u), LengthIn(h.DownCm[i], u))
			}
			if x.plan.Yarn != nil {
				row.Cells = append(row.Cells, fixed(h.Grams, 0))
			}
			t.Rows = append(t.Rows, row)
		}
	}
	c.Table = &t
	for _, step := range x.plan.HoldSteps() {
		c.Work = append(c.Work, Work{Step: step.ID, Text: x.Step(step)})
	}
	return c, true
}

type heldRecord struct {
	Part     string      `json:"part" doc:"id of the finished length"`
	Others   []heldPart  `json:"lengths" doc:"that length and others that become longer with it"`
	Way      string      `json:"way" doc:"fold-cuff, hem, tuck, rise, on-hold or buttons"`
	Section  string      `json:"section" doc:"id of the section that it lies in"`
	Row      int         `json:"after_row" doc:"row of the section that it follows"`
	Rows     int         `json:"rows" doc:"rows that it holds"`
	Cm       Figure      `json:"cm" doc:"what it holds, cm"`
	Grams    *Figure     `json:"grams" doc:"yarn in it; null without yarn data"`
	Measured string      `json:"measurement" doc:"measurement of the child that tells when to let it down"`
	At       Figure      `json:"at" doc:"when that is so long, cm"`
	When     *whenRecord `json:"when" doc:"when that is; null where it is not foreseen"`
	Texts    []string    `json:"texts" doc:"how it is held, and how and when it is let down"`
}

type whenRecord struct {
	Months   Figure  `json:"months" doc:"months from when the child was measured"`
	Earliest Figure  `json:"earliest" doc:"of eight children in ten at the earliest, months"`
	Latest   *Figure `json:"latest" doc:"at the latest, months; null where that is not foreseen"`
	From     string  `json:"from" doc:"day of measuring; empty where it is not known"`
}

// newWhenRecord is when a fold is let down.
func newWhenRecord(w *sizing.Passing) *whenRecord {
	if w == nil {
		return nil
	}
	r := &whenRecord{Months: Figure(w.Months), Earliest: Figure(w.Low)}
	if !math.IsInf(w.High, 1) {
		latest := Figure(w.High)
		r.Latest = &latest
	}
	if !w.From.IsZero() {
		r.From = w.From.Format(sizing.Day)
	}
	return r
}

type heldPart struct {
	Part string `json:"part" doc:"id of the finished length"`
	Worn Figure `json:"worn" doc:"with it, cm"`
	Down Figure `json:"let_down" doc:"let down, cm"`
}

// heldRecords are the folds as JSON.
func (x pattern) heldRecords() []heldRecord {
	all := []heldRecord{}
	for _, h := range x.plan.Held() {
		r := heldRecord{Part: h.Parts[0], Way: string(h.Way), Section: h.Section.ID, Row: h.Row, Rows: h.Rows, Cm: Figure(h.Cm), Measured: h.Body.Measurement.ID, At: Figure(h.AtCm), When: newWhenRecord(h.When)}
		for k, part := range h.Parts {
			r.Others = append(r.Others, heldPart{part, Figure(h.WornCm[k]), Figure(h.DownCm[k])})
		}
		if x.plan.Yarn != nil {
			grams := Figure(h.Grams)
			r.Grams = &grams
		}
		for _, step := range x.plan.StepsOf(h) {
			r.Texts = append(r.Texts, x.Step(step))
		}
		all = append(all, r)
	}
	return all
}

// growth are the lines that hold room and let it down, in their order.
func (x pattern) growth() []string {
	lines := []string{}
	for _, step := range x.plan.HoldSteps() {
		lines = append(lines, x.Step(step))
	}
	return lines
}

// heldRows are the folds as rows.
func heldRows(held []heldRecord) []stepRow {
	var rows []stepRow
	for _, h := range held {
		for i, text := range h.Texts {
			rows = append(rows, stepRow{Section: "growth", Name: holdingTitle, Step: h.Part + "-" + strconv.Itoa(i+1), Rows: strconv.Itoa(h.Rows), Text: text})
		}
	}
	return rows
}

// holdingOf is what holds of all folds of a garment.
func (x pattern) holdingOf() Chapter {
	c := Chapter{ID: "growth", Title: holdingTitle, Lines: []string{x.say("held")}, After: []string{x.say("held-care")}}
	for _, h := range x.plan.Held() {
		if h.Way == plan.OnHold || h.Way == plan.DeepHem {
			if x.plan.Garment.Opening == "front" && h.Room == plan.BodyRoom {
				c.After = append(c.After, x.say("held-front", sizing.Length(h.Cm)))
			}
		}
	}
	return c
}

// runHolding is how all sizes hold their room, fold by fold, and then let it down.
func (st Style) runHolding(g *plan.Graded) []RunStep {
	sizes := make([]*plan.Section, len(g.Plans))
	for i, p := range g.Plans {
		sizes[i] = &plan.Section{Steps: p.HoldSteps()}
	}
	var lines []RunStep
	for _, step := range plan.Alike(sizes) {
		lines = append(lines, st.runSteps(g.Labels, step)...)
	}
	return lines
}

// holdingOf is how all sizes hold their room.
func (x patternRun) holdingOf() (Chapter, bool) {
	lines := x.Run(x.graded).Holding
	c := x.pattern.holdingOf()
	for _, l := range lines {
		c.Work = append(c.Work, Work{Step: l.ID, Sizes: l.Sizes, Text: l.Text})
	}
	return c, len(lines) > 0
}

// Due is when a fold is let down, in a few words, with the range of eight in ten; "" where
// that is not foreseen.
func Due(w *sizing.Passing) string {
	if w == nil {
		return ""
	}
	at := func(months float64) string {
		if day := w.Day(months); !day.IsZero() {
			return day.Format("Jan 2006")
		}
		return fixed(months, 0) + " months"
	}
	text := at(w.Months) + " (" + at(w.Low) + " to "
	if math.IsInf(w.High, 1) {
		return text + "later)"
	}
	return text + at(w.High) + ")"
}
