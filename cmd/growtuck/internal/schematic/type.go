package schematic

import (
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
)

// A typeface is what texts are set in. SVG leaves that to its viewer, whose common
// fonts are no wider.
type typeface struct{ font *opentype.Font }

var typefaces = sync.OnceValue(func() (all struct{ regular, bold typeface }) {
	parse := func(ttf []byte) typeface {
		f, err := opentype.Parse(ttf)
		if err != nil {
			panic(err) // a font of the library
		}
		return typeface{f}
	}
	all.regular, all.bold = parse(goregular.TTF), parse(gobold.TTF)
	return all
})

// face is the type so many pixels high.
func (t typeface) face(pixels float64) font.Face {
	f, err := opentype.NewFace(t.font, &opentype.FaceOptions{Size: pixels, DPI: 72})
	if err != nil {
		panic(err) // of options that are ours
	}
	return f
}

var measuring = sync.OnceValue(func() *measurer {
	all := typefaces()
	return &measurer{regular: all.regular.face(100), bold: all.bold.face(100)}
})

// A measurer says how wide texts are. A face is for one goroutine at a time.
type measurer struct {
	mu            sync.Mutex
	regular, bold font.Face
}

// textWidth is how wide a text is in letters' heights.
func textWidth(text string, bold bool) float64 {
	m := measuring()
	m.mu.Lock()
	defer m.mu.Unlock()
	face := m.regular
	if bold {
		face = m.bold
	}
	return float64(font.MeasureString(face, text)) / 64 / 100
}
