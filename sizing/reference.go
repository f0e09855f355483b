package sizing

import (
	"slices"
	"strconv"
	"sync"

	"growtuck/data"
)

// Reference is the tables made ready to be read: charts with their curves, the
// relations between measurements, and the garments. It is safe for concurrent
// use, and the same question always gets the same answer.
type Reference struct {
	tables        *data.Tables // of measurements and charts
	measurements  map[string]*data.Measurement
	order         map[string]int
	sources       map[string]*data.Source
	charts        map[string]*Chart
	formulas      [][]term // of the derivations, in the order of their table
	sums          sums
	growing       func() (*growthTables, error)
	fitted        func(Sex) (*fitted, error)
	parts         func() ([]data.Part, error)
	garmentTables func() (*garmentTables, error)
	practice      func() *practice
	pitfalls      func() []data.Pitfall
	bases         map[Sex]func() (*basis, error) // each made on first use
	likenesses    map[Sex]func() (*likeness, error)
	estimators    sync.Pool // of *estimator, for all measurements
	byHeight      sync.Pool // of *Sizer, for all measurements from the height
}

// Default returns the reference built from the embedded tables. They are read
// on first use: those of the charts at once, their columns and the other tables
// when something is asked of them. Tests pass them through [New], so that they
// are known to be without fault.
func Default() (*Reference, error) { return embedded() }

var embedded = sync.OnceValues(readEmbedded)

func readEmbedded() (*Reference, error) {
	t, err := data.Load(data.Embedded(), "sources.csv", "measurements.csv", "charts.csv", "sizes.csv", "derivations.csv")
	if err != nil {
		return nil, err
	}
	ref := newReference(t)
	if err := ref.buildCharts(data.EmbeddedBodyRows(), false); err != nil {
		return nil, err
	}
	ref.practice = sync.OnceValue(func() *practice {
		p, err := newPractice(new(data.Tables))
		if err != nil {
			panic(err) // of an embedded table
		}
		return p
	})
	of := make(map[Sex]func() (*fitted, error))
	for _, sex := range sexes {
		of[sex] = sync.OnceValues(func() (*fitted, error) {
			t, err := data.LoadOf(string(sex), "relations.csv", "ratios.csv")
			if err != nil {
				return nil, err
			}
			return ref.newFitted(t)
		})
	}
	ref.fitted = func(sex Sex) (*fitted, error) { return of[sex]() }
	ref.growing = sync.OnceValues(func() (*growthTables, error) {
		t, err := data.Load(data.Embedded(), data.HeightsFile, data.GrowthFile)
		if err != nil {
			return nil, err
		}
		return newGrowthTables(t.Heights, t.Growth)
	})
	ref.pitfalls = sync.OnceValue(func() []data.Pitfall {
		t, err := data.Load(data.Embedded(), data.PitfallsFile)
		if err != nil {
			panic(err) // of an embedded table
		}
		return t.Pitfalls
	})
	ref.parts = sync.OnceValues(func() ([]data.Part, error) {
		t, err := data.Load(data.Embedded(), "parts.csv")
		if err != nil {
			return nil, err
		}
		return t.Parts, nil
	})
	ref.garmentTables = sync.OnceValues(func() (*garmentTables, error) {
		t, err := data.Load(data.Embedded(), "garments.csv", "ease.csv", "lengths.csv", "abbreviations.csv", "yarns.csv", data.AddedFile)
		if err != nil {
			return nil, err
		}
		if t.Parts, err = ref.parts(); err != nil {
			return nil, err
		}
		return ref.newGarmentTables(t)
	})
	return ref, nil
}

// New builds a reference. Tables from outside the program should first have
// passed [data.Tables.Check].
func New(t *data.Tables) (*Reference, error) {
	ref := newReference(t)
	p, err := newPractice(t)
	if err != nil {
		return nil, err
	}
	ref.practice = func() *practice { return p }
	ref.pitfalls = func() []data.Pitfall { return t.Pitfalls }
	if err := ref.buildCharts(t.BodyRows(), true); err != nil {
		return nil, err
	}
	f, err := ref.newFitted(t)
	if err != nil {
		return nil, err
	}
	m, err := ref.newGarmentTables(t)
	if err != nil {
		return nil, err
	}
	grown, err := newGrowthTables(t.Heights, t.Growth)
	if err != nil {
		return nil, err
	}
	ref.growing = func() (*growthTables, error) { return grown, nil }
	ref.fitted = func(Sex) (*fitted, error) { return f, nil }
	ref.parts = func() ([]data.Part, error) { return t.Parts, nil }
	ref.garmentTables = func() (*garmentTables, error) { return m, nil }
	return ref, nil
}

func newReference(t *data.Tables) *Reference {
	ref := &Reference{
		tables:       t,
		measurements: make(map[string]*data.Measurement),
		order:        make(map[string]int),
		sources:      make(map[string]*data.Source),
		charts:       make(map[string]*Chart),
		bases:        make(map[Sex]func() (*basis, error)),
		likenesses:   make(map[Sex]func() (*likeness, error)),
	}
	for i := range t.Measurements {
		ref.measurements[t.Measurements[i].ID] = &t.Measurements[i]
		ref.order[t.Measurements[i].ID] = i
	}
	for i := range t.Sources {
		ref.sources[t.Sources[i].ID] = &t.Sources[i]
	}
	for _, c := range t.Charts {
		ref.charts[c.ID] = &Chart{Chart: c, ref: ref}
	}
	for _, sex := range sexes {
		ref.bases[sex] = sync.OnceValues(func() (*basis, error) { return ref.newBasis(sex) })
		ref.likenesses[sex] = sync.OnceValues(func() (*likeness, error) { return ref.newLikeness(sex) })
	}
	return ref
}

