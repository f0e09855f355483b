package plan

import (
	"fmt"
	"strconv"
	"strings"

	"growtuck/sizing"
)

// An Addition is a part that is worked on its own and sewn to the garment, as it
// was asked for.
type Addition struct {
	Kind     string  // a row of added.csv
	Place    string  // where; "": the first of its places that the garment has
	Pieces   int     // 0: as many as is usual
	WidthCm  float64 // across, at the base
	HeightCm float64 // from base to tip; 0: by the kind's usual proportion
}

// MostPieces bounds the pieces of an addition.
const MostPieces = 40

// ParseAddition reads a part to add: its kind, or kind:place, and its size:
// "6cm", "4x30cm" for width and height, "5*4x5cm" for five of them.
func ParseAddition(name, size string) (Addition, error) {
	var a Addition
	bad := fmt.Errorf("add %.80q: want its width, or width x height, such as 6cm, 4x30cm, 2x3in, or 5*4x5cm for five", size)
	a.Kind, a.Place, _ = strings.Cut(strings.ReplaceAll(strings.TrimSpace(name), "_", "-"), ":")
	text := strings.ToLower(sizing.PlainFigures(size))
	if n, rest, many := strings.Cut(text, "*"); many {
		pieces, err := strconv.Atoi(strings.TrimSpace(n))
		if err != nil {
			return a, bad
		}
		if pieces < 1 || pieces > MostPieces {
			return a, fmt.Errorf("add %.80q: %d pieces; want 1 to %d", size, pieces, MostPieces)
		}
		a.Pieces, text = pieces, rest
	}
	width, height, both := strings.Cut(text, "x")
	if both {
		l, err := sizing.ParseLength(height, "cm")
		if err != nil {
			return a, bad
		}
		a.HeightCm = float64(l)
		width += strings.TrimLeft(height, "0123456789.,/ -")
	}
	l, err := sizing.ParseLength(width, "cm")
	if err != nil {
		return a, bad
	}
	a.WidthCm = float64(l)
	if a.WidthCm <= 0 || a.WidthCm > mostAddedCm || both && a.HeightCm <= 0 || a.HeightCm > mostAddedCm {
		return a, fmt.Errorf("add %.80q: want lengths above 0 and up to %d cm", size, mostAddedCm)
	}
	return a, nil
}

// mostAddedCm bounds the sizes of an addition: a slip of the pen beyond.
const mostAddedCm = 150

// Name is the kind with its place, as ParseAddition reads it.
func (a Addition) Name() string {
	if a.Place == "" {
		return a.Kind
	}
	return a.Kind + ":" + a.Place
}

// Size is the size as ParseAddition reads it.
func (a Addition) Size() string {
	s := exact(a.WidthCm)
	if a.HeightCm > 0 {
		s += "x" + exact(a.HeightCm)
	}
	if a.Pieces > 0 {
		s = strconv.Itoa(a.Pieces) + "*" + s
	}
	return s + "cm"
}
