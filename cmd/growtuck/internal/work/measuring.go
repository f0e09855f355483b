package work

import (
	"image"
	"io"

	"growtuck/cmd/growtuck/internal/schematic"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
)

// A Measuring is the picture of how a child is measured.
type Measuring struct {
	schematic.Measuring
	options schematic.SVGOptions
}

// babyUnder is the height in cm under which a child is shown lying: children are
// measured lying until they are two years old.
const babyUnder = 87

// MeasuringOf shows where to measure a child like this one.
func MeasuringOf(ref *sizing.Reference, c sizing.Child) Measuring {
	m := Measuring{options: schematic.SVGOptions{Title: "Where to measure", Key: true, Prefix: "measure",
		Note: "Over thin clothes, the tape level and close but not tight. The first eight are worth most."}}
	height, measured := c.Own["height"]
	switch {
	case c.AgeYears > 0 && c.AgeYears < 2, c.AgeYears == 0 && measured && height < babyUnder:
		m.Figure = schematic.Baby
	case c.Sex == sizing.Boy:
		m.Figure = schematic.Boy
	default:
		m.Figure = schematic.Girl
	}
	for i, x := range ref.MeasuringOrder() {
		m.Measures = append(m.Measures, schematic.Measured{ID: x.ID, Name: tell.Capital(x.Name), How: x.How, Wrong: ref.Pitfall(x.ID), Number: i + 1})
	}
	return m
}

// SVG writes the picture with its words.
func (m Measuring) SVG(w io.Writer) error { return m.Measuring.SVG(w, m.options) }

// PNG is the same as a picture.
func (m Measuring) PNG() ([]byte, error) { return m.Measuring.PNG(pictureMost, m.options) }

// formMost is how large the pictures of a form are, drawn finer than they are shown.
var formMost = image.Point{X: 1300, Y: 800}

// measuringPictures are those of a child and of a baby, without the words, which the
// form has; none where they cannot be made.
func measuringPictures(ref *sizing.Reference) [][]byte {
	var all [][]byte
	for _, age := range []float64{6, 1} {
		m := MeasuringOf(ref, sizing.Child{Sex: sizing.Both, AgeYears: age})
		if png, err := m.Measuring.PNG(formMost, schematic.SVGOptions{Inline: true}); err == nil {
			all = append(all, png)
		}
	}
	return all
}
