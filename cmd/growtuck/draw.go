package main

import (
	"bytes"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/save"
	"growtuck/cmd/growtuck/internal/schematic"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
)

// mostDrawn is how many sizes one drawing takes and stays legible.
const mostDrawn = 6

type drawFlags struct {
	garmentFlags
	sizes []string
	force bool
}

func newDrawCommand(a *app) *cobra.Command {
	var f drawFlags
	cmd := &cobra.Command{
		ValidArgsFunction: a.completeExport,
		Use:               "draw FILE GARMENT [child.csv]",
		GroupID:           groupWork,
		Short:             "A garment drawn to scale, with its measurements",
		Long: `draw draws a garment to scale from its finished measurements, lying flat, with a
line and a label for each and a list of what they measure. It takes what growtuck
garment takes, and no gauge.

FILE ends in .svg, or in .png for the figure alone; - writes the SVG to standard
output. An SVG follows the light or dark colours of where it is shown, prints on
white and says every measurement in words. --sizes draws several sizes of the
chart side by side, on one scale.

What is not measured is drawn in proportion: see growtuck garment for the
numbers. No file is overwritten without --force, and none is left incomplete.`,
		Example: `  growtuck draw suit.svg one-piece-hooded child.csv --layer winter --growth 1
  growtuck draw pullover.png pullover --size 5.5 --fit loose --unit in
  growtuck draw sizes.svg cardigan --sizes 2,6,10
  growtuck draw - hat child.csv`,
		Args: func(cmd *cobra.Command, args []string) error {
			switch len(args) {
			case 0:
				return usagef("no file to write to, as in growtuck draw pullover.svg pullover --size 4")
			case 1:
				return usagef("no garment given; growtuck garment lists them")
			}
			return atMostOneChild(2)(cmd, args)
		},
		RunE: func(_ *cobra.Command, args []string) error {
			return a.draw(args[0], args[1], argument(args, 2), f)
		},
	}
	f.body.add(a, cmd)
	f.body.addSize(cmd)
	f.addMaking(cmd)
	cmd.Flags().StringSliceVar(&f.sizes, "sizes", nil, "draw these `sizes` of the chart, comma-separated: 2,6,10")
	cmd.Flags().BoolVar(&f.force, "force", false, "overwrite an existing file")
	return cmd
}

func (a *app) draw(file, garment, path string, f drawFlags) error {
	ending := strings.ToLower(filepath.Ext(file))
	if file != "-" && ending != ".svg" && ending != ".png" {
		return usagef("%s: want a file that ends in .svg or .png, or - for standard output", file)
	}
	if ending == ".png" && len(f.sizes) > 0 {
		return usagef("a .png takes one size; leave --sizes out, or name a file that ends in .svg")
	}
	ref, err := a.reference()
	if err != nil {
		return err
	}
	drawn, err := a.drawn(ref, garment, path, f)
	if err != nil {
		return err
	}
	for _, note := range drawn.notes {
		a.say("note: " + note)
	}
	var out bytes.Buffer
	if ending == ".png" {
		picture, err := png(drawn.panels[0])
		if err != nil {
			return err
		}
		return a.writeFiles([]save.File{{Path: file, Content: picture}}, f.force, drawn.options.Credits)
	}
	if err := schematic.WriteSVG(&out, drawn.panels, drawn.options); err != nil {
		return err
	}
	if file != "-" {
		return a.writeFiles([]save.File{{Path: file, Content: out.Bytes()}}, f.force, drawn.options.Credits)
	}
	_, err = a.stdout.Write(out.Bytes())
	return err
}

// A drawn is what draw draws, and what there is to say about it.
type drawn struct {
	panels  []schematic.Panel
	options schematic.SVGOptions
	notes   []string
}

func (a *app) drawn(ref *sizing.Reference, garment, path string, f drawFlags) (*drawn, error) {
	making, err := f.making(ref, garment)
	if err != nil {
		return nil, err
	}
	d := &drawn{options: schematic.SVGOptions{Unit: a.style().Units()[0], Key: true}}
	var child sizing.Child
	var bodies []*sizing.Body
	if n := len(f.sizes); n > mostDrawn {
		return nil, usagef("--sizes has %d sizes; a drawing takes up to %d", n, mostDrawn)
	} else if n > 0 {
		bodies, err = f.body.ofSizes(ref, path, f.sizes)
	} else {
		var body *sizing.Body
		child, body, err = a.readBody(ref, path, f.body)
		bodies = append(bodies, body)
	}
	if err != nil {
		return nil, err
	}
	var used []string
	for i, body := range bodies {
		finished, err := ref.Finish(body, making)
		if err != nil {
			return nil, err
		}
		panel := schematic.Finished(finished, a.unit)
		if len(f.sizes) > 0 {
			panel.Caption = "size " + f.sizes[i]
		}
		d.panels = append(d.panels, panel)
		d.notes = append(d.notes, body.Questions...)
		for _, m := range finished.Missing {
			d.notes = append(d.notes, m.Name+" is not drawn to measure: the body measurement is not known")
		}
		for _, l := range finished.Lines {
			used = append(used, l.Sources()...)
		}
		d.options.Title, d.options.Note = finished.Garment.Title, finished.Spec.Describe()
	}
	if child.Name != "" {
		d.options.Title += " for " + child.Name
	}
	if size := drawnSize(f); size != "" {
		d.options.Note += ", " + size
	}
	d.options.Credits = tell.CreditLines(ref, tell.InOrder(used))
	return d, nil
}

// drawnSize names the size of a drawing in a few words.
func drawnSize(f drawFlags) string {
	switch {
	case len(f.sizes) > 0:
		return "sizes " + strings.Join(f.sizes, ", ")
	case f.body.size != "":
		return "size " + f.body.size
	case f.body.widths != "":
		return "widths of size " + f.body.widths + ", lengths of size " + f.body.lengths
	}
	return ""
}
