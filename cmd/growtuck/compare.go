package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"growtuck/data"
	"growtuck/sizing"
)

// A readingKey names one of the figures that the tables give.
type readingKey struct {
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
	order []readingKey
	value map[readingKey]float64
}

func (r *readings) add(k readingKey, v float64) {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return
	}
	if _, twice := r.value[k]; !twice {
		r.order = append(r.order, k)
	}
	r.value[k] = v
}

func readingsOf(ref *sizing.Reference) (*readings, error) {
	r := &readings{value: make(map[readingKey]float64)}
	r.addSizes(ref)
	for _, p := range ref.PracticeList("") {
		r.add(readingKey{What: "practice", Measurement: p.ID, Unit: p.Unit}, p.Value)
	}
	if err := r.addEstimates(ref); err != nil {
		return nil, err
	}
	return r, r.addEase(ref)
}

func (r *readings) addSizes(ref *sizing.Reference) {
	for _, c := range ref.Charts() {
		for _, run := range c.Runs() {
			for _, m := range ref.Measurements() {
				for _, size := range run.Sizes {
					k := readingKey{"size", c.ID, string(run.Sex), size.Size, m.ID, m.Unit}
					r.add(k, run.Value(m.ID, size.Position))
				}
			}
		}
	}
}

// addEstimates estimates children of many heights: of the usual weight, and a
// tenth heavier.
func (r *readings) addEstimates(ref *sizing.Reference) error {
	for _, sex := range []sizing.Sex{sizing.Boy, sizing.Girl, sizing.Both} {
		for height := 70.0; height <= 170; height += 10 {
			c := sizing.Child{Sex: sex, Own: map[string]float64{"height": height}}
			usual, err := ref.Estimate(c)
			if err != nil {
				continue // tables need not reach so far
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

func (r *readings) addBody(sex, at string, b *sizing.Body) {
	for _, m := range b.Readings {
		r.add(readingKey{"estimate", "", sex, at, m.Measurement.ID, m.Measurement.Unit}, m.Value)
	}
}

// addEase finishes every garment in every fit over every layer, with growth
// room for half a year, on one body for all tables, so that only what ease and
// lengths do is seen.
func (r *readings) addEase(ref *sizing.Reference) error {
	builtIn, err := sizing.Default()
	if err != nil {
		return err
	}
	chart, err := builtIn.Chart("child")
	if err != nil {
		return err
	}
	for _, size := range []string{"3m", "2", "6", "12"} {
		place, err := chart.Place(size, sizing.Both)
		if err != nil {
			return err
		}
		body := builtIn.BodyAt(place, sizing.Monotone)
		for _, g := range ref.Garments() {
			for _, fit := range sizing.Fits {
				for _, layer := range sizing.Layers {
					f, err := ref.Finish(body, sizing.Spec{Garment: g.ID, Fit: fit, Layer: layer, Seasons: 1})
					if err != nil {
						continue // a fit that would leave nothing
					}
					of := fmt.Sprintf("%s, %s, %s", g.ID, fit, layer)
					for _, l := range f.Lines {
						r.add(readingKey{"ease", of, "", size, l.Part.Part, "cm"}, l.Finished-l.Body.Value)
					}
				}
			}
		}
	}
	return nil
}

type moveRecord struct {
	What        string  `json:"what"`
	Of          string  `json:"of"`
	Sex         string  `json:"sex"`
	At          string  `json:"at"`
	Measurement string  `json:"measurement"`
	Before      *figure `json:"before"`
	After       *figure `json:"after"`
	Moved       *figure `json:"moved"`
	Unit        string  `json:"unit"`
}

type compareDocument struct {
	Before   string       `json:"before"`
	After    string       `json:"after"`
	Differ   []string     `json:"tables_that_differ"`
	Readings int          `json:"readings"`
	Gone     int          `json:"gone"`
	Added    int          `json:"added"`
	Moved    int          `json:"moved"`
	Largest  figure       `json:"largest_move"`
	Step     string       `json:"step"`
	Moves    []moveRecord `json:"moves"`
}

// leastMove is the move, in cm or kg, below which a reading stayed: one that
// rounding of sums makes.
const leastMove = 1e-9

// compare counts and lists what differs between readings before and after.
func compare(before, after *readings) compareDocument {
	d := compareDocument{Moves: []moveRecord{}, Readings: len(after.order)}
	keys := slices.Clone(after.order)
	figures := 0 // of practice that changed
	for _, k := range before.order {
		if _, still := after.value[k]; !still {
			keys = append(keys, k)
		}
	}
	for _, k := range keys {
		old, was := before.value[k]
		new, is := after.value[k]
		move := new - old
		switch {
		case !was:
			d.Added++
		case !is:
			d.Gone++
		case math.Abs(move) < leastMove:
			continue
		case k.What == "practice":
			d.Moved++
			figures++
		default:
			d.Moved++
			d.Largest = max(d.Largest, figure(math.Abs(move)))
		}
		d.Moves = append(d.Moves, moveRecord{k.What, k.Of, k.Sex, k.At, k.Measurement, known(old, was), known(new, is), known(move, was && is), k.Unit})
	}
	d.Step = data.StepFor(d.Gone, d.Added+figures, float64(d.Largest)).String()
	return d
}

// differing names the tables that are not the same in two editions.
func differing(before, after *data.Edition) []string {
	sums := make(map[string]string)
	for _, t := range before.Tables {
		sums[t.Name] = t.SHA256
	}
	names := []string{}
	for _, t := range after.Tables {
		if sums[t.Name] != t.SHA256 {
			names = append(names, t.Name)
		}
		delete(sums, t.Name)
	}
	for gone := range sums {
		names = append(names, gone)
	}
	slices.Sort(names)
	return names
}

// compareTables prints which readings differ between the tables of a folder,
// before, and those in use, after.
func (a *app) compareTables(dir string) error {
	after, err := a.reference()
	if err != nil {
		return err
	}
	old := *a
	old.tables = dir
	before, err := old.reference()
	if err != nil {
		return err
	}
	was, err := readingsOf(before)
	if err != nil {
		return err
	}
	is, err := readingsOf(after)
	if err != nil {
		return err
	}
	d := compare(was, is)
	from, err := old.edition()
	if err != nil {
		return err
	}
	to, err := a.edition()
	if err != nil {
		return err
	}
	d.Before, d.After, d.Differ = from.String(), to.String(), differing(from, to)
	g := grid{columns: []column{{head: "what"}, {head: "of"}, {head: "sex"}, {head: "at"}, {head: "measurement"},
		{head: "before", right: true}, {head: "after", right: true}, {head: "moved", right: true}, {head: "unit"}}}
	text := func(f *figure) string {
		if f == nil {
			return "–"
		}
		return f.String()
	}
	for _, m := range d.Moves {
		g.rows = append(g.rows, tableRow(m.What, m.Of, m.Sex, m.At, m.Measurement, text(m.Before), text(m.After), text(m.Moved), m.Unit))
	}
	heading := []string{"before: " + d.Before, "after: " + d.After}
	verdict := "The tables are the same, byte for byte."
	if len(d.Differ) > 0 {
		verdict = fmt.Sprintf("Different: %s. Of %d readings %d moved, the most by %s cm or kg; %d came and %d went. That makes at least a %s edition.",
			strings.Join(d.Differ, ", "), d.Readings, d.Moved, d.Largest, d.Added, d.Gone, d.Step)
	}
	return a.print(report{heading: heading, grids: []grid{g}, remarks: []string{verdict}, rows: d.Moves, document: d})
}
