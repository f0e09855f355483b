package sizing

import (
	"math"
	"time"
)

// A Passing is when a measurement of a growing child passes a length: in months from when
// the child was measured, about and with a likely range of eight in ten. High is +Inf
// where that is not foreseen.
type Passing struct {
	Months, Low, High float64
	From              time.Time // the day of measuring; zero where it is not known
}

// Day is the day in so many months; "" where the day of measuring is not known.
func (p Passing) Day(months float64) time.Time {
	if p.From.IsZero() || math.IsInf(months, 1) {
		return time.Time{}
	}
	return AfterMonths(p.From, months)
}

// How many months ahead is looked, and in what steps: growth between them is even.
const passingMost, passingStep = 48, 2

// Passes says when a measurement of the body passes a length. It is not ok where nothing
// is known of its growth, or it does not so within four years.
func (f *Finished) Passes(measurement string, cm float64) (p Passing, ok bool) {
	g := f.Growth
	if g == nil {
		return p, false
	}
	p = Passing{Months: inf, Low: inf, High: inf, From: f.Body.child.Measured}
	var before Reading
	for month := 0; month <= passingMost; month += passingStep {
		b, err := g.At(float64(month) / 12)
		if err != nil {
			break
		}
		r, known := b.Get(measurement)
		if !known {
			return p, false
		}
		if r.Spread == NoSpread {
			r.Low, r.High = r.Value, r.Value
		}
		for _, at := range []struct {
			when      *float64
			was, next float64
		}{{&p.Months, before.Value, r.Value}, {&p.Low, before.High, r.High}, {&p.High, before.Low, r.Low}} {
			switch {
			case !math.IsInf(*at.when, 1) || at.next < cm:
			case month == 0:
				*at.when = 0
			default:
				*at.when = float64(month-passingStep) + passingStep*(cm-at.was)/(at.next-at.was)
			}
		}
		if !math.IsInf(p.High, 1) {
			break
		}
		before = r
	}
	return p, !math.IsInf(p.Months, 1)
}

// GrownCm is how much a line has for growth until the garment is first worn, and RoomCm
// for what comes then.
func (l Line) GrownCm() float64 { return l.amountCm(GrownBefore) }
func (l Line) RoomCm() float64  { return l.amountCm(GrowthRoom) }

func (l Line) amountCm(kind AmountKind) float64 {
	cm := 0.0
	for _, a := range l.Adjust {
		if a.Kind == kind {
			cm += a.Cm
		}
	}
	return cm
}
