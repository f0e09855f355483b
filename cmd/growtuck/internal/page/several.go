package page

import (
	"context"
	"errors"
	"fmt"
	"math"
	"net/http"
	"net/url"
	"strings"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/list"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/sizing"
)

// A severalView takes a list of children and shows how many of each size to make for them,
// how well these fit, and who of them can wear the maker's garment next.
type severalView struct {
	frame
	Text, Sizes, Best string // as they were posted
	Fault             string
	SizesFault        string
	Said              string
	Example           string
	Heading           []string
	Order, Misfit     *table
	Off               []offBand
	Remarks           []string
	Next              *table // who can wear the garment
	NextOf            string
	NextNote          []string
	Left              []string // lines that are left out
}

// An offBand shows by how much sizes are off in a measurement: bars of how many children,
// by the centimetre. Places are in percent of the track.
type offBand struct {
	Name       string
	Bars       []offBar
	From, Wide string // of what is within the tolerance
	Ends       string // how far the track goes to each side, cm
}

type offBar struct {
	At, Wide, Y, High, Words string
	Small                    bool // the size is too small, by more than the tolerance
}

// several answers with the view of a list of children.
func (s *site) several(w http.ResponseWriter, r *http.Request) {
	v := &severalView{Example: choir}
	status := http.StatusOK
	var form url.Values
	var err error
	if r.Method == http.MethodPost {
		form, _, err = postedForm(r, "children")
	}
	st := s.readState(typedBefore(r, form))
	if r.Method == http.MethodPost {
		v.Text, v.Sizes, v.Best = unix(form.Get("children")), clean(form.Get("sizes")), clean(form.Get("best"))
		var big *http.MaxBytesError
		switch {
		case errors.As(err, &big) || len(v.Text) > maxForm:
			v.Text, v.Fault, status = "", "That is more than 1 MiB. Divide the list, or use growtuck order on it.", http.StatusRequestEntityTooLarge
		case err != nil:
			v.Fault, status = err.Error(), http.StatusBadRequest
		case strings.TrimSpace(v.Text) == "":
			v.Fault = "Nothing was given: paste the children with a header line, or choose a file."
		default:
			s.listed(r.Context(), v, st)
		}
	}
	v.frame = s.frame("several", "Several children", st.Query(), nil)
	s.render(w, r, status, v)
}

// listed works out what a list asks.
func (s *site) listed(ctx context.Context, v *severalView, st *state) {
	ref, style := s.engine.Reference, st.style()
	values, faults := ask.FromForm(ref, ask.OrderFields(), url.Values{"sizes": {v.Sizes}, "best": {v.Best}}, "cm")
	r, more := ask.Read(ref, ask.OrderFields(), values, sizing.Child{})
	if faults = append(faults, more...); len(faults) > 0 {
		v.SizesFault = tell.Capital(faults[0].Words())
		return
	}
	o, err := work.NewOrder(ref, r, list.CSV)
	var field *ask.Fault
	if errors.As(err, &field) {
		v.SizesFault = tell.Capital(style.Error(field.Err))
		return
	}
	in, err := s.openPosted(r, []byte(v.Text), nil)
	if err != nil {
		v.Fault = tell.Capital(style.Error(err)) + "."
		return
	}
	var left tell.Left
	result, err := o.Run(ctx, in, leaving(&left))
	for _, x := range left.Rejected {
		v.Left = append(v.Left, fmt.Sprintf("Line %d: %s", x.Line, x.Reason))
	}
	if err != nil {
		v.Fault = tell.Capital(style.Error(err)) + "."
		return
	}
	d := style.Order(ref, result)
	v.Heading, v.Remarks = d.Heading, d.Remarks
	v.Order = newTable(d.Tables[0], "many", "How many of each size", "How many of each size to make")
	v.Misfit = newTable(d.Tables[1], "many", "Misfit", d.Tables[1].Caption)
	v.Off = offBands(ref, style, result)
	v.Said = v.Heading[0] + "."
	s.next(v, st, style, r)
}

// next says who of the children can wear the garment of the maker's view.
func (s *site) next(v *severalView, st *state, style tell.Style, listed *ask.Request) {
	maker := s.compute(st)
	if maker.finished == nil {
		return
	}
	in, err := s.openPosted(listed, []byte(v.Text), nil)
	if err != nil {
		return // it was opened before
	}
	wearers, _, err := work.ListedWearers(s.engine.Reference, maker.request, in)
	if err != nil {
		return // none can be forecast
	}
	sizes := make(map[string]float64)
	for _, l := range maker.finished.Lines {
		sizes[l.Part.Part] = l.Finished
	}
	d, err := work.Wears(s.engine.Reference, maker.request, sizes, wearers, style)
	if err != nil {
		return
	}
	v.NextOf = tell.Capital(d.Heading[0])
	v.Next, v.NextNote = newTable(d.Tables[0], "many", "From when until when", "Who can wear it next, soonest first"), d.Remarks
}

// offBands lay out by how much the sizes are off, in each measurement that they go by.
func offBands(ref *sizing.Reference, style tell.Style, r *list.OrderResult) []offBand {
	const high = 46.0
	var all []offBand
	for k, id := range r.Options.By {
		m, err := ref.Measurement(id)
		if err != nil {
			continue
		}
		counts, most, top := make(map[int]int), 5, 1
		for i, size := range r.Plan.Sizes {
			off := int(math.Round(r.Sizes[size].BodyCm[k] - r.Children.Child(i)[k]))
			counts[off]++
			most, top = max(most, off, -off), max(top, counts[off])
		}
		wide := 100 / float64(2*most+1)
		at := func(cm float64) float64 { return (cm + float64(most) + 0.5) * wide }
		tolerance := r.Options.ToleranceCm
		b := offBand{Name: tell.Capital(m.Name), From: percentage(at(-tolerance)), Wide: percentage(2 * tolerance * wide), Ends: tell.LengthIn(float64(most), style.Unit) + " " + style.Unit}
		for off := -most; off <= most; off++ {
			n := counts[off]
			if n == 0 {
				continue
			}
			tall := math.Max(2, high*float64(n)/float64(top))
			words := tell.Counted(n, "children") + ", " + map[bool]string{true: "as it should be", false: tell.LengthIn(math.Abs(float64(off)), style.Unit) + " " + style.Unit + map[bool]string{true: " too small", false: " too big"}[off < 0]}[off == 0]
			b.Bars = append(b.Bars, offBar{percentage(at(float64(off) - 0.4)), percentage(0.8 * wide), pixel(high + 2 - tall), pixel(tall), words, float64(off) < -tolerance})
		}
		all = append(all, b)
	}
	return all
}
