package validate

import (
	"io"
	"math"
	"slices"

	"growtuck/data"
	"growtuck/sizing"
)

// A Review shows what proposed body rows would do to the charts: each new or
// changed value beside its neighbours, and what would be read elsewhere.
type Review struct {
	File   string
	Values []ReviewedValue
	Moves  []ReviewedMove
}

// A ReviewedValue is a new or changed value. Numbers are in its own unit; NaN
// where there is none.
type ReviewedValue struct {
	Chart, Size, Sex, Measurement, Statistic, Unit string
	Line                                           int
	Value, Was                                     float64
	BelowSize, AboveSize                           string // the sizes beside it, "" at an end
	Below, Above                                   float64
	// Between is what the chart would have read here without the row.
	Between float64
}

// A ReviewedMove is a reading, in cm or kg, that would change by more than
// MovesFrom.
type ReviewedMove struct {
	Chart, Sex, Place, Measurement, Unit string
	Before, After                        float64
}

// MovesFrom is the change of a reading, in cm or kg, from which it is listed.
const MovesFrom = 0.5

// ReviewRows reads proposed rows as CheckRows does and says what they would
// change. Rows with faults of form are left out.
func ReviewRows(in io.Reader, file string, t *data.Tables) (*Review, error) {
	s, _, err := scanProposal(in, file, t)
	if err != nil {
		return nil, err
	}
	if s == nil {
		return nil, &data.Error{File: file, Line: 1, Msg: "the header is not that of body.csv"}
	}
	r := &Review{File: file}
	places := s.placeSizes()
	list, _ := s.series(places)
	for _, z := range list {
		for i, row := range z.rows {
			if s.records[row].fresh {
				r.Values = append(r.Values, s.reviewed(z, i, places))
			}
		}
	}
	slices.SortStableFunc(r.Values, func(a, b ReviewedValue) int { return a.Line - b.Line })
	if len(r.Values) == 0 {
		return r, nil
	}
	r.Moves, err = s.moves()
	return r, err
}

func (s *bodySet) reviewed(z bodySeries, i int, places []sizePlace) ReviewedValue {
	b := &s.records[z.rows[i]]
	size := &s.t.Sizes[b.key.size()]
	v := ReviewedValue{Chart: size.Chart, Size: size.Size, Sex: bodySexes[b.key.sex()], Measurement: s.t.Measurements[b.key.measurement()].ID,
		Statistic: bodyStatistics[b.key.statistic()], Unit: bodyUnits[b.key.unit()], Line: int(b.line), Value: b.value,
		Was: math.NaN(), Below: math.NaN(), Above: math.NaN(), Between: math.NaN()}
	if was, ok := s.was[b.key]; ok {
		v.Was = was
	}
	at := places[b.key.size()]
	var x, y []float64
	for j, row := range z.rows {
		o := &s.records[row]
		p := places[o.key.size()]
		if j == i || p.scale != at.scale {
			continue
		}
		switch {
		case j < i:
			v.BelowSize, v.Below = s.t.Sizes[o.key.size()].Size, o.value
		case v.AboveSize == "":
			v.AboveSize, v.Above = s.t.Sizes[o.key.size()].Size, o.value
		}
		if p.scale != onBand {
			x, y = append(x, p.position), append(y, o.value)
		}
	}
	if curve, err := sizing.NewCurve(x, y); err == nil {
		v.Between = curve.At(at.position) // NaN outside
	}
	return v
}

// moves reads every chart with and without the proposal, at each size and at
// the quarters between.
func (s *bodySet) moves() ([]ReviewedMove, error) {
	before, err := sizing.New(s.t)
	if err != nil {
		return nil, err
	}
	with := *s.t
	with.Body = slices.Clone(s.t.Body)
	for i := range with.Body {
		b := &with.Body[i]
		if r := s.findRow(b); r != nil {
			b.Value = r.value
		}
	}
	for i := range s.records {
		b := &s.records[i]
		if _, changed := s.was[b.key]; !b.fresh || changed {
			continue
		}
		size := &s.t.Sizes[b.key.size()]
		with.Body = append(with.Body, data.Body{Line: int(b.line), Chart: size.Chart, Size: size.Size, Sex: bodySexes[b.key.sex()],
			Measurement: s.t.Measurements[b.key.measurement()].ID, Statistic: bodyStatistics[b.key.statistic()], Value: b.value, Unit: bodyUnits[b.key.unit()]})
	}
	after, err := sizing.New(&with)
	if err != nil {
		return nil, err
	}
	var moves []ReviewedMove
	for _, c := range after.Charts() {
		old, err := before.Chart(c.ID)
		if err != nil {
			return nil, err
		}
		for _, run := range c.Runs() {
			if was, ok := old.Run(run.Scale, run.Sex); ok && was.Sex == run.Sex {
				moves = append(moves, s.movesOf(was, run)...)
			}
		}
	}
	return moves, nil
}

func (s *bodySet) findRow(b *data.Body) *bodyRecord {
	size, ok := s.sizes[sizeName{b.Chart, b.Size}]
	if !ok {
		return nil
	}
	return s.find(newBodyKey(s.charts[b.Chart], size, slices.Index(bodySexes, b.Sex), s.measurements[b.Measurement],
		slices.Index(bodyStatistics, b.Statistic), slices.Index(bodyUnits, b.Unit)))
}

func (s *bodySet) movesOf(before, after *sizing.Run) []ReviewedMove {
	var moves []ReviewedMove
	for i := range s.t.Measurements {
		m := &s.t.Measurements[i]
		if _, _, ok := after.Has(m.ID); !ok {
			continue
		}
		for j := range after.Sizes {
			from := after.Sizes[j].Position
			quarters := 4
			to := from
			if j == len(after.Sizes)-1 || after.Scale == sizing.Band {
				quarters = 1
			} else {
				to = after.Sizes[j+1].Position
			}
			for q := range quarters {
				x := from + (to-from)*float64(q)/4
				a, b := before.Value(m.ID, x), after.Value(m.ID, x)
				if math.Abs(b-a) > MovesFrom { // not where either is NaN
					moves = append(moves, ReviewedMove{after.Chart.ID, string(after.Sex), sizing.Place{Run: after, Position: x}.Label(), m.ID, m.Unit, a, b})
				}
			}
		}
	}
	return moves
}
