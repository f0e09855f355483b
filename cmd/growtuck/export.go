package main

import (
	"bytes"
	"fmt"
	"image"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/save"
	"growtuck/cmd/growtuck/internal/schematic"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/workbook"
	"growtuck/sizing"
	"growtuck/sizing/plan"
)

type exportFlags struct {
	plan               planFlags
	blank, list, force bool
}

func newExportCommand(a *app) *cobra.Command {
	var f exportFlags
	cmd := &cobra.Command{
		ValidArgsFunction: a.completeExport,
		Use:               "export FILE [GARMENT [child.csv]]",
		GroupID:           groupWork,
		Short:             "A plan as a workbook, or a form to fill in",
		Long: `export writes a plan as a workbook: body, ease and lengths, counts, a picture and
a draft, with the gauge, the fit and the ease to be changed; finished sizes and
counts follow. growtuck plan FILE makes the plan anew from what was filled in,
growtuck check FILE checks its draft, growtuck blend FILE reads its child.

FILE ends in .xlsx; in .md for the same tables as Markdown; in .png for the
picture alone; a folder, named with / at its end, takes the tables as CSV.
--blank writes an empty form: FILE is child.xlsx or draft.xlsx. --list writes a
row of finished measurements for each of several children.

No file is overwritten without --force, and none is left incomplete.`,
		Example: `  growtuck export suit.xlsx one-piece-hooded child.csv --layer winter --craft crochet --gauge 16x18/10cm
  growtuck export new.xlsx suit.xlsx
  growtuck export tables/ pullover --size 4 --craft knit --gauge 22x30/10cm
  growtuck export --blank child.xlsx
  growtuck export --list class.xlsx cardigan ada.csv ben.csv --fit loose`,
		Args: func(cmd *cobra.Command, args []string) error {
			switch {
			case len(args) == 0:
				return usagef("no file to write to, as in growtuck export plan.xlsx pullover --size 4")
			case f.blank && len(args) > 1:
				return usagef("--blank writes an empty form; %q is too much", args[1])
			case f.blank && f.list:
				return usagef("--blank and --list are two outputs; ask for one")
			case f.blank:
				return nil
			case len(args) == 1:
				return usagef("no garment given; growtuck garment lists them")
			case f.list && len(args) == 2:
				return usagef("--list takes the files of the children after the garment")
			case f.list:
				return nil
			}
			return atMostOneChild(2)(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			switch {
			case f.blank:
				return a.exportBlank(args[0], f.force)
			case f.list:
				return a.exportList(args[0], args[1], args[2:], f)
			}
			garment, path, err := a.planSource(cmd, args[1:], &f.plan)
			if err != nil {
				return err
			}
			return a.export(args[0], garment, path, f)
		},
	}
	f.plan.add(a, cmd)
	cmd.Flags().BoolVar(&f.blank, "blank", false, "write an empty form: child.xlsx or draft.xlsx")
	cmd.Flags().BoolVar(&f.list, "list", false, "write a row for each child")
	cmd.Flags().BoolVar(&f.force, "force", false, "overwrite existing files")
	return cmd
}

// completeExport completes the file by the shell, then as garment does.
func (a *app) completeExport(cmd *cobra.Command, args []string, word string) ([]string, cobra.ShellCompDirective) {
	if len(args) == 0 {
		return nil, cobra.ShellCompDirectiveDefault
	}
	return a.completeGarment(cmd, args[1:], word)
}

// program names the program for the properties of documents.
const program = "growtuck"

func (a *app) exportBlank(file string, force bool) error {
	ref, err := a.reference()
	if err != nil {
		return err
	}
	var book *workbook.Book
	switch strings.ToLower(filepath.Base(file)) {
	case "child.xlsx":
		book = workbook.BlankChild(ref, program)
	case "draft.xlsx":
		book = workbook.BlankDraft(ref, program)
	default:
		return usagef("--blank %s: want child.xlsx or draft.xlsx, in any folder", file)
	}
	return a.writeBook(file, book, force, nil)
}

func (a *app) export(file, garment, path string, f exportFlags) error {
	ending := strings.ToLower(filepath.Ext(file))
	folder := strings.HasSuffix(file, "/")
	if !folder && ending != ".xlsx" && ending != ".md" && ending != ".png" {
		return usagef("%s: want a file that ends in .xlsx, .md or .png, or a folder with / at its end", file)
	}
	ref, err := a.reference()
	if err != nil {
		return err
	}
	content, err := a.content(ref, garment, path, f.plan)
	if err != nil {
		return err
	}
	for _, q := range content.Finished.Body.Questions {
		a.say("note: " + q)
	}
	if ending == ".png" && !folder {
		picture, err := png(schematic.Finished(content.Finished, content.Unit))
		if err != nil {
			return err
		}
		return a.writeFiles([]save.File{{Path: file, Content: picture}}, f.force, content.Credits)
	}
	book, err := workbook.New(*content)
	if err != nil {
		return err
	}
	switch {
	case folder:
		return a.writeParts(file, book, f.force, content.Credits)
	case ending == ".md":
		return a.writeFiles([]save.File{{Path: file, Content: book.Markdown()}}, f.force, content.Credits)
	}
	return a.writeBook(file, book, f.force, content.Credits)
}

func (a *app) writeBook(file string, book *workbook.Book, force bool, credits []string) error {
	var out bytes.Buffer
	if err := book.WriteXLSX(&out); err != nil {
		return err
	}
	return a.writeFiles([]save.File{{Path: file, Content: out.Bytes()}}, force, credits)
}

// writeFiles writes files and says so.
func (a *app) writeFiles(files []save.File, force bool, credits []string) error {
	return a.writeInto("", files, force, nil, credits)
}

// writeInto writes files, into a folder if one is named, and says so under a
// heading.
func (a *app) writeInto(folder string, files []save.File, force bool, heading, credits []string) error {
	if err := save.All(folder, files, force); err != nil {
		return err
	}
	g := tell.Table{Columns: []tell.Column{{Head: "file"}, {Head: "bytes", Right: true}}}
	records := []fileRecord{}
	for _, f := range files {
		records = append(records, fileRecord{f.Path, len(f.Content)})
		g.Rows = append(g.Rows, tell.NewRow(f.Path, fmt.Sprint(len(f.Content))))
	}
	credits = append([]string{}, credits...)
	return a.print(tell.Document{Heading: heading, Tables: []tell.Table{g}, Credits: credits, Rows: records, JSON: filesDocument{records, credits}})
}

func (a *app) writeParts(dir string, book *workbook.Book, force bool, credits []string) error {
	parts, err := book.CSV()
	if err != nil {
		return err
	}
	var files []save.File
	for _, p := range parts {
		files = append(files, save.File{Path: filepath.Join(dir, p.Name+".csv"), Content: p.CSV})
	}
	return a.writeInto(dir, files, force, nil, credits)
}

// png is the picture of a garment alone, each line with its length.
func png(p schematic.Panel) ([]byte, error) {
	return p.Figure.PNG(image.Point{X: 1400, Y: 1000}, p.Labels)
}

// content plans the garment and gathers what the workbook shows.
func (a *app) content(ref *sizing.Reference, garment, path string, f planFlags) (*workbook.Content, error) {
	making, err := f.making(ref, garment)
	if err != nil {
		return nil, err
	}
	how, err := f.how.how()
	if err != nil {
		return nil, err
	}
	child, finished, err := a.finish(ref, path, f.body, making)
	if err != nil {
		return nil, err
	}
	p, err := plan.Make(finished, how)
	if err != nil {
		return nil, err
	}
	edition, err := a.edition()
	if err != nil {
		return nil, err
	}
	c := &workbook.Content{Reference: ref, Unit: a.style().Units()[0], Title: p.Garment.Title, Program: program, Edition: edition.String(),
		Child: child, Finished: finished, Plan: p}
	if who := tell.ChildLine(child); who != "" {
		c.Title += " for " + who
	}
	c.Draft = tell.Style{}.DraftNotes(p.Draft(wearerRows(ref, child, f.body)...))
	if c.Findings, err = checkedPlan(ref, c.Draft); err != nil {
		return nil, err
	}
	if c.Options, err = ref.GarmentOptions(garment); err != nil {
		return nil, err
	}
	if err := a.sizesOf(ref, c, &f, making, how); err != nil {
		return nil, err
	}
	c.Settings = f.settings(ref, garment, c.Unit, making, how)
	used := finished.Body.Sources()
	for _, l := range finished.Lines {
		used = append(used, l.Sources()...)
	}
	for _, z := range c.Sizes {
		used = append(used, z.Body.Sources()...)
	}
	c.Credits = tell.CreditLines(ref, tell.InOrder(used))
	return c, nil
}

// sizesOf adds the sizes of the chart beside the body, and the graded table.
// Sizes that were asked for must be planned; those round the body may fail.
func (a *app) sizesOf(ref *sizing.Reference, c *workbook.Content, f *planFlags, making sizing.Spec, how plan.How) error {
	chart, err := ref.Chart(f.body.chart)
	if err != nil {
		return err
	}
	asked := len(f.sizes) > 0
	if !asked {
		f.sizes = sizesRound(chart, c.Finished.Body, c.Child.Sex)
	}
	places, err := placesOf(chart, f.sizes, c.Child.Sex)
	if err != nil {
		return err
	}
	var run []*sizing.Finished
	for i, place := range places {
		size := f.sizes[i]
		body := ref.BodyAt(place, f.body.method())
		c.Sizes = append(c.Sizes, workbook.Size{Label: size, Body: body})
		finished, err := ref.Finish(body, making)
		if err != nil {
			c.NotGraded = fmt.Sprintf("size %s: %v", size, err)
			continue
		}
		run = append(run, finished)
	}
	label := c.Child.Name
	if label == "" {
		label = "this body"
		if len(c.Child.Own) > 0 {
			label = "the child"
		}
	}
	c.Growth = workbook.NewGrowth(ref, chart, c.Finished.Body, c.Child.Sex, label)
	switch {
	case len(f.sizes) == 0:
		c.NotGraded = "chart " + chart.ID + " has no sizes of one scale here; name some with --sizes"
	case c.NotGraded == "":
		if c.Graded, err = plan.Grade(f.sizes, run, how); err != nil {
			c.NotGraded = err.Error()
		}
	}
	if asked && c.Graded == nil {
		return fmt.Errorf("--sizes %s: %s", strings.Join(f.sizes, ","), c.NotGraded)
	}
	return nil
}

// sizesRound are the sizes of the chart next to a body's height, five at most.
func sizesRound(chart *sizing.Chart, b *sizing.Body, sex sizing.Sex) []string {
	run, ok := chart.Run(sizing.Years, sex)
	position := 6.0
	if h, known := b.Get("height"); known {
		if at, err := chart.AtHeight(h.Value, sex); err == nil {
			run, position, ok = at.Run, at.Position, true
		}
	}
	if !ok || run.Scale == sizing.Band {
		return nil
	}
	const most = 5
	first := 0
	for i, m := range run.Sizes {
		if m.Position <= position {
			first = i
		}
	}
	first = max(0, min(first-most/2, len(run.Sizes)-most))
	var out []string
	for _, m := range run.Sizes[first:min(first+most, len(run.Sizes))] {
		out = append(out, m.Size)
	}
	return out
}
