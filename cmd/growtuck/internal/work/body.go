// Package work answers requests: it takes a [ask.Request] through sizing, plan and
// validate, and gives the facts, or the document that package tell makes of them.
// Commands print these documents, and the API answers with them.
package work

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/data"
	"growtuck/sizing"
)

// Body makes the body that was asked for.
func Body(ref *sizing.Reference, r *ask.Request) (*sizing.Body, error) {
	if err := r.CheckBody(); err != nil {
		return nil, err
	}
	b, err := ref.Body(r.Child, r.Sizes)
	var size *sizing.SizeFieldError
	if errors.As(err, &size) {
		return nil, &ask.Fault{Field: size.Field, Err: size.Err}
	}
	return b, err
}

// Sizes reports a chart at sizes.
func Sizes(ref *sizing.Reference, r *ask.Request, names []string, st tell.Style) (tell.Document, error) {
	id := r.Sizes.Chart
	chart, err := ref.Chart(id)
	if err != nil {
		return tell.Document{}, err
	}
	var sizes []tell.SizeBody
	for _, name := range chart.WithHeights(names, r.Child.Sex) {
		s, err := sizeOf(ref, chart, name, r)
		if err != nil {
			return tell.Document{}, err
		}
		sizes = append(sizes, s)
	}
	shown, err := tell.Shown(ref, r.Only, r.All || !anyNeeded(ref, sizes))
	if err != nil {
		return tell.Document{}, err
	}
	return st.Sizes(ref, id, r.Sizes.Method, sizes, shown, r.Why), nil
}

// anyNeeded reports whether a size has any of the measurements that garments need.
func anyNeeded(ref *sizing.Reference, sizes []tell.SizeBody) bool {
	needed, err := tell.Shown(ref, nil, false)
	return err == nil && slices.ContainsFunc(sizes, func(s tell.SizeBody) bool {
		return slices.ContainsFunc(s.Body.Readings, func(r sizing.Reading) bool { return needed(r.Measurement) })
	})
}

func sizeOf(ref *sizing.Reference, chart *sizing.Chart, name string, r *ask.Request) (tell.SizeBody, error) {
	p, err := chart.Place(name, r.Child.Sex)
	if err != nil {
		return tell.SizeBody{}, &ask.Fault{Field: "size", Err: err}
	}
	s := tell.SizeBody{Asked: name, Place: p, Body: ref.BodyAt(p, r.Sizes.Method)}
	keep(s.Body, r.Only)
	for _, id := range r.Only {
		if _, err := ref.Read(p, id, r.Sizes.Method); err != nil {
			m, _ := ref.Measurement(id) // known: it was looked up when it was read
			s.Missing = append(s.Missing, tell.Missing{Measurement: m, Err: err})
		}
	}
	switch {
	case len(s.Body.Readings) > 0:
	case len(s.Missing) > 0:
		return s, fmt.Errorf("size %s: %s", p.Label(), s.Missing[0].Err)
	default:
		return s, fmt.Errorf("size %s: chart %s has no measurement here", p.Label(), chart.ID)
	}
	return s, nil
}

// keep reduces a body to the ids; nil keeps all.
func keep(b *sizing.Body, ids []string) {
	if ids == nil {
		return
	}
	b.Readings = slices.DeleteFunc(b.Readings, func(r sizing.Reading) bool {
		return !slices.Contains(ids, r.Measurement.ID)
	})
	b.Apart = slices.DeleteFunc(b.Apart, func(a sizing.Apart) bool { return !slices.Contains(ids, a.Measurement.ID) })
}

// Bodies reports a child's measurements, or those of a run of sizes.
func Bodies(ref *sizing.Reference, r *ask.Request, st tell.Style) (tell.Document, error) {
	if len(r.Run) == 0 {
		return Blend(ref, r, st)
	}
	if err := r.CheckRun(); err != nil {
		return tell.Document{}, err
	}
	return Sizes(ref, r, r.Run, st)
}

// Blend reports a child's measurements.
func Blend(ref *sizing.Reference, r *ask.Request, st tell.Style) (tell.Document, error) {
	b, err := Body(ref, r)
	if err != nil {
		return tell.Document{}, err
	}
	keep(b, r.Only)
	var absent []data.Measurement
	for _, m := range ref.Measurements() {
		if _, ok := b.Get(m.ID); !ok && (r.Only == nil && ref.Estimable(m.ID) || slices.Contains(r.Only, m.ID)) {
			absent = append(absent, m)
		}
	}
	if len(b.Readings) == 0 {
		return tell.Document{}, errors.New(tell.NotKnown(absent[0]))
	}
	shown, err := tell.Shown(ref, r.Only, r.All)
	if err != nil {
		return tell.Document{}, err
	}
	return st.Blend(ref, r.Child, b, absent, shown, r.Why), nil
}

// ErrNothingToFind is a child without measurements.
var ErrNothingToFind = errors.New("the child has no measurements to find in a chart")

// Profile reports where a child's measurements are on the chart.
func Profile(ref *sizing.Reference, r *ask.Request, st tell.Style) (tell.Document, error) {
	if len(r.Child.Own) == 0 {
		return tell.Document{}, ErrNothingToFind
	}
	chart, err := ref.Chart(r.Sizes.Chart)
	if err != nil {
		return tell.Document{}, err
	}
	standings, err := ref.Profile(chart, r.Child)
	if err != nil {
		return tell.Document{}, err
	}
	var survey []sizing.Standing
	if measured, err := ref.Chart("measured"); err == nil && chart.ID != measured.ID {
		if survey, err = ref.Profile(measured, r.Child); err != nil {
			return tell.Document{}, err
		}
	}
	return st.Profile(ref, r.Child, chart, standings, survey), nil
}

// places finds the sizes of a run on its chart; they must all differ.
func places(chart *sizing.Chart, sizes []string, sex sizing.Sex) ([]sizing.Place, error) {
	var all []sizing.Place
	for i, size := range sizes {
		place, err := chart.Place(size, sex)
		if err != nil {
			return nil, &ask.Fault{Field: "sizes", Err: err}
		}
		if j := slices.IndexFunc(all, func(p sizing.Place) bool { return p.Run == place.Run && p.Position == place.Position }); j >= 0 {
			return nil, &ask.Fault{Field: "sizes", Err: fmt.Errorf("sizes %s: %s is the same size as %s; name each once", strings.Join(sizes, ","), sizes[i], sizes[j])}
		}
		all = append(all, place)
	}
	return all, nil
}

// run are the bodies of a run of sizes.
func run(ref *sizing.Reference, r *ask.Request) ([]*sizing.Body, error) {
	if err := r.CheckRun(); err != nil {
		return nil, err
	}
	chart, err := ref.Chart(r.Sizes.Chart)
	if err != nil {
		return nil, err
	}
	found, err := places(chart, r.Run, r.Child.Sex)
	if err != nil {
		return nil, err
	}
	var bodies []*sizing.Body
	for _, place := range found {
		if err := r.Ended(); err != nil {
			return nil, err
		}
		bodies = append(bodies, ref.BodyAt(place, r.Sizes.Method))
	}
	return bodies, nil
}
