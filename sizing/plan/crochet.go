package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// A Stitch is what crocheted fabric is worked in, by its abbreviation in US terms.
type Stitch string

const (
	Single     Stitch = "sc"  // UK dc
	HalfDouble Stitch = "hdc" // UK htr
	Double     Stitch = "dc"  // UK tr
)

// Stitches are all stitches.
var Stitches = []Stitch{Single, HalfDouble, Double}

// Terms are the names of crochet stitches.
type Terms string

const (
	US Terms = "us"
	UK Terms = "uk"
)

// AllTerms are all terms.
var AllTerms = []Terms{US, UK}

// A Foundation is what the first row of crochet is worked into.
type Foundation string

const (
	Chain     Foundation = "chain"
	Chainless Foundation = "chainless" // chain and first row in one
)

// Foundations are all foundations.
var Foundations = []Foundation{Chain, Chainless}

// Rounds are how crocheted rounds follow each other.
type Rounds string

const (
	RoundsTurned Rounds = "turned" // joined and turned: the fabric is that of turned rows
	RoundsJoined Rounds = "joined"
	RoundsSpiral Rounds = "spiral"
)

// AllRounds are all ways to work rounds.
var AllRounds = []Rounds{RoundsTurned, RoundsJoined, RoundsSpiral}

// stitchNames are what stitches are called, in the terms of both countries.
var stitchNames = map[Terms]map[string]Stitch{
	US: {"sc": Single, "single": Single, "single crochet": Single, "hdc": HalfDouble, "half double": HalfDouble, "half double crochet": HalfDouble,
		"dc": Double, "double": Double, "double crochet": Double},
	UK: {"dc": Single, "double": Single, "double crochet": Single, "htr": HalfDouble, "half treble": HalfDouble, "half treble crochet": HalfDouble,
		"tr": Double, "treble": Double, "treble crochet": Double},
}

// ParseStitch reads a stitch by its abbreviation or name in the terms given. Where
// the terms are not given, or have no such name, a name that only the other terms
// have is read too.
func ParseStitch(s string, terms Terms) (Stitch, error) {
	name := strings.Join(strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return r == ' ' || r == '-' || r == '_' }), " ")
	order := []Terms{US, UK}
	if terms == UK {
		order = []Terms{UK, US}
	}
	for _, t := range order {
		if stitch, ok := stitchNames[t][name]; ok {
			return stitch, nil
		}
	}
	return "", fmt.Errorf("stitch %.80q: want sc, hdc or dc (in UK terms dc, htr or tr)", s)
}

// completeCrochet fills in how crochet is worked where that was not said. Knitting
// has none of it.
func (h How) completeCrochet(f *sizing.Finished) How {
	if h.Craft != Crochet {
		h.Stitch, h.Terms, h.Foundation, h.Rounds = "", "", "", ""
		return h
	}
	rounds := RoundsTurned
	if slices.Contains([]string{"head", "hand", "foot"}, f.Garment.Group) {
		rounds = RoundsJoined // no part of them is in turned rows
	}
	h.Stitch = cmp.Or(h.Stitch, likelyStitch(f, h.Gauge))
	h.Terms, h.Foundation, h.Rounds = cmp.Or(h.Terms, US), cmp.Or(h.Foundation, Chain), cmp.Or(h.Rounds, rounds)
	return h
}

// checkCrochet refuses choices that there are not.
func (h How) checkCrochet() error {
	if h.Craft != Crochet {
		return nil
	}
	return cmp.Or(oneOf("stitch", h.Stitch, Stitches), oneOf("terms", h.Terms, AllTerms), oneOf("foundation", h.Foundation, Foundations), oneOf("rounds", h.Rounds, AllRounds))
}

// likelyStitch is the stitch whose rows are usually as high, beside their stitches,
// as those of the gauge.
func likelyStitch(f *sizing.Finished, g stitch.Gauge) Stitch {
	usual := map[Stitch]sizing.Practice{Single: f.Practice("row_height_sc"), HalfDouble: f.Practice("row_height_hdc"), Double: f.Practice("row_height_dc")}
	off := func(s Stitch) float64 { return math.Abs(math.Log(g.RowByStitch() / usual[s].Share())) }
	return slices.MinFunc(Stitches, func(a, b Stitch) int { return cmp.Compare(off(a), off(b)) })
}

// doubtStitch notes a gauge that is not one of the stitch.
func (m *maker) doubtStitch() {
	if m.how.Craft != Crochet {
		return
	}
	s, by := m.how.Stitch, m.g.RowByStitch()
	var low, high float64
	switch s {
	case Single:
		low, high = m.share("row_height_sc_low"), m.share("row_height_sc_high")
	case HalfDouble:
		low, high = m.share("row_height_hdc_low"), m.share("row_height_hdc_high")
	case Double:
		low, high = m.share("row_height_dc_low"), m.share("row_height_dc_high")
	}
	if by < low || by > high {
		m.note("stitch-and-gauge", string(s), m.g.StitchesPer10Cm, m.g.RowsPer10Cm, by, low, high, string(likelyStitch(m.f, m.g)))
	}
}

// TurningChain is how many chains begin a row of the stitch. They are no stitch of
// their own, so they are one shorter than where they stand for a stitch.
func (h How) TurningChain() int {
	if h.Stitch == Double {
		return 2
	}
	return 1
}
