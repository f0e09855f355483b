package stitch

import (
	"fmt"
	"math"
)

// A Shape is what a piece worked in rounds from its middle or tip becomes.
type Shape string

const (
	FlatCircle Shape = "circle"
	FlatOval   Shape = "oval" // from a foundation along its middle
	Sphere     Shape = "ball" // closed at both ends, filled
	Cone       Shape = "cone" // from its tip to its base
	Tube       Shape = "tube" // from a rounded end, straight to its base
)

// Shapes are all shapes.
var Shapes = []Shape{FlatCircle, FlatOval, Sphere, Cone, Tube}

// A PieceTarget is a piece to be made on its own.
type PieceTarget struct {
	Gauge    Gauge
	Shape    Shape
	WidthCm  float64 // across: of a cone and a tube, at their base
	HeightCm float64 // from base to tip; of an oval, its length; not used by a circle and a ball
	Every    int     // rounds from one shaping to the next where it lies flat: 1, or 2 where every second round is plain
}

// A Piece is what to work. It begins in a ring, or, for an oval, along both
// sides of a foundation.
type Piece struct {
	Shape      Shape
	Foundation int   // stitches of the foundation of an oval, worked along both its sides; else 0
	PerShaping int   // stitches that a shaping round gains
	Counts     []int // stitches after each round
	WidthCm    float64
	HeightCm   float64
	VolumeCm3  float64 // to fill; 0 for what is flat
}

// PlanPiece counts a piece. Its rounds gain what keeps a circle flat at the
// gauge; a cone gains less.
func PlanPiece(t PieceTarget) (Piece, error) {
	if err := firstError(t.Gauge.Validate(), checkLength("width of the piece", t.WidthCm), checkCount("rounds to a shaping", t.Every, 1)); err != nil {
		return Piece{}, err
	}
	if t.Shape != FlatCircle && t.Shape != Sphere {
		if err := checkLength("height of the piece", t.HeightCm); err != nil {
			return Piece{}, err
		}
	}
	p := Piece{Shape: t.Shape, PerShaping: flatPer(t.Gauge, t.Every)}
	var err error
	switch t.Shape {
	case FlatCircle:
		err = p.disc(t)
	case FlatOval:
		err = p.oval(t)
	case Sphere:
		err = p.ball(t)
	case Cone:
		err = p.cone(t)
	case Tube:
		err = p.tube(t)
	default:
		err = &InputError{"shape", string(t.Shape), "circle, oval, ball, cone or tube"}
	}
	return p, err
}

// flatPer is the whole number of stitches that a shaping in every so many
// rounds gains to lie flat: an even one, so that shapings stand opposite each
// other, where it misses by no more than a tenth or rounds between are plain.
func flatPer(g Gauge, every int) int {
	flat := flatIncreases(g) * float64(every)
	even := 2 * nearestInt(flat/2)
	if every > 1 || math.Abs(float64(even)-flat) <= flat/10 {
		return even
	}
	return max(3, nearestInt(flat))
}

// Rounds is the number of rounds.
func (p Piece) Rounds() int { return len(p.Counts) }

// Last is the count of stitches of the last round.
func (p Piece) Last() int { return p.Counts[len(p.Counts)-1] }

// AreaCm2 is the area of its fabric.
func (p Piece) AreaCm2(g Gauge) float64 {
	sum := 0
	for _, n := range p.Counts {
		sum += n
	}
	return float64(sum) * g.StitchWidthCm() * g.RowHeightCm()
}

// least refuses what is too small to be worked.
func least(what string, cm, leastCm float64) error {
	if cm+1e-9 >= leastCm {
		return nil
	}
	return &InputError{what, num(cm) + " cm", "at least " + num(math.Ceil(leastCm*10)/10) + " cm at this gauge"}
}

// grow adds rounds that gain every so many rounds from the first, from a count.
func (p *Piece) grow(from, rounds, every int) {
	for r := range rounds {
		p.Counts = append(p.Counts, from+p.PerShaping*(r/every))
	}
}

