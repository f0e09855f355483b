package sizing

import (
	"fmt"
	"slices"
)

// Estimate returns the child's measurements and, for each that was not taken,
// the survey's median at the child's height, moved by what the measured ones
// say of children built like that, with its likely range (p10–p90). Without a
// height, the heights that the measurements (and the age) leave likely are
// weighed together. Measurements that only the trade chart has are read there
// at the child's height and moved by the nearest surveyed one, as the table of
// measurements says.
func (ref *Reference) Estimate(c Child) (*Body, error) {
	if err := ref.checkChild(c); err != nil {
		return nil, err
	}
	e, ok := ref.estimators.Get().(*estimator)
	if !ok {
		all := make([]int, len(ref.tables.Measurements))
		for m := range all {
			all[m] = m
		}
		e = newEstimator(ref, all, all)
	}
	defer ref.estimators.Put(e)
	e.forget()
	for id, v := range c.Own {
		e.own[ref.order[id]] = v
	}
	if err := e.estimate(c.Sex, c.AgeYears); err != nil {
		return nil, err
	}
	return e.account(c), nil
}

// account puts the child's figures into words.
func (e *estimator) account(c Child) *Body {
	b := &Body{Questions: e.ref.Questions(c)}
	b.Evidence, b.Questions = e.evidenceNames(c), append(b.Questions, e.doubts()...)
	for m := range e.figures {
		f := &e.figures[m]
		if !f.known {
			continue
		}
		r := e.reading(m, List(b.Evidence))
		e.ref.settle(&r, f)
		b.Readings = append(b.Readings, r)
	}
	b.Summary = fmt.Sprintf("estimated at a height of %.1f cm", e.middle.height)
	if !e.took(e.height) {
		b.Summary = fmt.Sprintf("estimated; what is known goes with a height of about %.0f cm", e.middle.height)
	}
	return b
}

// evidenceNames names what is known of the child that the estimates rest on.
func (e *estimator) evidenceNames(c Child) []string {
	var names []string
	if e.took(e.height) {
		names = append(names, "height")
	}
	for _, m := range e.evidence {
		names = append(names, e.ref.tables.Measurements[m].Name)
	}
	if !e.took(e.height) && c.AgeYears != 0 {
		names = append(names, "age")
	}
	return names
}

// doubts says what was left out of the evidence, and why.
func (e *estimator) doubts() []string {
	var doubts []string
	for i, m := range e.dropped {
		// Of the evidence, all but what was dropped up to this one.
		rest := slices.DeleteFunc(slices.Clone(e.side.speaking), func(n int) bool {
			return !slices.Contains(e.evidence, n) && !slices.Contains(e.dropped[i+1:], n)
		})
		d := e.ref.tables.Measurements[m]
		doubts = append(doubts, fmt.Sprintf("%s %.4g %s does not go with the child's %s at any height; it says nothing of the others; check the tape",
			d.Name, e.own[m], d.Unit, e.names(rest)))
	}
	return doubts
}

// reading accounts for a figure as it was before it was made to agree with
// others. evidence is what it rests on, in words.
func (e *estimator) reading(m int, evidence string) Reading {
	d, f := &e.side.methods[m], &e.figures[m]
	if e.took(m) {
		return e.ref.own(d.measurement.ID, e.own[m])
	}
	if f.place.Run != nil { // it is read on a chart
		r, err := e.ref.Read(f.place, d.measurement.ID, Monotone)
		if err == nil && d.approach == byProportion {
			r.Spread, r.Imperial = f.Spread, r.inImperial(f.Value)
			r.From = evidence + ", in proportion to the " + e.side.methods[d.lead].measurement.Name
		}
		return r
	}
	survey := e.side.rel.run
	r := Reading{Measurement: *d.measurement, Spread: f.Spread, From: evidence, Sources: []string{survey.Chart.Source}}
	r.Imperial = r.inImperial(f.Value)
	switch {
	case d.approach == bySum:
		for _, t := range d.terms {
			if !e.took(t.m) {
				r.Notes = append(r.Notes, e.carried(t.m, e.side.methods[t.m].measurement.Name+" ")...)
			}
		}
		if c := survey.column(d.measurement.ID); c != nil {
			r.From += ": " + c.how
			r.Sources = slices.Clone(c.sources)
		}
	case f.run != nil:
		for _, id := range f.run.column(d.measurement.ID).sources {
			if !slices.Contains(r.Sources, id) {
				r.Sources = append(r.Sources, id)
			}
		}
		if f.run == survey {
			r.Notes = e.carried(m, "")
		}
		if f.run.Chart == e.side.chart {
			r.From += ", from the trade chart's figure at that height"
		}
	}
	return r
}

// carried says that a surveyed measurement was read below its lowest class.
func (e *estimator) carried(m int, name string) []string {
	if low := e.side.methods[m].low; e.middle.height < low {
		return []string{fmt.Sprintf("%smeasured from %.4g cm of height up; carried down with height to %.4g cm", name, low, e.middle.height)}
	}
	return nil
}
