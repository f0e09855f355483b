package work

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"strings"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/schematic"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
	"growtuck/sizing/plan"
)

// MostDrawn is how many sizes one drawing takes and stays legible.
const MostDrawn = 6

// A Drawing is what is drawn, and what there is to note about it.
type Drawing struct {
	Panels  []schematic.Panel
	Options schematic.SVGOptions
	Notes   []string
}

// Draw draws a garment, or several sizes of it side by side.
func Draw(ref *sizing.Reference, r *ask.Request, st tell.Style) (*Drawing, error) {
	d := &Drawing{Options: schematic.SVGOptions{Unit: st.Units()[0], Key: true}}
	var bodies []*sizing.Body
	var err error
	if n := len(r.Run); n > MostDrawn {
		return nil, &ask.Fault{Field: "sizes", Err: fmt.Errorf("sizes has %d sizes; a drawing takes up to %d", n, MostDrawn)}
	} else if n > 0 {
		bodies, err = run(ref, r)
	} else {
		var body *sizing.Body
		body, err = Body(ref, r)
		bodies = append(bodies, body)
	}
	if err != nil {
		return nil, err
	}
	var used []string
	for i, body := range bodies {
		finished, err := ref.Finish(body, r.Spec)
		if err != nil {
			return nil, err
		}
		panel := schematic.Finished(finished, st.Unit)
		if len(r.Run) > 0 {
			panel.Caption = "size " + r.Run[i]
		}
		d.Panels = append(d.Panels, panel)
		d.Notes = append(d.Notes, tell.Style{}.CheckFirst(body.Questions)...)
		for _, m := range finished.Missing {
			d.Notes = append(d.Notes, tell.NotToMeasure(m))
		}
		for _, l := range finished.Lines {
			used = append(used, l.Sources()...)
		}
		d.Options.Title, d.Options.Note = finished.Garment.Title, st.Spec(finished.Spec)
	}
	if r.Child.Name != "" {
		d.Options.Title += " for " + r.Child.Name
	}
	if size := drawnSize(r); size != "" {
		d.Options.Note += ", " + size
	}
	d.Options.Credits = tell.CreditLines(ref, used)
	return d, nil
}

// drawnSize names the size of a drawing in a few words.
func drawnSize(r *ask.Request) string {
	switch z := r.Sizes; {
	case len(r.Run) > 0:
		return "sizes " + strings.Join(r.Run, ", ")
	case z.All != "":
		return "size " + z.All
	case z.Widths != "":
		return "widths of size " + z.Widths + ", lengths of size " + z.Lengths
	}
	return ""
}

// PNG is the figure alone.
func (d *Drawing) PNG() ([]byte, error) {
	if len(d.Panels) > 1 {
		return nil, &ask.Fault{Field: "sizes", Err: errors.New("a picture takes one size; leave sizes out, or draw an SVG")}
	}
	return PNG(d.Panels[0])
}

// PNG is the picture of a garment alone, each line with its length.
func PNG(p schematic.Panel) ([]byte, error) {
	return p.Figure.PNG(image.Point{X: 1400, Y: 1000}, p.Labels)
}

// drawing draws a plan with the letters of its pattern, and with what its counts give;
// nil where its sizes cannot be drawn.
func drawing(p *plan.Plan, st tell.Style, sized bool) *tell.Drawing {
	unit := st.Units()[0]
	panel := Lettered(p, unit, sized)
	o := schematic.SVGOptions{Title: p.Garment.Title, Note: st.Spec(p.Spec), Prefix: "drawn", Unit: unit}
	var alone, inline bytes.Buffer
	err := panel.SVG(&alone, o)
	o.Inline = true
	if err != nil || panel.SVG(&inline, o) != nil {
		return nil
	}
	return &tell.Drawing{SVG: inline.String(), Alone: alone.String()}
}

// Lettered is a plan's garment with the letters of its pattern on the lines, and, where
// sized, what the counts give.
func Lettered(p *plan.Plan, unit string, sized bool) schematic.Panel {
	panel := schematic.Finished(p.Finished, unit)
	for i, l := range p.Finished.Lines {
		label := tell.Letter(i)
		if sized {
			cm := l.Finished
			if part, ok := p.Part(l.Part.Part); ok {
				cm = part.SizeCm
			}
			label += " " + tell.LengthIn(cm, unit)
		}
		panel.Labels[l.Part.Part] = label
	}
	return panel
}
