package sizing

import (
	"math"
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
		return nil, ref.doubted(c, err)
	}
	return e.account(c), nil
}

// account says where each of the child's figures comes from.
func (e *estimator) account(c Child) *Body {
	b := &Body{child: c, Evidence: e.basedOn(c), Questions: e.amend(e.ref.Doubts(c)), Readings: make([]Reading, 0, len(e.figures))}
	for m := range e.figures {
		f := &e.figures[m]
		if !f.known {
			continue
		}
		r := e.reading(m, b.Evidence)
		e.ref.settle(&r, f)
		b.Readings = append(b.Readings, r)
	}
	b.Summary = NewFact("body-estimated", Length(e.middle.height))
	if !e.took(e.height) {
		b.Summary = NewFact("body-estimated-about", Length(e.middle.height))
	}
	return b
}

// basedOn is the evidence that the estimates rest on.
func (e *estimator) basedOn(c Child) Evidence {
	known := Evidence{Measurements: e.ref.numbered(e.evidence), Age: !e.took(e.height) && c.AgeYears != 0}
	if e.took(e.height) {
		known.Measurements = slices.Insert(known.Measurements, 0, e.ref.tables.Measurements[e.height])
	}
	return known
}

// amend adds to doubts what was left out of the evidence, or counts for less.
func (e *estimator) amend(doubts []Doubt) []Doubt {
	known := func(id string) int {
		return slices.IndexFunc(doubts, func(d Doubt) bool { return d.Measurement == id })
	}
	for i, m := range e.dropped {
		d := &e.ref.tables.Measurements[m]
		if k := known(d.ID); k >= 0 {
			doubts[k].Fact = NewFact("doubt.unused", doubts[k].Fact)
			continue
		}
		// Of the evidence, all but what was dropped up to this one.
		rest := slices.DeleteFunc(slices.Clone(e.group.evidence), func(n int) bool {
			return !slices.Contains(e.evidence, n) && !slices.Contains(e.dropped[i+1:], n)
		})
		doubts = append(doubts, e.doubt(m, NewFact("no-height-suits", d.Name, amountOf(d.Unit, e.own[m]), e.names(rest))))
	}
	for _, l := range e.limited {
		d := &e.ref.tables.Measurements[l.m]
		counts := amountOf(d.Unit, l.value)
		if k := known(d.ID); k >= 0 {
			doubts[k].Fact = NewFact("doubt.counts-as", doubts[k].Fact, counts)
			continue
		}
		rest := slices.DeleteFunc(slices.Clone(e.evidence), func(m int) bool { return m == l.m })
		if e.took(e.height) {
			rest = slices.Insert(rest, 0, e.height)
		}
		id := "evidence-limited"
		if d.Kind == "mass" {
			id = "weight-limited"
		}
		doubts = append(doubts, e.doubt(l.m, NewFact(id, d.Name, amountOf(d.Unit, e.own[l.m]), e.names(rest), counts)))
	}
	return doubts
}

// doubt is one about the estimates alone.
func (e *estimator) doubt(m int, f Fact) Doubt {
	d := &e.ref.tables.Measurements[m]
	return Doubt{Measurement: d.ID, Name: d.Name, Given: e.own[m], Unit: d.Unit, Fact: f}
}

// reading accounts for a figure as it was before it was made to agree with
// others. evidence is what it rests on.
func (e *estimator) reading(m int, evidence Evidence) Reading {
	d, f := &e.group.methods[m], &e.figures[m]
	if e.took(m) {
		r := e.ref.own(d.measurement.ID, e.own[m])
		if f.believed > 0 && math.Abs(f.believed-f.Value) >= crotchTold {
			r.Notes = append(r.Notes, NewFact("crotch-believed", Length(f.believed)))
		}
		return r
	}
	if f.place.Run != nil { // it is read on a chart
		if r, err := e.ref.Read(f.place, d.measurement.ID, Monotone); err == nil {
			return r
		}
	}
	survey := e.group.rel.run
	r := Reading{Measurement: *d.measurement, Spread: f.Spread, From: Origin{Evidence: evidence}, Sources: []string{survey.Chart.Source}}
	r.Imperial = r.inImperial(f.Value)
	cite := func(ids []string) {
		for _, id := range ids {
			if !slices.Contains(r.Sources, id) {
				r.Sources = append(r.Sources, id)
			}
		}
	}
	citeRun := func(run *Run) {
		if run == nil {
			return
		}
		if c := run.column(d.measurement.ID); c != nil {
			cite(c.sources)
		}
	}
	cite(e.group.rel.sources)
	switch {
	case d.approach == bySum:
		for _, t := range d.terms {
			if !e.took(t.m) {
				r.Notes = append(r.Notes, e.carried(t.m, e.group.methods[t.m].measurement.Name)...)
			}
		}
		if c := survey.column(d.measurement.ID); c != nil {
			r.From.Formula, r.From.Why = c.formulaOf(survey.Sizes[len(survey.Sizes)-1].Size, "")
			cite(c.sources)
		}
	case f.run != nil:
		citeRun(f.run)
		if f.run == survey {
			r.Notes = e.carried(m, "")
		}
		r.From.ByTradeChart = f.run.Chart == e.group.chart
	case d.approach == byMedian: // carried on over the trade chart's last size
		if run, ok := e.group.chart.Run(Years, e.group.sex); ok {
			citeRun(run)
		}
		r.From.ByTradeChart = true
		r.Notes = append(r.Notes, NewFact("carried-up", Length(d.carried), e.group.measured(d.v).Name))
	}
	if d.approach != byHeight && e.middle.height < d.young {
		if run, ok := e.group.chart.Run(Months, e.group.sex); ok {
			citeRun(run)
		}
		r.Notes = append(r.Notes, NewFact("baby-by-length", Length(d.young)))
	}
	if l, ok := levelledAt(d.levelled, e.middle.height); ok && d.approach == byMedian {
		r.Notes = append(r.Notes, l.note())
	}
	return r
}

// carried says that a surveyed measurement was read below its lowest class. name
// is "" where the measurement is the one that the reading is of.
func (e *estimator) carried(m int, name string) []Fact {
	low, height := Length(e.group.methods[m].low), Length(e.middle.height)
	switch {
	case height >= low:
		return nil
	case name == "":
		return []Fact{NewFact("carried-down", low, height)}
	}
	return []Fact{NewFact("part-carried-down", name, low, height)}
}
