package schematic

import (
	"bytes"
	"cmp"
	"image"
	"image/color"
	"maps"
	"slices"
)

// mostColours is what a picture with a palette can have.
const mostColours = 256

// indexed is the picture with a palette of the colours that it has most of; each of the
// others, all of smoothed edges, becomes the nearest of them. A drawing has few colours:
// written so it takes a third of the bytes, and of the time.
func indexed(img *image.RGBA) *image.Paletted {
	counts := make(map[color.RGBA]int)
	each(img, func(_ int, c color.RGBA, long int) { counts[c] += long })
	byCount := slices.SortedFunc(maps.Keys(counts), func(a, b color.RGBA) int {
		return cmp.Or(counts[b]-counts[a], slices.Compare([]uint8{a.R, a.G, a.B}, []uint8{b.R, b.G, b.B}))
	})
	var palette color.Palette
	place := make(map[color.RGBA]uint8)
	for i, c := range byCount {
		if i < mostColours {
			palette = append(palette, c)
			place[c] = uint8(i)
		} else {
			place[c] = uint8(palette.Index(c))
		}
	}
	out := image.NewPaletted(img.Rect, palette)
	each(img, func(at int, c color.RGBA, long int) {
		index := place[c]
		for i := range long {
			out.Pix[at+i] = index
		}
	})
	return out
}

// each goes through the pixels, those of one colour that lie side by side at once.
func each(img *image.RGBA, run func(at int, c color.RGBA, long int)) {
	pixels := len(img.Pix) / 4
	for at := 0; at < pixels; {
		p := img.Pix[at*4:]
		end := at + 1
		for end < pixels && bytes.Equal(img.Pix[end*4:end*4+4], p[:4]) {
			end++
		}
		run(at, color.RGBA{p[0], p[1], p[2], p[3]}, end-at)
		at = end
	}
}
