package schematic

import (
	"cmp"
	"encoding/binary"
	"image"
	"image/color"
	"slices"
)

// mostColours is what a picture with a palette can have.
const mostColours = 256

// A shade is a colour of a picture, and how many pixels have it. Drawn on white paper,
// all are opaque.
type shade struct {
	r, g, b uint8
	pixels  int
	place   uint8 // in the palette
}

// indexed is the picture with a palette of the colours that it has most of; each of the
// others, all of smoothed edges, becomes the nearest of them. A drawing has few colours:
// written so it takes a third of the bytes, and of the time.
func indexed(img *image.RGBA) *image.Paletted {
	type run struct{ shade, long int32 } // pixels of one colour side by side
	var shades []shade
	var runs []run
	number := make(map[uint32]int32)
	pix := img.Pix
	for at := 0; at < len(pix); {
		c := binary.LittleEndian.Uint32(pix[at:])
		end := at + 4
		for end < len(pix) && binary.LittleEndian.Uint32(pix[end:]) == c {
			end += 4
		}
		n, ok := number[c]
		if !ok {
			n = int32(len(shades))
			number[c], shades = n, append(shades, shade{r: pix[at], g: pix[at+1], b: pix[at+2]})
		}
		shades[n].pixels += (end - at) / 4
		runs = append(runs, run{n, int32(end-at) / 4})
		at = end
	}
	byCount := make([]*shade, len(shades))
	for i := range shades {
		byCount[i] = &shades[i]
	}
	slices.SortFunc(byCount, func(a, b *shade) int {
		return cmp.Or(b.pixels-a.pixels, cmp.Compare(a.r, b.r), cmp.Compare(a.g, b.g), cmp.Compare(a.b, b.b))
	})
	most := byCount[:min(mostColours, len(byCount))]
	var palette color.Palette
	for i, c := range byCount {
		if i < len(most) {
			palette = append(palette, color.RGBA{c.r, c.g, c.b, 0xff})
			c.place = uint8(i)
		} else {
			c.place = c.nearest(most)
		}
	}
	out := image.NewPaletted(img.Rect, palette)
	at := 0
	for _, r := range runs {
		of := out.Pix[at : at+int(r.long)]
		for i := range of {
			of[i] = shades[r.shade].place
		}
		at += len(of)
	}
	return out
}

// nearest is the place of the first of the colours that is no further away than another.
func (c *shade) nearest(to []*shade) uint8 {
	best, least := 0, 1<<30
	square := func(a, b uint8) int { return (int(a) - int(b)) * (int(a) - int(b)) }
	for i, t := range to {
		if far := square(c.r, t.r) + square(c.g, t.g) + square(c.b, t.b); far < least {
			best, least = i, far
		}
	}
	return uint8(best)
}
