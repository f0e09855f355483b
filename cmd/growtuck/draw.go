package main

import (
	"bytes"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/save"
	"growtuck/cmd/growtuck/internal/work"
)

func newDrawCommand(a *app) *cobra.Command {
	cmd := &cobra.Command{
		ValidArgsFunction: a.completeExport,
		Use:               "draw FILE GARMENT [child.csv]",
		GroupID:           groupWork,
		Short:             "A garment drawn to scale, with its measurements",
		Long: `draw draws a garment to scale from its finished measurements, lying flat, with a
line and a label for each and a list of what they measure. It takes what growtuck
garment takes, and no gauge.

FILE ends in .svg or .png; - writes the SVG to standard output. An SVG follows the
light or dark colours of the page around it, prints on white and gives every
measurement in words. --yoke, --closure and --hood draw the garment as it is made.
--sizes draws one figure for several sizes of the chart, their numbers in
brackets.

What is not measured is drawn in proportion: see growtuck garment for the
numbers. No file is overwritten without --force, and none is left incomplete.`,
		Example: `  growtuck draw cardigan.svg cardigan child.csv --layer indoor --growth 1
  growtuck draw pullover.png pullover --size 5.5 --fit loose --unit in
  growtuck draw sizes.svg cardigan --sizes 2,6,10 --yoke raglan
  growtuck draw - hat child.csv`,
		Args: func(cmd *cobra.Command, args []string) error {
			switch len(args) {
			case 0:
				return usagef("no file to write to; for example growtuck draw pullover.svg pullover --size 4")
			case 1:
				return noGarment()
			}
			return atMostOneChild(2)(cmd, args)
		},
	}
	q := a.asks(cmd, ask.DrawFields())
	force := cmd.Flags().Bool("force", false, "overwrite an existing file")
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		file, ending := args[0], strings.ToLower(filepath.Ext(args[0]))
		switch {
		case file != "-" && ending != ".svg" && ending != ".png":
			return usagef("%s: want a file name that ends in .svg or .png, or - for standard output", file)
		}
		ref, err := a.reference()
		if err != nil {
			return err
		}
		r, err := a.readGarment(ref, q, args[1], argument(args, 2))
		if err != nil {
			return err
		}
		drawing, err := work.Draw(ref, r, a.style())
		if err != nil {
			return err
		}
		return a.writeDrawing(file, drawing, *force)
	}
	return cmd
}

func (a *app) writeDrawing(file string, d *work.Drawing, force bool) error {
	a.notes(d.Notes)
	if strings.EqualFold(filepath.Ext(file), ".png") {
		picture, err := d.PNG()
		if err != nil {
			return err
		}
		return a.writeFiles([]save.File{{Path: file, Content: picture}}, force, d.Options.Credits)
	}
	var out bytes.Buffer
	if err := d.Panel.SVG(&out, d.Options); err != nil {
		return err
	}
	if file != "-" {
		return a.writeFiles([]save.File{{Path: file, Content: out.Bytes()}}, force, d.Options.Credits)
	}
	_, err := a.stdout.Write(out.Bytes())
	return err
}
