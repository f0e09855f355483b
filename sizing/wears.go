package sizing

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"growtuck/data"
)

// A Path is a body month by month, as far as it is known.
type Path struct {
	First, Last int // months
	At          func(month int) (*Body, error)
}

// mostPath is how far ahead it is looked for when a garment is outgrown, in months.
const mostPath = 48

// Path is the child's body from now on, to where the survey or the charts end.
func (g *Growth) Path() Path {
	p := Path{0, min(mostPath, int(g.Last()*12)), func(month int) (*Body, error) { return g.At(float64(month) / 12) }}
	p.Last = sort.Search(p.Last+1, func(month int) bool { _, err := p.At(month); return err != nil }) - 1
	return p
}

// UsualPath is the body of the usual child of the chart by age in months: at each age
// what the chart has at the median height.
func (ref *Reference) UsualPath(c *Chart, sex Sex) (Path, error) {
	at := func(month int) (*Body, error) {
		h, ok := ref.MedianHeight(float64(month)/12, sex)
		if !ok {
			return nil, fmt.Errorf("no median height at %d months", month)
		}
		p, err := c.AtHeight(h, sex)
		if err != nil {
			return nil, err
		}
		return ref.BodyAt(p, Monotone), nil
	}
	p := Path{First: -1, At: at}
	for month := range 20 * 12 {
		if _, err := at(month); err == nil {
			p.Last = month
			if p.First < 0 {
				p.First = month
			}
		}
	}
	if p.First < 0 {
		return p, fmt.Errorf("chart %s has no heights, by which ages are known", c.ID)
	}
	return p, nil
}

// A Fitting is when a part of a garment fits, in months of a path. It is NaN where it
// never does.
type Fitting struct {
	Part        data.Part
	Finished    float64 // cm
	From, Until float64
	Open        bool // it fits still where the path ends
}

// Wearing is when a garment fits.
type Wearing struct {
	Parts       []Fitting
	From, Until float64 // of all parts; NaN where they never fit together
	Open        bool
	First       string // the part that fails first; "" where none does
	Last        string // the part that fits last; "" where all do from the beginning
	Missing     []data.Part
}

// Wears finds when finished measurements of a garment, in cm by part, fit along a path.
// A girth fits while its ease belongs to the fit, or to the fit next to it; where every
// fit has one ease, while the part is as wide as least_of_girth of the body. A length
// fits while it is off by no more than length_slack, or length_slack_share of it.
func (ref *Reference) Wears(spec Spec, finished map[string]float64, path Path) (*Wearing, error) {
	spec.Seasons, spec.Wear, spec.Extra = 0, 0, nil
	i := slices.Index(Fits, spec.Fit)
	if i < 0 {
		return nil, unknown("fit", string(spec.Fit), Words(Fits))
	}
	w := &wearer{ref: ref, path: path, needs: make(map[int]map[string]need), tight: spec, loose: spec, spec: spec}
	w.tight.Fit, w.loose.Fit = Fits[max(i-1, 0)], Fits[min(i+1, len(Fits)-1)]
	parts, err := ref.Parts(spec.Garment)
	if err != nil {
		return nil, err
	}
	for part := range finished {
		if !slices.ContainsFunc(parts, func(p data.Part) bool { return p.Part == part }) {
			var known []string
			for _, p := range parts {
				known = append(known, p.Part)
			}
			return nil, unknown("part of "+spec.Garment, part, known)
		}
	}
	never := false
	out := &Wearing{From: float64(path.First), Until: float64(path.Last), Open: true}
	for _, p := range parts {
		cm, given := finished[p.Part]
		if !given {
			continue
		}
		s, known, err := w.span(p, cm)
		if err != nil {
			return nil, err
		}
		if !known {
			out.Missing = append(out.Missing, p)
			continue
		}
		out.Parts = append(out.Parts, s)
		never = never || math.IsNaN(s.From) || math.IsNaN(s.Until) || s.From > s.Until
		if s.From > out.From || math.IsNaN(s.From) {
			out.From, out.Last = s.From, p.Part
		}
		if s.Until < out.Until || math.IsNaN(s.Until) {
			out.Until, out.Open, out.First = s.Until, s.Open, p.Part
		}
	}
	if len(out.Parts) == 0 {
		return nil, fmt.Errorf("%s: no finished measurement of it is known", spec.Garment)
	}
	if never || !(out.From <= out.Until) {
		out.From, out.Until, out.Open = math.NaN(), math.NaN(), false
	}
	return out, nil
}

// A wearer works out what a garment must be along a path.
type wearer struct {
	ref                *Reference
	path               Path
	spec, tight, loose Spec
	needs              map[int]map[string]need
}

// A need is from what to what a part may measure, in cm.
type need struct{ low, high float64 }

// in are the needs in a month.
func (w *wearer) in(month int) (map[string]need, error) {
	if n := w.needs[month]; n != nil {
		return n, nil
	}
	body, err := w.path.At(month)
	if err != nil {
		return nil, err
	}
	f, err := w.ref.Finish(body, w.spec)
	if err != nil {
		return nil, err
	}
	tight, err := w.ref.Finish(body, w.tight)
	if err != nil {
		return nil, err
	}
	loose, err := w.ref.Finish(body, w.loose)
	if err != nil {
		return nil, err
	}
	needs := make(map[string]need)
	for i, l := range f.Lines {
		n := need{tight.Lines[i].Finished + tight.Lines[i].EaseLow - TotalCm(tight.Lines[i].Ease), inf}
		switch {
		case l.Part.Dimension == "length":
			slack := max(w.ref.Practice("length_slack").Value, w.ref.Practice("length_slack_share").Share()*l.Finished)
			n = need{l.Finished - slack, l.Finished + slack}
		case len(l.Ease) == 0 || tight.Lines[i].Finished == loose.Lines[i].Finished:
			n.low = min(l.Finished, w.ref.Practice("least_of_girth").Share()*l.Body.Value)
		default:
			n.high = loose.Lines[i].Finished + loose.Lines[i].EaseHigh - TotalCm(loose.Lines[i].Ease)
		}
		needs[l.Part.Part] = n
	}
	w.needs[month] = needs
	return needs, nil
}

// span is when a part fits: bodies only grow, so it is searched for.
func (w *wearer) span(p data.Part, cm float64) (s Fitting, known bool, err error) {
	first, last := w.path.First, w.path.Last
	fits := func(of func(need) bool) int {
		return first + sort.Search(last-first+1, func(i int) bool {
			needs, e := w.in(first + i)
			n, ok := needs[p.Part]
			if e != nil {
				err = e
			}
			known = known || ok
			return of(n)
		})
	}
	const least = 1e-9
	from := fits(func(n need) bool { return cm <= n.high+least })
	until := fits(func(n need) bool { return cm < n.low-least }) - 1
	s = Fitting{p, cm, float64(from), float64(until), until == last}
	if from > last || until < first || from > until {
		if from > last {
			s.From = math.NaN() // still too large where the path ends
		}
		if until < first {
			s.Until = math.NaN() // too small already
		}
	}
	return s, known, err
}
