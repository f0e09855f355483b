package sizing

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"growtuck/data"
)

// AgeField stands for the age in a [Doubt], which has no row among measurements.
const AgeField = "age"

// A Doubt is about something that was said of a child. It is not an error.
type Doubt struct {
	Measurement string // id, or AgeField
	Name        string // of it, in words
	Given       float64
	Unit        string // of Given, Low and High: cm, kg or years
	// Low and High are what 98 of 100 children have who are like the rest of what
	// was said; both are 0 where that is not known.
	Low, High float64
	Spreads   float64      // how far off Given is, in spreads, below 0 where it is too little
	Likely    []Correction // what may have been meant, the likeliest first
	Where     string       // the place where it was given, such as child.csv:3:7; "" where there is none
	Fact      Fact
}

// A Correction is what may have been meant by a value in doubt.
type Correction struct {
	Slip   Slip
	Values []Value // that of the value in doubt first; another where both changed places
	Fact   Fact
}

// A Value is one of a child's.
type Value struct {
	Measurement string  // id, or AgeField
	Amount      float64 // cm, kg or years
	Unit        string  // cm, kg or years
}

// Age is a number of years.
type Age float64

// A DoubtError says that no body can be made of what was said of a child, which is
// in doubt.
type DoubtError struct {
	Doubts []Doubt
	Err    error
}

func (e *DoubtError) Error() string { return e.Err.Error() }

func (e *DoubtError) Unwrap() error { return e.Err }

// doubted adds to an error of a child's measurements what may have been meant.
func (ref *Reference) doubted(c Child, err error) error {
	if err == nil || errors.Is(err, ErrNothingKnown) {
		return err
	}
	if doubts := ref.doubts(c, true); len(doubts) > 0 {
		return &DoubtError{doubts, err}
	}
	return err
}

// Doubts are what is hardly to be believed of what was said of a child, with what
// may have been meant, and what does not add up.
func (ref *Reference) Doubts(c Child) []Doubt { return ref.doubts(c, false) }

// refusedCost is what is said more against values that no body can be made from.
const refusedCost = 12

// mostDoubts bounds what is looked for.
const mostDoubts = 8

func (ref *Reference) doubts(c Child, refused bool) []Doubt {
	if len(c.Own) == 0 {
		return nil
	}
	l, err := ref.likenesses[c.Sex.orBoth()]()
	if err != nil {
		return []Doubt{{Fact: Text(err.Error())}}
	}
	d := doubter{likeness: l, child: c, said: l.say(c)}
	d.look(refused)
	d.explain()
	return append(d.doubts(), ref.contradictions(c)...)
}

// A doubter looks for what is wrong with what was said of a child.
type doubter struct {
	*likeness
	child   Child
	said    said
	settled []int
	found   []suspicion
	scratch together
}

// A suspicion is about some of what was said: what may have been meant, the
// likeliest first.
type suspicion struct{ readings []rereading }

// look takes the reading that makes the child likeliest, and looks again, until none
// is likelier than what is said.
func (d *doubter) look(refused bool) {
	for range mostDoubts {
		as := d.costOf(d.said)
		if refused {
			as += refusedCost
		} else if !d.suspect() {
			return
		}
		refused = false
		all := d.rereadings(&d.said, d.settled, d.gains())
		costs := make([]float64, len(all))
		best := -1
		for i := range all {
			costs[i] = all[i].price + d.costOf(d.with(d.said, all[i].changes...))
			if costs[i] < as && (best < 0 || costs[i] < costs[best]) {
				best = i
			}
		}
		if best < 0 {
			return
		}
		d.found = append(d.found, gather(all, costs, best))
		for _, c := range all[best].changes {
			d.settled = append(d.settled, c.number)
		}
		d.said = d.with(d.said, all[best].changes...)
	}
}

