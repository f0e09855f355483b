package schematic

import (
	"bufio"
	"fmt"
	"image"
	"io"
	"math"
	"slices"
)

// A ColumnPoint is a size of a chart in the picture of one of its columns: what the
// column has there, before and with new rows, and what children of its height have.
// What is not known is NaN.
type ColumnPoint struct {
	Size           string
	Position       float64 // on the scale of the chart
	Before, After  float64
	New            bool // a row of this size is new or changed
	Low, Mid, High float64
}

// A ColumnPicture is one measurement of a chart along its sizes.
type ColumnPicture struct {
	Title, Scale string // "chest, boys, chart stature"; "years"
	Points       []ColumnPoint
}

// Columns are pictures of columns on one sheet, three beside one another.
type Columns struct {
	Title    string
	Note     string // below the heading
	Pictures []ColumnPicture
}

const (
	columnWide, columnHigh = 300.0, 210.0
	columnsBeside          = 3
	columnMargin           = 34.0 // for the figures at its left
	columnFoot             = 30.0
	columnHead             = 26.0
)

// SVG writes the pictures as a document of their own.
func (c Columns) SVG(w io.Writer) error {
	out := bufio.NewWriter(w)
	c.scene().write(out, "columns", false)
	return out.Flush()
}

// PNG draws them into a picture of at most so many pixels.
func (c Columns) PNG(most image.Point) ([]byte, error) { return c.scene().png(most) }

func (c Columns) scene() *scene {
	beside := min(columnsBeside, max(1, len(c.Pictures)))
	s := &scene{title: c.Title, desc: c.Note, wide: math.Max(640, float64(beside)*columnWide) + 20}
	s.high = 74 + columnHigh*math.Ceil(float64(len(c.Pictures))/columnsBeside)
	s.add(item{class: "paper", fill: true, path: rectangle(0, 0, s.wide, s.high)})
	s.add(item{class: "words", text: c.Title, at: point{14, 24}, size: 15, bold: true})
	s.words(c.Note, point{14, 70}, 10)
	x := 14.0
	type key struct {
		class string
		dash  bool
		words string
	}
	keys := []key{{"tape", false, "new or changed"}, {"outline", false, "the chart with it"}, {"outline", true, "as it was"}}
	if slices.ContainsFunc(c.Pictures, func(p ColumnPicture) bool {
		return slices.ContainsFunc(p.Points, func(q ColumnPoint) bool { return !math.IsNaN(q.Mid) })
	}) {
		keys = append(keys, key{"ghost", false, "children measured in 1975–77, as tall as those of the size: median and middle half"})
	}
	for _, k := range keys {
		if k.class == "tape" {
			s.stroke(k.class, 2, circle(point{x + 10, 45}, 3.4))
		} else {
			s.add(item{class: k.class, path: straight(point{x, 45}, point{x + 20, 45}), width: 1.4, dash: k.dash})
		}
		s.words(k.words, point{x + 26, 48}, 10)
		x += 40 + textWidth(k.words, false)*10
	}
	s.wide = math.Max(s.wide, x)
	for i, p := range c.Pictures {
		p.draw(s, point{14 + float64(i%columnsBeside)*columnWide, 70 + float64(i/columnsBeside)*columnHigh})
	}
	return s
}

func rectangle(x, y, wide, high float64) *path {
	p := straight(point{x, y}, point{x + wide, y}, point{x + wide, y + high}, point{x, y + high})
	p.closed = true
	return p
}

// draw draws the column with its upper left corner at a point.
func (p ColumnPicture) draw(s *scene, corner point) {
	x0, x1 := math.Inf(1), math.Inf(-1)
	y0, y1 := x0, x1
	for _, c := range p.Points {
		x0, x1 = math.Min(x0, c.Position), math.Max(x1, c.Position)
		for _, v := range []float64{c.Before, c.After, c.Low, c.High, c.Mid} {
			if !math.IsNaN(v) {
				y0, y1 = math.Min(y0, v), math.Max(y1, v)
			}
		}
	}
	s.add(item{class: "words", text: p.Title, at: corner.plus(point{0, 14}), size: 11, bold: true})
	if !(y0 <= y1) {
		return
	}
	step := tick((y1 - y0) / 4)
	y0, y1 = step*math.Floor(y0/step), step*math.Ceil(y1/step)
	if y1 == y0 {
		y1 = y0 + step
	}
	wide, high := columnWide-columnMargin-26, columnHigh-columnHead-columnFoot
	at := func(x, y float64) point {
		across := 0.5
		if x1 > x0 {
			across = (x - x0) / (x1 - x0)
		}
		return corner.plus(point{columnMargin + 8 + across*(wide-16), columnHead + high*(1-(y-y0)/(y1-y0))})
	}
	left, right := corner.x+columnMargin, corner.x+columnMargin+wide
	for k := 0.0; y0+k*step < y1+step/2; k++ {
		v := y0 + k*step
		s.stroke("rib", 0.3, straight(point{left, at(x0, v).y}, point{right, at(x0, v).y}))
		s.add(item{class: "words", text: fmt.Sprintf("%g", math.Round(v*100)/100), at: point{left - 5, at(x0, v).y + 3}, size: 9, anchor: "end"})
	}
	p.sizes(s, at, y0)
	s.add(item{class: "words", text: p.Scale, at: point{right, corner.y + columnHigh - 4}, size: 9, anchor: "end"})
	for _, c := range p.Points {
		if !math.IsNaN(c.Low) && !math.IsNaN(c.High) {
			s.stroke("ghost", 3.2, straight(at(c.Position, c.Low), at(c.Position, c.High)))
		}
	}
	line := func(class string, width float64, dash bool, of func(ColumnPoint) float64) {
		var run []point
		for i := 0; i <= len(p.Points); i++ {
			if i < len(p.Points) && !math.IsNaN(of(p.Points[i])) {
				run = append(run, at(p.Points[i].Position, of(p.Points[i])))
				continue
			}
			if len(run) > 1 {
				s.add(item{class: class, path: straight(run...), width: width, dash: dash})
			}
			run = nil
		}
	}
	line("ghost", 1, false, func(c ColumnPoint) float64 { return c.Mid })
	line("outline", 1, true, func(c ColumnPoint) float64 { return c.Before })
	line("outline", 1.4, false, func(c ColumnPoint) float64 { return c.After })
	for _, c := range p.Points {
		switch {
		case math.IsNaN(c.After):
		case c.New:
			s.stroke("tape", 2, circle(at(c.Position, c.After), 3.4))
		default:
			s.stroke("outline", 1, circle(at(c.Position, c.After), 1.4))
		}
	}
}

// sizes writes the labels of the sizes along the foot, those that there is room for.
func (p ColumnPicture) sizes(s *scene, at func(x, y float64) point, foot float64) {
	end := math.Inf(-1)
	for _, c := range p.Points {
		q := at(c.Position, foot).plus(point{0, 13})
		half := textWidth(c.Size, false) * 9 / 2
		if q.x-half < end+4 {
			continue
		}
		s.add(item{class: "words", text: c.Size, at: q, size: 9, anchor: "middle"})
		end = q.x + half
	}
}

// tick is a round step no smaller than v.
func tick(v float64) float64 {
	if v <= 0 {
		return 1
	}
	power := math.Pow(10, math.Floor(math.Log10(v)))
	steps := []float64{1, 2, 5, 10}
	return power * steps[slices.IndexFunc(steps, func(k float64) bool { return k*power >= v*(1-1e-9) })]
}
