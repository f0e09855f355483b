package plan

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"growtuck/sizing"
)

// A Stripe is some rows of one colour.
type Stripe struct {
	Rows   int
	Colour string
}

// A PartColour is the colour of a section; the parts Main and Ribbing are the fabric
// without another colour, and all ribbing.
type PartColour struct{ Part, Colour string }

// Parts that are no sections and can have a colour.
const (
	MainColour = "main"
	Ribbing    = "ribbing"
)

const (
	mostStripes    = 40
	mostStripeRows = 400
	longestColour  = 40
)

// ParseStripes reads the repeat of a striped fabric, its rows and colours: "4 red, 2
// white", "4 rows red; 2 rows white", "red 4, white 2".
func ParseStripes(s string) ([]Stripe, error) {
	bad := func(what string) ([]Stripe, error) {
		return nil, fmt.Errorf("stripes %.80q: %s; write rows and colours, such as 4 red, 2 white", s, what)
	}
	var all []Stripe
	for _, piece := range strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ';' || r == '+' }) {
		var one Stripe
		var colour []string
		for _, word := range strings.Fields(piece) {
			n, err := strconv.Atoi(word)
			switch {
			case err == nil && one.Rows != 0:
				return bad(strconv.Quote(strings.TrimSpace(piece)) + " has two numbers of rows")
			case err == nil && (n < 1 || n > mostStripeRows):
				return bad(fmt.Sprintf("%d rows: want 1 to %d", n, mostStripeRows))
			case err == nil:
				one.Rows = n
			case slices.Contains([]string{"row", "rows", "round", "rounds", "of", "in"}, strings.ToLower(word)):
			default:
				colour = append(colour, word)
			}
		}
		if one.Colour = strings.Join(colour, " "); one.Rows == 0 && one.Colour == "" {
			continue
		}
		if one.Rows == 0 {
			return bad("no rows are given for " + one.Colour)
		}
		if err := checkColour(one.Colour); err != nil {
			return bad(err.Error())
		}
		all = append(all, one)
	}
	switch {
	case len(all) == 0:
		return bad("none are given")
	case len(all) > mostStripes:
		return bad(fmt.Sprintf("%d stripes in a repeat: want at most %d", len(all), mostStripes))
	}
	return all, nil
}

// ParseColours reads colours of sections: "hem=blue, cuff=blue".
func ParseColours(s string) ([]PartColour, error) {
	var all []PartColour
	for _, piece := range strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ';' }) {
		part, colour, ok := strings.Cut(piece, "=")
		one := PartColour{strings.ReplaceAll(strings.ToLower(strings.TrimSpace(part)), "_", "-"), strings.Join(strings.Fields(colour), " ")}
		if !ok || one.Part == "" {
			return nil, fmt.Errorf("colour %.80q: want a section and its colour, such as hem=blue", strings.TrimSpace(piece))
		}
		if err := checkColour(one.Colour); err != nil {
			return nil, fmt.Errorf("colour of %s: %w", one.Part, err)
		}
		all = append(all, one)
	}
	return all, nil
}

func checkColour(name string) error {
	switch {
	case name == "":
		return errors.New("the colour is missing")
	case len(name) > longestColour:
		return fmt.Errorf("the name of a colour is at most %d letters long", longestColour)
	case strings.ContainsFunc(name, func(r rune) bool { return r < ' ' || r == '=' }):
		return fmt.Errorf("%.80q is no name of a colour", name)
	}
	return nil
}

// colours gives every row its colour, where the garment has more than one.
func (p *Plan) colours() error {
	own := make(map[string]string)
	for _, c := range p.How.Colours {
		if _, ok := p.Section(c.Part); !ok && c.Part != MainColour && c.Part != Ribbing {
			return &sizing.UnknownError{Kind: "section", Name: c.Part, Known: p.colourParts()}
		}
		if before, twice := own[c.Part]; twice && before != c.Colour {
			return fmt.Errorf("%s has two colours, %s and %s", c.Part, before, c.Colour)
		}
		own[c.Part] = c.Colour
	}
	if len(own) == 0 && len(p.How.Stripes) == 0 {
		return nil
	}
	main := own[MainColour]
	if main == "" && len(p.How.Stripes) > 0 {
		main = p.How.Stripes[0].Colour
	}
	if main == "" {
		main = "main colour"
	}
	var repeat []string // the colours of the rows of the stripes
	for _, s := range p.How.Stripes {
		repeat = append(repeat, slices.Repeat([]string{s.Colour}, s.Rows)...)
	}
	ends := make(map[string]int) // the row of the repeat after each section
	for i, s := range p.Sections {
		at := 0
		if before := p.before(i); before != nil {
			at = ends[before.ID]
		}
		s.Colours, ends[s.ID] = s.coloured(own, main, repeat, at)
	}
	return nil
}

func (p *Plan) colourParts() []string {
	known := []string{MainColour, Ribbing}
	for _, s := range p.Sections {
		known = append(known, s.ID)
	}
	return known
}

// coloured gives the rows of a section their colours, from a row of the repeat on, and
// the row that the repeat is at after them.
func (s *Section) coloured(own map[string]string, main string, repeat []string, at int) ([]string, int) {
	colour, stripes := own[s.ID], false
	switch {
	case colour != "":
	case s.Ribbed && own[Ribbing] != "":
		colour = own[Ribbing]
	case s.Ribbed, s.alongEdge(), len(repeat) == 0:
		colour = main
	default:
		stripes = true
	}
	rows := make([]string, s.Rows())
	for r := range rows {
		rows[r] = colour
		if stripes {
			rows[r] = repeat[at%len(repeat)]
		}
		if stripes && !s.shortRows() {
			at++
		}
	}
	return rows, at
}

// alongEdge reports a section that is worked along an edge: its rows lie across those
// of the fabric.
func (s *Section) alongEdge() bool {
	return s.ID == "front-edges" || s.ID == "underlap" || strings.HasSuffix(s.ID, "-edge") || strings.HasSuffix(s.ID, "-edging")
}

// shortRows reports a section of short rows: they lie within a row of the repeat.
func (s *Section) shortRows() bool {
	return s.ID == "back-neck" || s.ID == "seat-back" || s.ID == "heel"
}

// before is the section whose last row the i-th goes on from; nil where it begins anew.
func (p *Plan) before(i int) *Section {
	s := p.Sections[i]
	if len(s.Steps) == 0 || i == 0 {
		return nil
	}
	kind := s.Steps[0].Kind
	if strings.HasPrefix(kind, "sleeve-from-") {
		if yoke, ok := p.Section("yoke"); ok {
			return yoke
		}
	}
	for _, anew := range []string{"pick-up", "hood-pick-up", "cast-on", "start"} {
		if strings.HasPrefix(kind, anew) {
			return nil
		}
	}
	return p.Sections[i-1]
}

// Bands are the colours of the rows of a section, in their order: how many rows of
// each.
func (s *Section) Bands() []Stripe {
	var all []Stripe
	for _, c := range s.Colours {
		if n := len(all); n > 0 && all[n-1].Colour == c {
			all[n-1].Rows++
		} else {
			all = append(all, Stripe{1, c})
		}
	}
	return all
}
