package plan

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// A Craft is how fabric is made.
type Craft string

const (
	Crochet Craft = "crochet"
	Knit    Craft = "knit"
)

// Crafts are all crafts.
var Crafts = []Craft{Crochet, Knit}

// A Construction is how body and sleeves meet.
type Construction string

const (
	Circular     Construction = "circular" // round yoke
	Raglan       Construction = "raglan"
	DropShoulder Construction = "drop-shoulder"
)

// Constructions are all constructions.
var Constructions = []Construction{Circular, Raglan, DropShoulder}

// A Closure is how a front opening is closed.
type Closure string

const (
	Zip     Closure = "zipper"
	Buttons Closure = "buttons"
)

// Closures are all closures.
var Closures = []Closure{Zip, Buttons}

// A Hood is how the top of a hood is made.
type Hood string

const (
	ShapedCrown Hood = "shaped-crown" // decreased at the middle of the back, then joined: round
	CentrePanel Hood = "centre-panel" // a panel worked on over the crown, joined to the sides
	Straight    Hood = "straight"     // folded and joined: it keeps a point
)

// Hoods are all hoods.
var Hoods = []Hood{ShapedCrown, CentrePanel, Straight}

var hoodShapes = map[Hood]stitch.HoodShape{ShapedCrown: stitch.ShapedHood, CentrePanel: stitch.PanelHood, Straight: stitch.StraightHood}

// How says how a garment is worked. The zero value of a field that is not
// required means the usual choice.
type How struct {
	Craft  Craft         // required
	Gauge  stitch.Gauge  // required: of the fabric, washed
	Before *stitch.Gauge // of the same swatch before it was washed
	Rib    *stitch.Gauge // of the ribbing, washed; nil: taken to be the fabric's

	// Of crochet alone.
	Stitch     Stitch     // the fabric's; the one whose rows are as high as the gauge's where empty
	Terms      Terms      // US where empty
	Foundation Foundation // Chain where empty
	Rounds     Rounds     // RoundsTurned where empty, of hats, mittens and socks RoundsJoined

	Construction Construction    // of a garment with sleeves; Circular where empty
	Multiple     stitch.Multiple // of the body's stitches
	RibShare     float64         // of the fabric's stitches that hems and cuffs have; 0: as is customary
	Turned       bool            // sleeves, legs and other narrow tubes flat, in turned rows, with a seam

	// Stretch is how far an edge stretches (1 to 3 times), measured on the
	// swatch: neck, cuff, ankle, waist, brim. An edge that is left out was not
	// measured, and nothing is built on it.
	Stretch map[string]float64

	Hood      Hood      // of a hooded garment; ShapedCrown where empty
	Closure   Closure   // of a front opening; Zip where empty
	ZippersIn []float64 // stocked lengths; nil: those that shops commonly stock

	HemCm, CuffCm, BandCm float64 // depth of ribbing; 0: as is customary

	Add []Addition // parts that are sewn on

	// Hold is how room to grow is held until it is needed, by room, or of all that are
	// not named; as is customary where nothing is said.
	Hold map[Room]Way

	Ball       stitch.Ball       // the yarn as it is sold
	Swatch     stitch.YarnSwatch // weighed or measured
	Margin     *float64          // safety share; nil: as is customary, more with a hood
	KnitPer4In float64           // stitches over 4 in that the yarn knits to, for the cross-check; 0: the gauge of knitting

	Ports   []string     // places of openings for tubes and ports
	Stripes []Stripe     // worked over and over in the fabric; none: one colour
	Colours []PartColour // of sections that have a colour of their own

	Pace Pace // of the work, and when it should be ready
}

// Edges are the edges whose stretch can be measured.
var Edges = []string{"neck", "cuff", "ankle", "waist", "brim"}

// complete checks how and fills in defaults from the tables that the garment was
// finished with.
func (h How) complete(f *sizing.Finished) (How, error) {
	h.Construction = cmp.Or(h.Construction, Circular)
	h.Hood = cmp.Or(h.Hood, ShapedCrown)
	h.Closure = cmp.Or(h.Closure, Zip)
	h.RibShare = cmp.Or(h.RibShare, f.Practice("rib_share").Share())
	h.HemCm = cmp.Or(h.HemCm, f.Practice("hem_depth").Value)
	h.CuffCm = cmp.Or(h.CuffCm, f.Practice("cuff_depth").Value)
	h.BandCm = cmp.Or(h.BandCm, f.Practice("neckband_depth").Value)
	if err := h.check(); err != nil {
		return h, err
	}
	h = h.completeCrochet(f)
	if err := h.checkCrochet(); err != nil {
		return h, err
	}
	return h, h.checkFigures()
}

