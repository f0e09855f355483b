package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"growtuck/sizing"
)

// A Way is how the room to grow of a part is held away until it is needed.
type Way string

// The ways.
const (
	FoldCuff Way = "fold-cuff" // a deeper cuff, turned back to the outside
	DeepHem  Way = "hem"       // a deeper edge, turned in and hemmed
	Tuck     Way = "tuck"      // folds across, inside, each caught row to row
	RiseFold Way = "rise"      // a fold under the waistband
	OnHold   Way = "on-hold"   // worked on later, from a row that is marked
	Buttoned Way = "buttons"   // a strap with several buttonholes
	Worn     Way = "none"      // not held: it is worn as it is
)

// Ways are all ways.
var Ways = []Way{FoldCuff, DeepHem, Tuck, RiseFold, OnHold, Buttoned, Worn}

// A Room is a part of a garment that has room to grow.
type Room string

// The rooms.
const (
	SleeveRoom Room = "sleeve"
	BodyRoom   Room = "body"
	SkirtRoom  Room = "skirt"
	RiseRoom   Room = "rise"
	LegRoom    Room = "leg"
	StrapRoom  Room = "strap"
)

// Rooms are all rooms.
var Rooms = []Room{SleeveRoom, BodyRoom, SkirtRoom, RiseRoom, LegRoom, StrapRoom}

// everywhere says in How.Hold what holds for rooms that are not named.
const everywhere Room = ""

// ParseHold reads ways of holding room: "tuck" for all rooms, or "sleeve=fold-cuff".
func ParseHold(texts []string) (map[Room]Way, error) {
	all := make(map[Room]Way)
	for _, t := range texts {
		room, way, named := strings.Cut(t, "=")
		if !named {
			room, way = "", t
		}
		r, w := Room(strings.TrimSpace(room)), Way(strings.TrimSpace(way))
		if named {
			if err := oneOf("room to hold", r, Rooms); err != nil {
				return nil, err
			}
		}
		if err := oneOf("way to hold room", w, Ways); err != nil {
			return nil, err
		}
		if _, twice := all[r]; twice {
			return nil, fmt.Errorf("%s is held in two ways: want one", cmp.Or(string(r), "all room"))
		}
		all[r] = w
	}
	return all, nil
}

// A Fold is rows of a section that are held away.
type Fold struct {
	Room  Room
	Way   Way
	Parts []string // finished lengths that it makes longer once it is let down
	Rows  int      // held
	Below int      // rows of the section between it and the end, as it is worked
}

// later reports rows that are not worked until they are needed.
func (f Fold) later() bool { return f.Way == OnHold }

// foldAfter is the row that a fold follows.
func (s *Section) foldAfter(f Fold) int {
	if f.later() {
		return s.Rows()
	}
	return s.Rows() - f.Below - f.Rows
}

// A Held is a fold in its section, and what letting it down does.
type Held struct {
	Fold
	Section *Section
	Cm      float64 // longer by it
	Row     int     // that it follows
	Place   int     // in the order in which those of its room are let down, from 1
	// WornCm is how long each of its parts is with it and what is let down after it
	// still held, in the order of Parts; DownCm once it is let down.
	WornCm, DownCm []float64
	// Body is the measurement of the body that tells when, and AtCm how long that is
	// when half of the fold is grown into. 0: not known.
	Body sizing.Reading
	AtCm float64
	// When is when that is so; nil where it is not foreseen.
	When *sizing.Passing
	// Grams and Metres are the yarn in it, all copies, the margin included; 0 without
	// yarn data.
	Grams, Metres float64
}

// CatchEvery is how many stitches lie between two that are caught.
func (p *Plan) CatchEvery(s *Section) int {
	return max(2, int(math.Round(s.Gauge.Stitches(p.Finished.Practice("tuck_catch").Value))))
}

// Held are the folds of a plan, those of a room in the order in which they are let
// down.
func (p *Plan) Held() []Held { return p.held }

// findHeld finds them once all is planned.
func (p *Plan) findHeld() []Held {
	var all []Held
	for _, room := range Rooms {
		var of []Held
		for _, s := range p.Sections {
			for _, f := range s.Folds {
				if f.Room == room {
					of = append(of, Held{Fold: f, Section: s, Cm: s.Gauge.HeightCm(f.Rows), Row: s.foldAfter(f)})
				}
			}
		}
		if room != StrapRoom { // where the first hole is used first
			slices.Reverse(of) // the lowest first
		}
		left := 0.0
		for _, h := range of {
			left += h.Cm
		}
		grown := 0.0
		for i := range of {
			of[i].Place = i + 1
			p.fill(&of[i], left, grown)
			left -= of[i].Cm
			grown += of[i].Cm
		}
		all = append(all, of...)
	}
	return all
}