// buildCharts makes the runs of all charts and their columns: at once, with
// every fault found, or each when it is first read.
func (ref *Reference) buildCharts(body []data.BodyRows, atOnce bool) error {
	if err := ref.buildPublished(body, atOnce); err != nil {
		return err
	}
	if err := ref.buildDerived(atOnce); err != nil {
		return err
	}
	ref.buildSums()
	return nil
}

// fitted is what was fitted to the survey.
type fitted struct {
	relations map[Sex]*relations
	ratios    map[ratioKey][]data.Ratio
}

func (ref *Reference) newFitted(t *data.Tables) (*fitted, error) {
	relations, err := ref.newRelations(t)
	return &fitted{relations, newRatios(t)}, err
}

// YarnClass returns a weight class of yarn by its number.
func (ref *Reference) YarnClass(class int) (data.Yarn, bool) {
	m, err := ref.garmentTables()
	if err != nil {
		return data.Yarn{}, false
	}
	for _, y := range m.tables.Yarns {
		if y.Class == strconv.Itoa(class) {
			return y, true
		}
	}
	return data.Yarn{}, false
}

// AddedParts returns the kinds of parts that are sewn to garments, in the order
// of their table.
func (ref *Reference) AddedParts() []data.AddedPart {
	m, err := ref.garmentTables()
	if err != nil {
		return nil
	}
	return slices.Clone(m.tables.AddedParts)
}

// AddedPart returns a kind of part by its id. One that is not known is an
// [UnknownError].
func (ref *Reference) AddedPart(id string) (data.AddedPart, error) {
	var ids []string
	for _, a := range ref.AddedParts() {
		if a.ID == id {
			return a, nil
		}
		ids = append(ids, a.ID)
	}
	return data.AddedPart{}, unknown("added part", id, ids)
}

// Abbreviations are those of a craft, and of crochet those of some terms.
func (ref *Reference) Abbreviations(craft, terms string) []data.Abbreviation {
	m, err := ref.garmentTables()
	if err != nil {
		return nil
	}
	var all []data.Abbreviation
	for _, a := range m.tables.Abbreviations {
		if a.Craft == craft && (a.Terms == "both" || a.Terms == terms) {
			all = append(all, a)
		}
	}
	return all
}

// Pitfall is what commonly goes wrong when something is measured; "" where the
// tables do not say.
func (ref *Reference) Pitfall(measurement string) string {
	for _, p := range ref.pitfalls() {
		if p.Measurement == measurement {
			return p.Pitfall
		}
	}
	return ""
}

// FirstMeasures are the measurements that are worth most, in the order in which
// forms ask for them.
func FirstMeasures() []string {
	return []string{"height", "weight", "chest", "waist", "hip", "head", "arm_length", "inside_leg"}
}

// MeasuringOrder returns the measurements in the order in which forms ask for
// them, and number them: those first that are worth most.
func (ref *Reference) MeasuringOrder() []data.Measurement {
	all, first := ref.Measurements(), FirstMeasures()
	place := func(id string) int {
		if i := slices.Index(first, id); i >= 0 {
			return i
		}
		return len(first)
	}
	slices.SortStableFunc(all, func(a, b data.Measurement) int { return place(a.ID) - place(b.ID) })
	return all
}

// Measurements returns the measurements in the order of their table.
func (ref *Reference) Measurements() []data.Measurement { return slices.Clone(ref.tables.Measurements) }

// Measurement returns a measurement by its id.
func (ref *Reference) Measurement(id string) (data.Measurement, error) {
	if m, ok := ref.measurements[id]; ok {
		return *m, nil
	}
	return data.Measurement{}, unknown("measurement", id, keys(ref.order))
}

// Sources returns the sources in the order of their table.
func (ref *Reference) Sources() []data.Source { return slices.Clone(ref.tables.Sources) }

// Source returns a source by its id.
func (ref *Reference) Source(id string) (data.Source, error) {
	if s, ok := ref.sources[id]; ok {
		return *s, nil
	}
	return data.Source{}, unknown("source", id, keys(ref.sources))
}

// Charts returns the charts in the order of their table.
func (ref *Reference) Charts() []*Chart {
	var charts []*Chart
	for _, c := range ref.tables.Charts {
		charts = append(charts, ref.charts[c.ID])
	}
	return charts
}

// Chart returns a chart by its id. One that is not known is an [UnknownError].
func (ref *Reference) Chart(id string) (*Chart, error) {
	if c, ok := ref.charts[id]; ok {
		return c, nil
	}
	return nil, unknown("chart", id, keys(ref.charts))
}

func keys[V any](m map[string]V) []string {
	var ks []string
	for k := range m {
		ks = append(ks, k)
	}
	slices.Sort(ks)
	return ks
}
