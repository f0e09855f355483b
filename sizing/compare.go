package sizing

import (
	"fmt"
	"math"
	"slices"
)

// A Comparison is what differs between the readings of two editions of the tables.
type Comparison struct {
	Readings           int // after
	Gone, Added, Moved int
	Figures            int     // of practice, among those moved
	Largest            float64 // move, in cm or kg
	Moves              []Move
}

// A Move is a reading that differs. Was and Is say whether it was there before,
// and is after.
type Move struct {
	ReadingKey
	Before, After float64
	Was, Is       bool
}

// leastMove is the move, in cm or kg, below which a reading counts as unchanged:
// rounding of sums may cause it.
const leastMove = 1e-9

// Compare returns the readings that differ between before and ref: the charts at their
// sizes, estimates of children of 70 to 170 cm, what every garment adds to the
// body, and the figures of practice.
func (ref *Reference) Compare(before *Reference) (*Comparison, error) {
	was, err := readingsOf(before)
	if err != nil {
		return nil, err
	}
	is, err := readingsOf(ref)
	if err != nil {
		return nil, err
	}
	return compare(was, is), nil
}

func compare(before, after *readings) *Comparison {
	c := &Comparison{Readings: len(after.order)}
	keys := slices.Clone(after.order)
	for _, k := range before.order {
		if _, still := after.value[k]; !still {
			keys = append(keys, k)
		}
	}
	for _, k := range keys {
		m := Move{ReadingKey: k}
		m.Before, m.Was = before.value[k]
		m.After, m.Is = after.value[k]
		by := math.Abs(m.After - m.Before)
		switch {
		case !m.Was:
			c.Added++
		case !m.Is:
			c.Gone++
		case by < leastMove:
			continue
		case k.What == "practice":
			c.Moved++
			c.Figures++
		default:
			c.Moved++
			c.Largest = max(c.Largest, by)
		}
		c.Moves = append(c.Moves, m)
	}
	return c
}

// A ReadingKey names one of the figures that the tables give.
type ReadingKey struct {
	What        string // size, estimate, ease or practice
	Of          string // the chart, or the garment with its fit and layer
	Sex         string
	At          string // a size, or what is known of the child
	Measurement string // or part of the garment, or figure of practice
	Unit        string
}

// A readings is what tables give at many places: the charts at their sizes,
// estimates, and what garments add to the body.
type readings struct {
	order []ReadingKey
	value map[ReadingKey]float64
}

func (r *readings) add(k ReadingKey, v float64) {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return
	}
	if _, twice := r.value[k]; !twice {
		r.order = append(r.order, k)
	}
	r.value[k] = v
}

func readingsOf(ref *Reference) (*readings, error) {
	r := &readings{value: make(map[ReadingKey]float64)}
	r.addSizes(ref)
	for _, p := range ref.PracticeList("") {
		r.add(ReadingKey{What: "practice", Measurement: p.ID, Unit: p.Unit}, p.Value)
	}
	if err := r.addEstimates(ref); err != nil {
		return nil, err
	}
	return r, r.addEase(ref)
}

func (r *readings) addSizes(ref *Reference) {
	for _, c := range ref.Charts() {
		for _, run := range c.Runs() {
			for _, m := range ref.Measurements() {
				for _, size := range run.Sizes {
					k := ReadingKey{"size", c.ID, string(run.Sex), size.Size, m.ID, m.Unit}
					r.add(k, run.Value(m.ID, size.Position))
				}
			}
		}
	}
}

// addEstimates estimates children of many heights: of the usual weight, and a
// tenth heavier.
func (r *readings) addEstimates(ref *Reference) error {
	for _, sex := range []Sex{Boy, Girl, Both} {
		for height := 70.0; height <= 170; height += 10 {
			c := Child{Sex: sex, Own: map[string]float64{"height": height}}
			usual, err := ref.Estimate(c)
			if err != nil {
				continue // tables need not cover it
			}
			r.addBody(string(sex), fmt.Sprintf("%g cm", height), usual)
			weight, ok := usual.Get("weight")
			if !ok {
				continue
			}
			c.Own["weight"] = math.Round(weight.Value*11) / 10
			heavier, err := ref.Estimate(c)
			if err != nil {
				return err
			}
			r.addBody(string(sex), fmt.Sprintf("%g cm, a tenth heavier", height), heavier)
		}
	}
	return nil
}

func (r *readings) addBody(sex, at string, b *Body) {
	for _, m := range b.Readings {
		r.add(ReadingKey{"estimate", "", sex, at, m.Measurement.ID, m.Measurement.Unit}, m.Value)
	}
}

// addEase finishes every garment in every fit over every layer, with growth
// room for half a year, on one body for all tables, so that only what ease and
// lengths do is seen.
func (r *readings) addEase(ref *Reference) error {
	builtIn, err := Default()
	if err != nil {
		return err
	}
	chart, err := builtIn.Chart("child")
	if err != nil {
		return err
	}
	for _, size := range []string{"3m", "2", "6", "12"} {
		place, err := chart.Place(size, Both)
		if err != nil {
			return err
		}
		body := builtIn.BodyAt(place, Monotone)
		for _, g := range ref.Garments() {
			for _, fit := range Fits {
				for _, layer := range Layers {
					f, err := ref.Finish(body, Spec{Garment: g.ID, Fit: fit, Layer: layer, Seasons: 1})
					if err != nil {
						continue // a fit that would leave nothing
					}
					of := fmt.Sprintf("%s, %s, %s", g.ID, fit, layer)
					for _, l := range f.Lines {
						r.add(ReadingKey{"ease", of, "", size, l.Part.Part, "cm"}, l.Finished-l.Body.Value)
					}
				}
			}
		}
	}
	return nil
}
