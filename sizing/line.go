package sizing

import (
	"growtuck/data"
	"slices"
)

// An Amount is a number of centimetres added or taken away, and why.
type Amount struct {
	Cm     float64
	Kind   AmountKind
	Of     string // the fit, the layer or the option
	Note   string // of the table's row
	Source string // id; "" where it is the maker's own
	Basis  string
}

// AmountKind says what an amount is for.
type AmountKind string

const (
	FitEase     AmountKind = "fit"        // ease of a fit
	AnyFitEase  AmountKind = "any-fit"    // ease, the same in every fit
	LayerEase   AmountKind = "layer"      // for the clothes underneath
	NappyEase   AmountKind = "nappy"      // for a nappy
	LeastEase   AmountKind = "least"      // what is missing to the least over those clothes
	ShareOf     AmountKind = "share"      // percent of the body measurement
	StyleLength AmountKind = "style"      // of the garment's style
	OptionAdds  AmountKind = "option"     // of an option
	GrownBefore AmountKind = "grown"      // until it is first worn
	GrowthRoom  AmountKind = "growth"     // from then on
	AskedFor    AmountKind = "asked"      // by the maker
	AskedEase   AmountKind = "asked-ease" // by the maker, in place of a fit's
)

// Line is one finished measurement of a garment:
// body × share + ease + adjustments.
type Line struct {
	Part     data.Part
	Body     Reading
	Share    Amount // percent of the body measurement, in Cm; 0 for all of it
	Ease     []Amount
	Adjust   []Amount
	Finished float64 // cm
	// FinishedIn is in inches, from the body measurement as published in
	// inches where it is.
	FinishedIn float64
	// EaseLow and EaseHigh are the ends of the ease that still belongs to the
	// fit and the layer; EaseHigh is +Inf where the class has no upper end.
	EaseLow, EaseHigh float64
}

// OfBody is how much of the body measurement a difference of the part stands for: twice as
// much for a part that has half of it.
func (l Line) OfBody(cm float64) float64 {
	if l.Share.Cm == 0 {
		return cm
	}
	return cm * 100 / l.Share.Cm
}

// NappyCm is what the ease has for a nappy.
func (l Line) NappyCm() float64 {
	cm := 0.0
	for _, a := range l.Ease {
		if a.Kind == NappyEase {
			cm += a.Cm
		}
	}
	return cm
}

// Sources returns the ids of all sources that the line rests on.
func (l Line) Sources() []string {
	ids := slices.Clone(l.Body.Sources)
	for _, a := range slices.Concat([]Amount{l.Share}, l.Ease, l.Adjust) {
		if a.Source != "" && !slices.Contains(ids, a.Source) {
			ids = append(ids, a.Source)
		}
	}
	slices.Sort(ids)
	return ids
}

// TotalCm is what amounts come to.
func TotalCm(amounts []Amount) float64 {
	total := 0.0
	for _, a := range amounts {
		total += a.Cm
	}
	return total
}

// Finished are the finished measurements of a garment.
type Finished struct {
	Garment data.Garment
	Spec    Spec
	Body    *Body
	Lines   []Line
	// Growth is how the body grows for whom there is room; nil without room, or where
	// room is by season alone.
	Growth *Growth
	// Missing are the parts whose body measurement is not known.
	Missing []data.Part

	ref *Reference
}

// Line returns the line of a part.
func (f *Finished) Line(part string) (Line, bool) {
	i := slices.IndexFunc(f.Lines, func(l Line) bool { return l.Part.Part == part })
	if i < 0 {
		return Line{}, false
	}
	return f.Lines[i], true
}