// explain looks again at values that were taken away: what was meant by one may be
// plain once the others are put right.
func (d *doubter) explain() {
	before := d.say(d.child)
	for i, s := range d.found {
		number := s.readings[0].changes[0].number
		if s.readings[0].slip != "" || !math.IsNaN(d.get(&d.said, number)) {
			continue
		}
		all := d.ofOne(number, d.get(&before, number))
		costs := make([]float64, len(all))
		best := 0
		for k := range all {
			if costs[k] = all[k].price + d.costOf(d.with(d.said, all[k].changes...)); costs[k] < costs[best] {
				best = k
			}
		}
		if all[best].slip != "" {
			d.found[i] = gather(all, costs, best)
			d.said = d.with(d.said, all[best].changes...)
		}
	}
}

func (d *doubter) costOf(s said) float64 { return d.cost(&s, &d.scratch) }

// suspect reports whether anything that is said could be doubted.
func (d *doubter) suspect() bool {
	if math.IsNaN(d.said.height) && len(d.said.fields) == 0 {
		return d.said.age > math.Log(MostYears)
	}
	return d.suspicious(&d.said, &d.scratch, d.at())
}

// at is the height that was said, or that suits the rest best.
func (d *doubter) at() float64 {
	if !math.IsNaN(d.said.height) {
		return d.said.height
	}
	row, _ := d.likeliestRow(&d.said, &d.scratch)
	return row.logHeight
}

// gains are by how much each of the fields stands out from the others.
func (d *doubter) gains() []float64 {
	if len(d.said.fields) == 0 {
		return nil
	}
	at := d.at()
	d.costAt(&d.said, &d.scratch, d.rowAt(at), at)
	_, each := d.scratch.gains(&d.said)
	return slices.Clone(each)
}

// gather gathers the readings of what the best is about that are nearly as likely,
// or likelier than that it is wrong for no reason that is known.
func gather(all []rereading, costs []float64, best int) suspicion {
	var order []int
	for i := range all {
		if all[i].slip != "" && (i == best || all[i].about(&all[best]) && costs[i] < costs[best]+nearlyAsLikely) {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(costs[a], costs[b]) })
	s := suspicion{readings: []rereading{all[best]}}
	if len(order) > 0 {
		s.readings = s.readings[:0]
	}
	for _, i := range order {
		same := func(r rereading) bool { return math.Abs(r.changes[0].log-all[i].changes[0].log) < 1e-6 }
		if !slices.ContainsFunc(s.readings, same) {
			s.readings = append(s.readings, all[i])
		}
	}
	return s
}

const nearlyAsLikely = 4

// doubts are the suspicions as facts, one about each value.
func (d *doubter) doubts() []Doubt {
	var all []Doubt
	for _, s := range d.found {
		for i, c := range s.readings[0].changes {
			all = append(all, d.doubt(s.readings, i, c.number))
		}
	}
	return all
}

// doubt is the doubt about one value.
func (d *doubter) doubt(readings []rereading, i, number int) Doubt {
	m := d.field(number)
	out := Doubt{Measurement: m.ID, Name: m.Name, Given: d.givenOf(number), Unit: m.Unit, Where: d.child.Where[m.ID]}
	out.Low, out.High, out.Spreads = d.span(number, math.Log(out.Given))
	for _, r := range readings {
		if math.IsNaN(r.changes[i].log) {
			continue
		}
		values := []Value{d.value(r.changes[i])}
		if r.slip == SlipSwapped {
			values = append(values, d.value(r.changes[1-i]))
		}
		out.Likely = append(out.Likely, d.correction(r.slip, values))
	}
	if len(out.Likely) == 0 && number == ageNumber && out.High > 0 {
		out.Likely = []Correction{d.correction(SlipUsual, []Value{d.value(change{number, (math.Log(out.Low) + math.Log(out.High)) / 2})})}
	}
	rest := d.with(d.said, change{number, math.NaN()})
	out.Fact = d.fact(&out, len(d.given(&rest, nil)) == 0)
	return out
}

var ageMeasurement = data.Measurement{ID: AgeField, Name: "age", Unit: "years"}