// flatRounds is the rounds of a circle of a width.
func (t PieceTarget) flatRounds(widthCm float64) int {
	n := nearestInt(t.Gauge.Rows(widthCm / 2))
	if t.Every > 1 { // ends with the round that gains
		n = (n-1)/t.Every*t.Every + 1
	}
	return n
}

func (p *Piece) disc(t PieceTarget) error {
	if err := least("width of a circle", t.WidthCm, 4*t.Gauge.RowHeightCm()); err != nil {
		return err
	}
	rounds := max(2, t.flatRounds(t.WidthCm))
	p.grow(p.PerShaping, rounds, t.Every)
	p.WidthCm = 2 * t.Gauge.HeightCm(rounds)
	p.HeightCm = p.WidthCm
	return nil
}

func (p *Piece) oval(t PieceTarget) error {
	long, wide := max(t.HeightCm, t.WidthCm), min(t.HeightCm, t.WidthCm)
	if err := least("width of an oval", wide, 2*t.Gauge.RowHeightCm()); err != nil {
		return err
	}
	rounds := max(1, t.flatRounds(wide))
	p.PerShaping += p.PerShaping % 2 // half at each end
	straight := max(1, nearestInt(t.Gauge.Stitches(long-2*t.Gauge.HeightCm(rounds))))
	p.Foundation = straight + 2
	p.grow(2*straight+p.PerShaping, rounds, t.Every)
	p.WidthCm = 2 * t.Gauge.HeightCm(rounds)
	p.HeightCm = p.WidthCm + t.Gauge.WidthCm(straight)
	return nil
}

// around is the shaping rounds, the first among them, that reach the girth of
// a width.
func (p *Piece) around(t PieceTarget, what string) (int, error) {
	girth := t.Gauge.Stitches(math.Pi * t.WidthCm)
	if err := least(what, t.WidthCm, t.Gauge.WidthCm(2*p.PerShaping)/math.Pi*0.75); err != nil {
		return 0, err
	}
	return nearestInt(girth / float64(p.PerShaping)), nil
}

// ball works to the equator, straight, and back. From pole to pole lies half of
// the girth.
func (p *Piece) ball(t PieceTarget) error {
	n, err := p.around(t, "width of a ball")
	if err != nil {
		return err
	}
	rising := (n-1)*t.Every + 1
	equator := n * p.PerShaping
	straight := max(1, nearestInt(t.Gauge.Rows(t.Gauge.WidthCm(equator)/2))-2*rising)
	p.grow(p.PerShaping, rising, t.Every)
	for range straight {
		p.Counts = append(p.Counts, equator)
	}
	for r := 1; r <= rising; r++ {
		p.Counts = append(p.Counts, max(equator-p.PerShaping*((r+t.Every-1)/t.Every), p.PerShaping))
	}
	p.Counts = p.Counts[:len(p.Counts)-t.Every] // the last would only repeat the ring
	p.WidthCm = t.Gauge.WidthCm(equator) / math.Pi
	p.HeightCm = 2 * t.Gauge.HeightCm(len(p.Counts)) / math.Pi
	p.VolumeCm3 = math.Pi / 6 * p.WidthCm * p.WidthCm * p.HeightCm
	return nil
}

