package work

import (
	"errors"
	"fmt"
	"io"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
	"growtuck/validate"
)

// Grow reports how a child grows.
func Grow(ref *sizing.Reference, r *ask.Request, st tell.Style) (tell.Document, error) {
	shown, err := tell.Shown(ref, r.Only, r.All)
	if err != nil {
		return tell.Document{}, err
	}
	b, err := Body(ref, r)
	var g *sizing.Growth
	var outside *sizing.RangeError
	switch {
	case err == nil:
		g, err = ref.Growth(b)
	case r.Child.Own["height"] > 0 && errors.As(err, &outside): // a baby smaller than the survey has
		b = &sizing.Body{}
		g, err = ref.GrowthOf(r.Child)
	}
	if err != nil {
		return tell.Document{}, err
	}
	total := r.Spec.Wear + 6*r.Spec.Seasons
	if total == 0 {
		total = 12
	}
	steps := tell.GrowthSteps(total)
	columns := make([]tell.GrownBody, 0, len(steps))
	for _, months := range steps {
		height, err := g.Height(months / 12)
		if err != nil {
			return tell.Document{}, err
		}
		at := tell.GrownBody{Months: months, Height: height}
		if at.Body, err = g.At(months / 12); err != nil {
			at.Body = nil // shorter or taller than the survey has
		}
		columns = append(columns, at)
	}
	keep(b, r.Only)
	return st.Grow(ref, r.Child, g, b, columns, shown), nil
}

// ReadMade reads the draft whose garment is asked after, with the sizes of its parts.
func ReadMade(ref *sizing.Reference, in io.Reader, name, dir string, decode Decoder) (*validate.Draft, error) {
	b, is := peek(in)
	if is {
		return nil, fmt.Errorf("%s is a workbook; want a draft as CSV, or name the garment and its sizes with --finished", name)
	}
	return validate.ReadDraft(ref, decode(b), name, openChild(dir, decode))
}

// A Wearer is a child who may wear a garment.
type Wearer struct {
	Name  string
	Child sizing.Child
	Body  *sizing.Body
}

// Wears reports when children can wear what was made, who can soonest first. Where
// finished is nil it is made for the only child as was asked for.
func Wears(ref *sizing.Reference, r *ask.Request, finished map[string]float64, wearers []Wearer, st tell.Style) (tell.Document, error) {
	var all []tell.WornBy
	for _, w := range wearers {
		g, err := ref.Growth(w.Body)
		if err != nil {
			return tell.Document{}, fmt.Errorf("%s: %w", w.Name, err)
		}
		sizes := finished
		if sizes == nil {
			if sizes, err = sizesFor(ref, w.Body, r.Spec); err != nil {
				return tell.Document{}, err
			}
		}
		wearing, err := ref.Wears(r.Spec, sizes, g.Path())
		if err != nil {
			return tell.Document{}, err
		}
		all = append(all, tell.WornBy{Name: w.Name, Child: w.Child, Growth: g, Wearing: wearing})
	}
	return st.Wears(ref, r.Spec, all), nil
}

// sizesFor are the finished measurements of a garment made for a body, in cm by part.
func sizesFor(ref *sizing.Reference, b *sizing.Body, spec sizing.Spec) (map[string]float64, error) {
	made, err := ref.Finish(b, spec)
	if err != nil {
		return nil, err
	}
	sizes := make(map[string]float64)
	for _, l := range made.Lines {
		sizes[l.Part.Part] = l.Finished
	}
	return sizes, nil
}

// WearsSizes reports which months of a usual child each size of a run covers.
func WearsSizes(ref *sizing.Reference, r *ask.Request, st tell.Style) (tell.Document, error) {
	bodies, err := run(ref, r)
	if err != nil {
		return tell.Document{}, err
	}
	chart, err := ref.Chart(r.Sizes.Chart)
	if err != nil {
		return tell.Document{}, err
	}
	path, err := ref.UsualPath(chart, r.Child.Sex)
	if err != nil {
		return tell.Document{}, err
	}
	var all []tell.WornBy
	for i, b := range bodies {
		sizes, err := sizesFor(ref, b, r.Spec)
		if err != nil {
			return tell.Document{}, err
		}
		wearing, err := ref.Wears(r.Spec, sizes, path)
		if err != nil {
			return tell.Document{}, err
		}
		all = append(all, tell.WornBy{Name: r.Run[i], Wearing: wearing})
	}
	return st.WearsSizes(ref, r.Spec, all), nil
}

// WearsOne reports when a garment fits the child that it is made for, or, of a run of
// sizes, usual children.
func WearsOne(ref *sizing.Reference, r *ask.Request, st tell.Style) (tell.Document, error) {
	if len(r.Run) > 0 {
		return WearsSizes(ref, r, st)
	}
	b, err := Body(ref, r)
	if err != nil {
		return tell.Document{}, err
	}
	return Wears(ref, r, nil, []Wearer{{Name: r.Child.Name, Child: r.Child, Body: b}}, st)
}