func (d *doubter) field(number int) *data.Measurement {
	if number == ageNumber {
		return &ageMeasurement
	}
	return &d.ref.tables.Measurements[number]
}

func (d *doubter) givenOf(number int) float64 {
	if number == ageNumber {
		return d.child.AgeYears
	}
	return d.child.Own[d.field(number).ID]
}

// value is a change as a value, rounded as tapes and scales are read.
func (d *doubter) value(c change) Value {
	m := d.field(c.number)
	v := math.Exp(c.log)
	if m.Unit != "years" {
		v = math.Round(v*10) / 10
	} else if v = math.Round(v*12) / 12; v >= 2 {
		v = math.Round(v*10) / 10
	}
	return Value{m.ID, v, m.Unit}
}

// The steps in which a span is looked for: shares of the value.
const (
	spanWide   = 2.5 // to either side of what is usual
	spanCoarse = 0.1
	spanStep   = 0.05
	spanFine   = 0.01
)

// span is what 98 of 100 children have of a measurement who are like the rest of
// what is said as it is read now, and how many spreads off a value is.
func (d *doubter) span(number int, log float64) (low, high, spreads float64) {
	rest := d.with(d.said, change{number, math.NaN()})
	if len(d.given(&rest, nil)) == 0 && number == ageNumber {
		return 0, 0, 0
	}
	cost := func(log float64) float64 { return d.costOf(d.with(rest, change{number, log})) }
	middle, least := log, inf
	try := func(around, wide, step float64) {
		for at := around - wide; at <= around+wide; at += step {
			if c := cost(at); c < least {
				middle, least = at, c
			}
		}
	}
	try(d.usual(number, &rest), spanWide, spanCoarse)
	try(middle, spanCoarse, spanFine)
	end := func(side float64) float64 {
		at := middle
		for _, step := range []float64{spanStep, spanFine} {
			for cost(at+side*step)-least <= zP99*zP99/2 && math.Abs(at-middle) < spanWide {
				at += side * step
			}
		}
		return math.Exp(at)
	}
	spreads = math.Copysign(math.Sqrt(2*max(0, cost(log)-least)), log-middle)
	return end(-1), end(1), spreads
}

// usual is about what a measurement may be: at the height, or anywhere.
func (d *doubter) usual(number int, rest *said) float64 {
	height := rest.height
	if math.IsNaN(height) {
		height = (d.shortest + d.tallest) / 2
	}
	switch number {
	case ageNumber:
		return math.Log(6)
	case d.height:
		return height
	}
	if v := d.rowAt(height).median[number]; !math.IsNaN(v) {
		return v
	}
	return d.get(&d.said, number)
}

// contradictions are sums of a child's measurements that do not add up.
func (ref *Reference) contradictions(c Child) []Doubt {
	var out []Doubt
	for _, i := range identities {
		sum, all := 0.0, c.Own[i.whole] > 0
		parts := slices.Clone(i.parts)
		for k, p := range parts {
			if same := takenAs(p); c.Own[p] == 0 && same != i.whole && c.Own[same] > 0 {
				p, parts[k] = same, same
			}
			sum += c.Own[p]
			all = all && c.Own[p] > 0
		}
		if whole := c.Own[i.whole]; all && contradicts(whole, sum) {
			m := ref.measurements[i.whole]
			out = append(out, Doubt{Measurement: i.whole, Name: m.Name, Given: whole, Unit: m.Unit, Where: c.Where[i.whole],
				Fact: NewFact("parts-contradict", m.Name, Length(whole), namesOf(ref.measurementsOf(parts)), Length(sum))})
		}
	}
	return out
}

// takenAs is the measurement that a tape takes a part as: one of which it is the
// only part, or itself.
func takenAs(part string) string {
	for _, i := range identities {
		if len(i.parts) == 1 && i.parts[0] == part {
			return i.whole
		}
	}
	return part
}

// contradicts reports that a whole and the sum of its parts differ by more than
// tapes do.
func contradicts(whole, sum float64) bool { return whole < 0.97*sum || whole > 1.03*sum }
