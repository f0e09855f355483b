package main

import (
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/save"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/sizing"
)

func newExportCommand(a *app) *cobra.Command {
	var blank, list, force bool
	cmd := &cobra.Command{
		ValidArgsFunction: a.completeExport,
		Use:               "export FILE [GARMENT [child.csv]]",
		GroupID:           groupWork,
		Short:             "A plan as a workbook or a pattern, or a form to fill in",
		Long: `export writes a plan as a workbook: the pattern, every row to tick, body, ease and
lengths, counts, a picture and a draft. Gauge, fit and ease can be changed in it; finished sizes and counts
follow. growtuck plan FILE makes the plan again from what was filled in,
growtuck check FILE checks its draft, growtuck blend FILE reads its child.

FILE ends in .xlsx; in .html for the pattern alone, for print; in .md for it as
Markdown with its drawing beside it; in .png for the picture alone; a folder, named
with / at its end, takes the sheets as CSV. Each is of a child or, with --sizes and
no child, of a run of sizes.
--blank writes an empty form: FILE is child.xlsx or draft.xlsx. --list writes a
row of finished measurements for each of several children.

No file is overwritten without --force, and none is left incomplete.`,
		Example: `  growtuck export plan.xlsx cardigan child.csv --layer indoor --craft crochet --gauge 16x18/10cm
  growtuck export pattern.html cardigan child.csv --craft knit --gauge 20x28/10cm
  growtuck export run.xlsx cardigan --sizes 4,6,8 --craft knit --gauge 20x28/10cm
  growtuck export new.xlsx plan.xlsx
  growtuck export tables/ pullover --size 4 --craft knit --gauge 22x30/10cm
  growtuck export --blank child.xlsx
  growtuck export --list choir.xlsx cardigan ada.csv ben.csv --fit loose`,
		Args: func(cmd *cobra.Command, args []string) error {
			switch {
			case len(args) == 0:
				return usagef("no file to write to; for example growtuck export plan.xlsx pullover --size 4")
			case blank && len(args) > 1:
				return usagef("--blank writes an empty form; leave %q out", args[1])
			case blank && list:
				return usagef("--blank and --list exclude each other; use one")
			case blank:
				return nil
			case len(args) == 1:
				return noGarment()
			case list && len(args) == 2:
				return usagef("--list takes the files of the children after the garment")
			case list:
				return nil
			}
			return atMostOneChild(2)(cmd, args)
		},
	}
	q := a.asks(cmd, ask.PlanFields())
	q.sizesBeside = true
	cmd.Flags().BoolVar(&blank, "blank", false, "write an empty form: child.xlsx or draft.xlsx")
	cmd.Flags().BoolVar(&list, "list", false, "write a row for each child")
	cmd.Flags().BoolVar(&force, "force", false, "overwrite existing files")
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		ref, err := a.reference()
		if err != nil {
			return err
		}
		var e *work.Export
		switch {
		case blank:
			e, err = exportBlank(ref, args[0])
		case list:
			e, err = a.exportList(ref, q, args[0], args[1], args[2:])
		default:
			e, err = a.exportPlan(ref, q, args)
		}
		if err != nil {
			return err
		}
		a.notes(e.Notes)
		return a.writeInto(e.Folder, e.Files, force, nil, e.Credits)
	}
	return cmd
}

func (a *app) exportPlan(ref *sizing.Reference, q *question, args []string) (*work.Export, error) {
	if !work.CanExport(args[0]) {
		return nil, usagef("%s: want a file name that ends in .xlsx, .html, .md or .png, or a folder with / at its end", args[0])
	}
	r, err := a.readPlan(ref, q, args[1:])
	if err != nil {
		return nil, err
	}
	edition, err := a.tablesInUse().Edition()
	if err != nil {
		return nil, err
	}
	return work.ExportPlan(ref, r, a.style(), edition.String(), args[0])
}

func exportBlank(ref *sizing.Reference, file string) (*work.Export, error) {
	book := work.BlankBook(ref, file)
	if book == nil {
		return nil, usagef("--blank %s: want child.xlsx or draft.xlsx, in any folder", file)
	}
	content, err := work.XLSX(book)
	return &work.Export{Files: []save.File{{Path: file, Content: content}}}, err
}

func (a *app) exportList(ref *sizing.Reference, q *question, file, garment string, children []string) (*work.Export, error) {
	if !strings.EqualFold(filepath.Ext(file), ".xlsx") {
		return nil, usagef("%s: want a file name that ends in .xlsx", file)
	}
	var all []work.Listed
	for _, path := range children {
		r, err := a.readGarment(ref, q, garment, path)
		if err != nil {
			return nil, err
		}
		all = append(all, work.Listed{File: path, Request: r})
	}
	return work.ExportList(ref, all, a.style(), file)
}
