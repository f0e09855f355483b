package schematic

import (
	"image/color"
	"strings"
)

// strokes are letters and figures as lines on a grid 4 wide and 6 high.
var strokes = map[rune]string{
	'A': "0,6 2,0 4,6;0.8,4 3.2,4", 'B': "0,6 0,0 3,0 4,1 4,2 3,3 0,3;3,3 4,4 4,5 3,6 0,6", 'C': "4,1 3,0 1,0 0,1 0,5 1,6 3,6 4,5",
	'D': "0,0 2.5,0 4,1.5 4,4.5 2.5,6 0,6 0,0", 'E': "4,0 0,0 0,6 4,6;0,3 3,3", 'F': "4,0 0,0 0,6;0,3 3,3",
	'G': "4,1 3,0 1,0 0,1 0,5 1,6 3,6 4,5 4,3 2.5,3", 'H': "0,0 0,6;4,0 4,6;0,3 4,3", 'I': "2,0 2,6;1,0 3,0;1,6 3,6",
	'J': "4,0 4,5 3,6 1,6 0,5", 'K': "0,0 0,6;4,0 0,3.5;1.2,2.6 4,6", 'L': "0,0 0,6 4,6", 'M': "0,6 0,0 2,3.5 4,0 4,6",
	'N': "0,6 0,0 4,6 4,0", 'O': "1,0 3,0 4,1 4,5 3,6 1,6 0,5 0,1 1,0", 'P': "0,6 0,0 3,0 4,1 4,2.2 3,3.2 0,3.2",
	'Q': "1,0 3,0 4,1 4,5 3,6 1,6 0,5 0,1 1,0;2.6,4.4 4.2,6.2", 'R': "0,6 0,0 3,0 4,1 4,2.2 3,3.2 0,3.2;2,3.2 4,6",
	'S': "4,1 3,0 1,0 0,1 0,2 1,3 3,3 4,4 4,5 3,6 1,6 0,5", 'T': "0,0 4,0;2,0 2,6", 'U': "0,0 0,5 1,6 3,6 4,5 4,0",
	'0': "1,0 3,0 4,1 4,5 3,6 1,6 0,5 0,1 1,0", '1': "1,1.4 2.4,0 2.4,6", '2': "0,1 1,0 3,0 4,1 4,2 0,6 4,6",
	'3': "0,1 1,0 3,0 4,1 4,2 3,3 1.6,3;3,3 4,4 4,5 3,6 1,6 0,5", '4': "3,6 3,0 0,4.2 4,4.2", '5': "4,0 0.4,0 0,2.8 2.8,2.4 4,3.6 4,4.8 2.8,6 1,6 0,5",
	'6': "3.6,0.4 2.4,0 1,0.6 0,2.4 0,5 1,6 3,6 4,5 4,3.8 3,2.8 1,2.8 0,3.8", '7': "0,0 4,0 1.4,6",
	'8': "1,3 0,2 0,1 1,0 3,0 4,1 4,2 3,3 1,3 0,4 0,5 1,6 3,6 4,5 4,4 3,3", '9': "4,2.2 3,3.2 1,3.2 0,2.2 0,1 1,0 3,0 4,1 4,3.6 3,5.4 1.6,6 0.4,5.6",
	'.': "1.7,5.8 2.1,5.8", '/': "0,6 4,0",
}

// measure is the width of a text whose letters are high pixels tall.
func measure(text string, high float64) float64 {
	w := 0.0
	for _, r := range text {
		w += advance(r) * high / 6
	}
	return w - 1.4*high/6
}

func advance(r rune) float64 {
	switch r {
	case '.':
		return 3.6
	case ' ':
		return 3.2
	}
	return 5.4
}

// write draws a text with its upper left corner at p.
func (c canvas) write(text string, p point, high, wide float64, ink color.RGBA) {
	unit := high / 6
	for _, r := range text {
		for _, stroke := range strings.Split(strokes[r], ";") {
			var path []point
			for _, at := range strings.Fields(stroke) {
				x, y, _ := strings.Cut(at, ",")
				path = append(path, point{p.x + grid(x)*unit, p.y + grid(y)*unit})
			}
			c.path(path, wide, ink)
		}
		p.x += advance(r) * unit
	}
}

// grid reads a place on the grid: digits with at most one decimal.
func grid(s string) float64 {
	whole, tenth, _ := strings.Cut(s, ".")
	v := 0.0
	for _, d := range whole {
		v = v*10 + float64(d-'0')
	}
	for _, d := range tenth {
		v += float64(d-'0') / 10
	}
	return v
}
