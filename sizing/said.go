package sizing

import (
	"math"
	"slices"
)

// A said is what is said of a child, in logarithms of cm, kg and years; NaN where
// nothing is.
type said struct {
	age, height float64
	fields      []int // measurements other than height
	logs        []float64
}

// ageNumber is the number of the age, which is not in the table of measurements.
const ageNumber = -1

// say takes what is said of a child.
func (l *likeness) say(c Child) said {
	s := said{age: math.NaN(), height: math.NaN()}
	if c.AgeYears > 0 {
		s.age = math.Log(c.AgeYears)
	}
	for i, m := range l.ref.tables.Measurements {
		v, ok := c.Own[m.ID]
		switch {
		case !ok:
		case i == l.height:
			s.height = math.Log(v)
		default:
			s.fields, s.logs = append(s.fields, i), append(s.logs, math.Log(v))
		}
	}
	return s
}

// A change replaces what is said of one measurement, or takes it away.
type change struct {
	number int     // of the measurement, or ageNumber
	log    float64 // NaN where it is taken away
}

// get is what is said of a measurement.
func (l *likeness) get(s *said, number int) float64 {
	switch number {
	case ageNumber:
		return s.age
	case l.height:
		return s.height
	}
	if i := slices.Index(s.fields, number); i >= 0 {
		return s.logs[i]
	}
	return math.NaN()
}

// with is what is said after some changes.
func (l *likeness) with(s said, changes ...change) said {
	s.fields, s.logs = slices.Clone(s.fields), slices.Clone(s.logs)
	for _, c := range changes {
		switch c.number {
		case ageNumber:
			s.age = c.log
			continue
		case l.height:
			s.height = c.log
			continue
		}
		i := slices.Index(s.fields, c.number)
		switch {
		case i < 0 && math.IsNaN(c.log):
		case i < 0:
			s.fields, s.logs = append(s.fields, c.number), append(s.logs, c.log)
		case math.IsNaN(c.log):
			s.fields, s.logs = slices.Delete(s.fields, i, i+1), slices.Delete(s.logs, i, i+1)
		default:
			s.logs[i] = c.log
		}
	}
	return s
}

// given are the numbers of what is said, but for some.
func (l *likeness) given(s *said, but []int) []int {
	var all []int
	add := func(number int, log float64) {
		if !math.IsNaN(log) && !slices.Contains(but, number) {
			all = append(all, number)
		}
	}
	add(l.height, s.height)
	for i, m := range s.fields {
		add(m, s.logs[i])
	}
	add(ageNumber, s.age)
	return all
}
