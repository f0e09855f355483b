package work

import (
	"bytes"
	"fmt"
	"image"
	"io"
	"strings"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/schematic"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
	"growtuck/sizing/plan"
)

// MostDrawn is how many sizes one drawing takes and stays legible.
const MostDrawn = 12

// A Drawing is what is drawn, and what there is to note about it.
type Drawing struct {
	Panel   schematic.Panel
	Options schematic.SVGOptions
	Notes   []string
}

// Draw draws a garment, or one figure of several sizes of it.
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
	var all []*sizing.Finished
	for _, body := range bodies {
		finished, err := ref.Finish(body, r.Spec)
		if err != nil {
			return nil, err
		}
		all = append(all, finished)
		d.Notes = append(d.Notes, tell.Style{}.CheckFirst(body.Questions)...)
		for _, m := range finished.Missing {
			d.Notes = append(d.Notes, tell.NotToMeasure(m))
		}
		for _, l := range finished.Lines {
			used = append(used, l.Sources()...)
		}
		d.Options.Title, d.Options.Note = finished.Garment.Title, st.Spec(finished.Spec)
	}
	d.Panel = Panel(all, r, st.Unit)
	if r.Given("gauge") && len(all) == 1 { // as it is planned, with its folds
		p, err := plan.Make(all[0], r.How)
		if err != nil {
			return nil, err
		}
		d.Panel = schematic.Planned(p, st.Units()[0])
		if len(p.Held()) > 0 {
			d.Options.Note += "; let down, the folds between dashed lines"
		}
	}
	if r.Child.Name != "" {
		d.Options.Title += " for " + r.Child.Name
	}
	if size := drawnSize(r); size != "" {
		d.Options.Note += ", " + size
	}
	if len(all) > 1 {
		d.Options.Note += "; the figure is size " + r.Run[len(all)/2]
	}
	d.Options.Credits = tell.CreditLines(ref, used)
	return d, nil
}

// Panel is the figure of a garment, of several sizes one figure.
func Panel(all []*sizing.Finished, r *ask.Request, unit string) schematic.Panel {
	if len(all) == 1 {
		return schematic.Finished(all[0], r.How, unit)
	}
	p := schematic.Several(all, r.How, unit)
	p.Caption = schematic.Bracketed(r.Run) + ", " + tell.Style{Unit: unit}.Units()[0]
	return p
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

// pictureMost is how large a picture of a file is: A4 at 150 dots to the inch.
var pictureMost = image.Point{X: 1240, Y: 1754}

// SVG writes the drawing.
func (d *Drawing) SVG(w io.Writer) error { return d.Panel.SVG(w, d.Options) }

// PNG is the drawing as a picture.
func (d *Drawing) PNG() ([]byte, error) { return d.Panel.PNG(pictureMost, d.Options) }

// drawing draws a plan with the letters of its pattern, and with what its counts give;
// nil where its sizes cannot be drawn.
func drawing(p *plan.Plan, st tell.Style, sized bool) *tell.Drawing {
	return &tell.Drawing{Draw: func(inline bool) string {
		unit := st.Units()[0]
		o := schematic.SVGOptions{Title: p.Garment.Title, Note: st.Spec(p.Spec), Prefix: "drawn", Unit: unit, Inline: inline}
		var out bytes.Buffer
		if Lettered(p, unit, sized).SVG(&out, o) != nil {
			return ""
		}
		return out.String()
	}}
}

// Lettered is a plan's garment with the letters of its pattern on the lines, and, where
// sized, what the counts give.
func Lettered(p *plan.Plan, unit string, sized bool) schematic.Panel {
	panel := schematic.Planned(p, unit)
	if !sized {
		panel.Labels = nil
	}
	return panel
}