// fill says what letting a fold down does, while so much is held by it and those after
// it.
func (p *Plan) fill(h *Held, held, before float64) {
	for _, id := range h.Parts {
		part, _ := p.Part(id)
		h.WornCm = append(h.WornCm, part.SizeCm-held)
		h.DownCm = append(h.DownCm, part.SizeCm-held+h.Cm)
	}
	if l, ok := p.Finished.Line(h.Parts[0]); ok {
		h.Body = l.Body
		h.AtCm = l.Body.Value + l.OfBody(l.GrownCm()+before+p.Finished.Practice("let_down_at").Share()*h.Cm)
		if w, ok := p.Finished.Passes(l.Body.Measurement.ID, h.AtCm); ok {
			h.When = &w
		}
	}
	if y := p.Yarn; y != nil && y.AreaCm2 > 0 {
		share := float64(h.Section.foldStitches(h.Fold)) * h.Section.Gauge.StitchWidthCm() * h.Section.Gauge.RowHeightCm() / y.AreaCm2
		h.Grams, h.Metres = y.Need.Grams*share, y.Need.Metres*share
	}
}

// foldedAfter is how many of the rows after one are folded away.
func (s *Section) foldedAfter(row int) int {
	n := 0
	for _, f := range s.Folds {
		if !f.later() && s.foldAfter(f) >= row {
			n += f.Rows
		}
	}
	return n
}

// foldStitches are the stitches of a fold, of all copies.
func (s *Section) foldStitches(f Fold) int {
	if f.later() {
		return f.Rows * s.To() * s.Copies
	}
	row := s.foldAfter(f)
	return (s.worked(row+f.Rows) - s.worked(row)) * s.Copies
}

// laterAreaCm2 is the area of rows that are worked once they are needed.
func (s *Section) laterAreaCm2() float64 {
	n := 0
	for _, f := range s.Folds {
		if f.later() {
			n += s.foldStitches(f)
		}
	}
	return float64(n) * s.Gauge.StitchWidthCm() * s.Gauge.RowHeightCm()
}

// partName is the name of a part in words.
func (p *Plan) partName(part string) string {
	x, _ := p.Part(part)
	return x.Line.Part.Name
}

// HeldCm is how much of a part its folds hold.
func (p *Plan) HeldCm(part string) float64 {
	cm := 0.0
	for _, s := range p.Sections {
		for _, f := range s.Folds {
			if slices.Contains(f.Parts, part) {
				cm += s.Gauge.HeightCm(f.Rows)
			}
		}
	}
	return cm
}

// HoldSteps say how room is held, fold by fold as they are made, and then how and when
// each is let down, in that order.
func (p *Plan) HoldSteps() []Step {
	var made, down []Step
	for _, room := range Rooms {
		var of []Step
		for _, h := range p.Held() {
			if h.Room == room {
				steps := p.StepsOf(h)
				of = append([]Step{steps[0]}, of...) // the last to let down is made first
				down = append(down, steps[1:]...)
			}
		}
		made = append(made, of...)
	}
	return append(made, down...)
}

// StepsOf say how a fold is held, how it is let down, and when.
func (p *Plan) StepsOf(h Held) []Step {
	s := h.Section
	v := Values{"section": s.Kind, "on": h.Row, "first": h.Row + 1, "to": h.Row + h.Rows, "rows": h.Rows, "stitches": s.StitchesAfter(h.Row), "every": p.CatchEvery(s),
		"deep": sizing.Length(h.Cm / 2), "cm": sizing.Length(h.Cm), "long": sizing.Length(h.WornCm[0]), "then": sizing.Length(h.DownCm[0]), "part": p.partName(h.Parts[0])}
	if h.Below == 0 {
		v["stitches"] = s.To()
	}
	id := fmt.Sprintf("%s-%d", h.Room, h.Place)
	step := func(kind string, v Values) Step {
		return Step{ID: kind + "-" + id, Kind: kind, Values: v, InRounds: s.InRounds, From: s.From, To: s.To()}
	}
	return []Step{step("hold-"+string(h.Way), v), step("let-down-"+string(h.Way), v), step(h.when())}
}

// when is the kind of the step that says when a fold is let down, and its values: by
// months of the calendar where it is known when the child was measured.
func (h Held) when() (kind string, v Values) {
	kind, v = "let-down-when", Values{"measurement": h.Body.Measurement.Name, "at": sizing.Length(h.AtCm)}
	w := h.When
	if w == nil {
		return kind, v
	}
	in := func(months float64) any { return int(math.Floor(months)) } // and the range outwards
	if kind += "-in"; !w.From.IsZero() {
		in = func(months float64) any { return w.Day(months).Format("2006-01") }
		kind = "let-down-when-dated"
	}
	v["about"], v["early"] = in(w.Months+0.5), in(w.Low)
	if !w.From.IsZero() {
		v["about"] = in(w.Months)
	}
	if math.IsInf(w.High, 1) {
		return kind + "-open", v
	}
	v["late"] = in(w.High)
	if n, ok := v["late"].(int); ok {
		v["late"] = n + 1
	}
	return kind, v
}