// check refuses choices and gauges that there are not.
func (h How) check() error {
	if h.Craft == "" {
		return fmt.Errorf("no craft given; want crochet or knit")
	}
	if err := oneOf("craft", h.Craft, Crafts); err != nil {
		return err
	}
	if err := h.gauges(); err != nil {
		return err
	}
	return cmp.Or(oneOf("construction", h.Construction, Constructions), oneOf("hood", h.Hood, Hoods), oneOf("closure", h.Closure, Closures), h.Multiple.Validate())
}

// checkFigures refuses figures out of bounds.
func (h How) checkFigures() error {
	for _, s := range []struct {
		what         string
		v, low, high float64
	}{
		{"share of ribbing", h.RibShare, 0.5, 1},
		{"depth of the hem, cm", h.HemCm, 0.5, 20},
		{"depth of the cuffs, cm", h.CuffCm, 0.5, 20},
		{"depth of the neckband, cm", h.BandCm, 0.5, 20},
	} {
		if !(s.v >= s.low && s.v <= s.high) {
			return fmt.Errorf("%s is %g: want %g to %g", s.what, s.v, s.low, s.high)
		}
	}
	if h.Margin != nil && !(*h.Margin >= 0 && *h.Margin <= 1) {
		return fmt.Errorf("margin of yarn is %g: want 0 to 1", *h.Margin)
	}
	if h.KnitPer4In != 0 && !(h.KnitPer4In >= 1 && h.KnitPer4In <= 80) {
		return fmt.Errorf("stitches over 4 in that the yarn knits to: %g; want 1 to 80", h.KnitPer4In)
	}
	for _, in := range h.ZippersIn {
		if !(in >= 1 && in <= 100) {
			return fmt.Errorf("a stocked zipper of %g in: want 1 to 100", in)
		}
	}
	if err := h.Pace.Check(); err != nil {
		return err
	}
	for edge, s := range h.Stretch {
		if err := CheckStretch(edge, s); err != nil {
			return err
		}
	}
	return nil
}

// CheckStretch refuses an unknown edge, and a stretch that no edge has.
func CheckStretch(edge string, times float64) error {
	if err := oneOf("edge", edge, Edges); err != nil {
		return err
	}
	if !(times >= 1 && times <= 3) {
		return fmt.Errorf("stretch of the %s is %g: want 1 to 3 times", edge, times)
	}
	return nil
}

func (h How) gauges() error {
	if err := h.Gauge.Validate(); err != nil {
		return err
	}
	if h.Rib != nil {
		if err := h.Rib.Validate(); err != nil {
			return fmt.Errorf("ribbing: %w", err)
		}
	}
	if h.Before != nil {
		return stitch.WashedGauge{Before: *h.Before, After: h.Gauge}.Validate()
	}
	return nil
}

func oneOf[T ~string](what string, v T, known []T) error {
	if slices.Contains(known, v) {
		return nil
	}
	return &sizing.UnknownError{Kind: what, Name: string(v), Known: sizing.Words(known)}
}

// ParseStretch reads how many times an edge stretches: "neck=1.4", or "1.5" for
// all edges.
func ParseStretch(s string) (edges []string, times float64, err error) {
	edge, value, named := strings.Cut(s, "=")
	if edges = []string{strings.TrimSpace(edge)}; !named {
		edges, value = Edges, s
	}
	if times, err = sizing.ParseNumber(value); err != nil {
		return nil, times, fmt.Errorf("stretch %.80q: want how many times, such as 1.5 or neck=1.4", s)
	}
	return edges, times, nil
}

// ParseGauge reads a gauge as it is counted: "18x24/10cm", "20x28/4in", "27x36/15cm",
// "22 sts and 30 rows = 10 cm". Stitches come first, rows second.
func ParseGauge(s string) (stitch.Gauge, error) {
	bad := fmt.Errorf("gauge %.80q: want stitches x rows over a length, such as 18x24/10cm or 20x28/4in", s)
	text := gaugeWords.Replace(strings.ToLower(sizing.PlainFigures(s)))
	cut := max(0, strings.LastIndexByte(text, '/')) // 18 1/2x24/10cm
	sts, rows, ok := strings.Cut(text[:cut], "x")
	if !ok {
		return stitch.Gauge{}, bad
	}
	l, err := sizing.ParseLength(text[cut+1:], "cm")
	n, err1 := sizing.ParseNumber(sts)
	r, err2 := sizing.ParseNumber(rows)
	if errors.Join(err, err1, err2) != nil {
		return stitch.Gauge{}, bad
	}
	return stitch.Swatch{Stitches: n, WidthCm: float64(l), Rows: r, HeightCm: float64(l)}.Gauge()
}

// gaugeWords takes the words out that a gauge may be written with.
var gaugeWords = strings.NewReplacer("stitches", "", "sts", "", "st", "", "rows", "", "rnds", "", "rounds", "", " and ", "x", "&", "x", "*", "x", ", ", "x", " to ", "/", "=", "/", " over ", "/", " per ", "/", " by ", "x")