// cone spreads the base's stitches over its slant.
func (p *Piece) cone(t PieceTarget) error {
	rounds := nearestInt(t.Gauge.Rows(math.Hypot(t.HeightCm, t.WidthCm/2)))
	base := t.Gauge.Stitches(math.Pi * t.WidthCm)
	tip := min(p.PerShaping, 6, max(3, nearestInt(base/3)))
	if err := firstError(least("width of a cone", t.WidthCm, t.Gauge.WidthCm(tip+1)/math.Pi), least("height of a cone", t.HeightCm, 2*t.Gauge.RowHeightCm())); err != nil {
		return err
	}
	rounds = max(rounds, t.Every+1)
	// As few stitches at once as the rounds allow, from three: they stand round
	// the cone without making corners.
	for k := 3; ; k++ {
		start := max(tip, k) // a round at most doubles
		times := max(1, nearestInt((base-float64(start))/float64(k)))
		if fits := (rounds - 1) / t.Every; times <= fits || k >= p.PerShaping {
			p.PerShaping = k
			p.slant(start, min(times, fits), rounds, t.Every)
			break
		}
	}
	p.WidthCm = t.Gauge.WidthCm(p.Last()) / math.Pi
	slantCm := t.Gauge.HeightCm(rounds)
	p.HeightCm = math.Sqrt(max(slantCm*slantCm-p.WidthCm*p.WidthCm/4, 0))
	if p.HeightCm == 0 {
		return &InputError{"height of a cone", num(t.HeightCm) + " cm over " + num(t.WidthCm) + " cm", "more: it lies flat; work a circle"}
	}
	p.VolumeCm3 = math.Pi / 12 * p.WidthCm * p.WidthCm * p.HeightCm
	return nil
}

// slant lays shapings evenly over the rounds after the first.
func (p *Piece) slant(tip, times, rounds, every int) {
	at := EvenRows(times, (rounds-1)/every)
	done := 0
	for r := range rounds {
		for done < times && r >= at[done]*every {
			done++
		}
		p.Counts = append(p.Counts, tip+done*p.PerShaping)
	}
}

func (p *Piece) tube(t PieceTarget) error {
	n, err := p.around(t, "width of a tube")
	if err != nil {
		return err
	}
	rounds := nearestInt(t.Gauge.Rows(t.HeightCm))
	rising := (n-1)*t.Every + 1
	if rounds <= rising {
		return &InputError{"length of a tube", num(t.HeightCm) + " cm", "more than " + num(t.Gauge.HeightCm(rising)) + " cm, in which its end is rounded"}
	}
	p.grow(p.PerShaping, rising, t.Every)
	for range rounds - rising {
		p.Counts = append(p.Counts, n*p.PerShaping)
	}
	p.WidthCm = t.Gauge.WidthCm(p.Last()) / math.Pi
	p.HeightCm = t.Gauge.HeightCm(rounds)
	p.VolumeCm3 = math.Pi / 4 * p.WidthCm * p.WidthCm * (p.HeightCm - p.WidthCm/6)
	return nil
}

// Mirrored are the places of a pair on a row, symmetrical to its middle: the
// first and last stitch of each, from 1. Where the row has an odd count the
// middle stitch stays between them.
type Mirrored struct{ Left, Right [2]int }

// Mirror places two pieces of a width in stitches, each with its middle so many
// stitches from the middle of the row.
func Mirror(stitches, width int, fromMiddle float64) (Mirrored, error) {
	if err := firstError(checkCount("stitches of the row", stitches, 2), checkCount("stitches of the piece", width, 1)); err != nil {
		return Mirrored{}, err
	}
	first := nearestInt(float64(stitches)/2 - fromMiddle - float64(width)/2 + 1)
	last := first + width - 1
	if first < 1 || 2*last > stitches {
		return Mirrored{}, &InputError{"place of a pair", fmt.Sprintf("%d stitches each in a row of %d", width, stitches),
			fmt.Sprintf("at most %d each", stitches/2-1)}
	}
	return Mirrored{[2]int{first, last}, [2]int{stitches + 1 - last, stitches + 1 - first}}, nil
}

// Centred places a piece of a width in stitches at the middle of a row: its
// first and last stitch, from 1. They are as far from one end as from the other,
// so the width takes the parity of the row.
func Centred(stitches, width int) ([2]int, error) {
	if (stitches-width)%2 != 0 {
		width--
	}
	if err := firstError(checkCount("stitches of the row", stitches, 2), checkCount("stitches of the piece", width, 1)); err != nil {
		return [2]int{}, err
	}
	if width > stitches {
		return [2]int{}, &InputError{"place of a piece", plural(width, "stitch"), fmt.Sprintf("at most the %d of the row", stitches)}
	}
	first := (stitches-width)/2 + 1
	return [2]int{first, first + width - 1}, nil
}
