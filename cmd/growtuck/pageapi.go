package main

import (
	"bytes"
	"errors"
	"fmt"
	"net/http"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/page"
	"growtuck/cmd/growtuck/internal/schematic"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/workbook"
	"growtuck/data"
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/validate"
)

// pageEngine gives the page what the commands do.
func (a *app) pageEngine() (page.Engine, error) {
	ref, err := a.reference()
	if err != nil {
		return page.Engine{}, err
	}
	held := *a
	held.held = ref
	e := page.Engine{
		Reference: ref,
		Tables:    func() (*data.Tables, error) { return held.standing() },
		Credits:   func(sources []string) []string { return tell.CreditLines(ref, tell.InOrder(sources)) },
		Draft: func(p *plan.Plan, c sizing.Child, b page.BodyFrom) []plan.Row {
			f := bodyFlags{chartFlags: chartFlags{chart: b.Chart}, size: b.Size, widths: b.Widths, lengths: b.Lengths}
			return tell.Style{}.DraftNotes(p.Draft(wearerRows(ref, c, f)...))
		},
		Reasons: tell.Reasons,
		Terms:   tell.Terms,
		Check:   func(rows []plan.Row) ([]validate.Finding, error) { return checkedPlan(ref, rows) },
		Files:   map[string]page.Question{},
	}
	v, err := readVersion()
	if err != nil {
		return e, err
	}
	e.Version = v.Program
	for _, q := range apiQuestions() {
		e.Questions = append(e.Questions, held.pageQuestion(q))
	}
	for _, q := range fileQuestions() {
		e.Files[q.name] = held.pageQuestion(q)
	}
	return e, nil
}

// apiQuestions are what is answered under /api/.
func apiQuestions() []question {
	size := get("size", "Body measurements at one or more sizes, as growtuck size", tell.SizeDocument{}, askSize)
	size.positional, size.about, size.many, size.needed = "size", "a size of the chart (4, 18m), a number between (5.5), an age (3y6m) or a height (104cm); may be repeated", true, true
	garment := get("garment", "Finished measurements of a garment, as growtuck garment", tell.GarmentDocument{}, askGarment)
	garment.positional, garment.about, garment.needed = "garment", "a garment; /api/garments lists them", true
	work := get("plan", "Stitches and rows for a garment, as growtuck plan", page.OneOf{tell.PlanDocument{}, tell.GradedDocument{}, tell.ProgressDocument{}}, askPlan)
	work.positional, work.about, work.needed, work.hidden = garment.positional, garment.about, true, []string{"draft"}
	draw := get("draw", "A garment drawn to scale, as growtuck draw", nil, askDraw)
	draw.media, draw.positional, draw.about, draw.needed = "image/svg+xml", garment.positional, garment.about, true
	blend := get("blend", "A child's measurements, those not taken filled in, as growtuck blend", tell.BlendDocument{}, askBlend)
	return []question{
		size,
		get("profile", "Which size each of a child's measurements is, as growtuck profile", tell.ProfileDocument{}, askProfile),
		blend,
		get("garments", "The garments and what they can have, as growtuck garment", tell.GarmentsDocument{}, func(b *app, _ *cobra.Command) func([]string) error {
			return func([]string) error { return b.listGarments(b.held) }
		}),
		garment,
		work,
		draw,
		{name: "check", summary: "Faults and cautions of a draft, as growtuck check", method: http.MethodPost, media: mediaJSON, format: "json",
			body: "a draft: CSV, or a workbook that growtuck export wrote", answer: []tell.Finding{}, prepare: askCheck},
		{name: "rows", summary: "Faults of proposed chart rows, as growtuck rows", method: http.MethodPost, media: mediaJSON, format: "json",
			body: "rows with the columns of body.csv, as CSV", answer: []tell.Finding{}, prepare: askRows},
		{name: "review", summary: "The review sheet of proposed chart rows, as growtuck rows --review", method: http.MethodPost, media: "text/markdown; charset=utf-8", format: "json",
			body: "rows with the columns of body.csv, as CSV", prepare: askReview},
		look("charts", "The charts and their sizes, as growtuck charts", tell.ChartsDocument{}, tell.Charts),
		look("measurements", "The measurements and how to take them, as growtuck measurements", tell.MeasurementsDocument{}, tell.Measurements),
		look("sources", "Where the figures come from, as growtuck sources", tell.SourcesDocument{}, tell.Sources),
		look("rules", "The rules that drafts and tables are checked by, as growtuck rules", tell.RulesDocument{}, func(*sizing.Reference) tell.Document { return tell.Rules() }),
		look("version", "The versions of the program and of its tables, as growtuck version", tell.Version{}, nil),
	}
}

// look is a question without parameters; without a report, for the version.
func look(name, summary string, answer any, of func(*sizing.Reference) tell.Document) question {
	return get(name, summary, answer, func(b *app, _ *cobra.Command) func([]string) error {
		return func([]string) error {
			if of != nil {
				return b.print(of(b.held))
			}
			v, err := readVersion()
			if err != nil {
				return err
			}
			return b.print(v.Document())
		}
	})
}

func askSize(b *app, cmd *cobra.Command) func([]string) error {
	var chart chartFlags
	var only onlyFlags
	var sex string
	chart.add(b, cmd)
	cmd.Flags().StringSliceVar(&only.only, "only", nil, "show only these `measurements`, parted by commas: chest,hip")
	cmd.Flags().StringVar(&sex, "sex", "both", "m, f or both")
	return func(args []string) error { return b.size(args, chart, sex, only, false) }
}

func askProfile(b *app, cmd *cobra.Command) func([]string) error {
	var child childFlags
	var name string
	child.add(cmd)
	cmd.Flags().StringVar(&name, "chart", "child", "`chart` to find the measurements in; /api/charts lists them")
	return func([]string) error {
		err := b.profile("", child, name)
		if errors.Is(err, errNothingToFind) {
			return fmt.Errorf("%w; give some as set=chest=53cm", err)
		}
		return err
	}
}

func askBlend(b *app, cmd *cobra.Command) func([]string) error {
	var body bodyFlags
	var only onlyFlags
	body.add(b, cmd)
	cmd.Flags().StringSliceVar(&only.only, "only", nil, "show only these `measurements`, parted by commas: chest,hip")
	return func([]string) error { return b.blend("", body, only, false) }
}

func askGarment(b *app, cmd *cobra.Command) func([]string) error {
	var f garmentFlags
	f.body.add(b, cmd)
	f.body.addSize(cmd)
	f.addMaking(cmd)
	return func(args []string) error { return b.garment(args[0], "", f) }
}

func askPlan(b *app, cmd *cobra.Command) func([]string) error {
	var f planFlags
	f.add(b, cmd)
	f.progress.add(cmd)
	return func(args []string) error { return b.plan(args[0], "", f) }
}

func askDraw(b *app, cmd *cobra.Command) func([]string) error {
	var f drawFlags
	f.body.add(b, cmd)
	f.body.addSize(cmd)
	f.addMaking(cmd)
	cmd.Flags().StringSliceVar(&f.sizes, "sizes", nil, "draw these `sizes` of the chart, parted by commas: 2,6,10")
	cmd.Flags().StringVar(&b.unit, "unit", "cm", "`unit` of the labels: cm, in or both")
	return func(args []string) error {
		if err := b.checkOutput(); err != nil {
			return err
		}
		d, err := b.drawn(b.held, args[0], "", f)
		if err != nil {
			return err
		}
		return schematic.WriteSVG(b.stdout, d.panels, d.options)
	}
}

// askCheck checks a draft without the child's table that it may name: nothing
// on this machine is opened for whoever asks.
func askCheck(b *app, _ *cobra.Command) func([]string) error {
	return func([]string) error {
		findings, err := checkDraftFrom(b.held, b.stdin, "standard input", validate.Options{})
		if err != nil {
			findings = validate.Unreadable(err)
		}
		if err := b.printFindings(findings, "json", 1, err != nil); err != nil {
			return err
		}
		if err != nil {
			return unusable{flatten(err)}
		}
		return nil
	}
}

func askRows(b *app, _ *cobra.Command) func([]string) error {
	return func([]string) error {
		err := b.rows([]string{"-"}, rowsFlags{format: "json", failOn: "stop"})
		if unanswered(err) {
			return err
		}
		return nil // findings are the answer
	}
}

func askReview(b *app, _ *cobra.Command) func([]string) error {
	return func([]string) error {
		findings, sheet, err := b.checkProposal("-", true)
		if err != nil {
			return err
		}
		return b.printRows(findings, sheet, rowsFlags{format: "text"})
	}
}

// fileQuestions are the files that the page offers.
func fileQuestions() []question {
	csv := func(name, answer string, prepare func(*app, *cobra.Command) func([]string) error) question {
		return question{name: name, summary: answer, method: http.MethodGet, media: mediaCSV, format: "csv",
			positional: "garment", about: "a garment", needed: true, prepare: prepare}
	}
	body := csv("body.csv", "the body measurements", askBlend)
	body.positional, body.needed = "", false
	draft := csv("draft.csv", "the plan as a draft for growtuck check", func(b *app, cmd *cobra.Command) func([]string) error {
		var f planFlags
		f.add(b, cmd)
		return func(args []string) error {
			drafted := f
			drafted.draft = true
			return b.plan(args[0], "", drafted)
		}
	})
	book := csv("plan.xlsx", "the plan as a workbook", func(b *app, cmd *cobra.Command) func([]string) error {
		var f planFlags
		f.add(b, cmd)
		return func(args []string) error {
			content, err := b.content(b.held, args[0], "", f)
			if err != nil {
				return err
			}
			book, err := workbook.New(*content)
			if err != nil {
				return err
			}
			var out bytes.Buffer
			if err := book.WriteXLSX(&out); err != nil {
				return err
			}
			_, err = b.stdout.Write(out.Bytes())
			return err
		}
	})
	drawing := csv("drawing.svg", "the drawing", askDraw)
	drawing.media = "image/svg+xml"
	book.media = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
	return []question{body, csv("finished.csv", "the finished measurements", askGarment), csv("plan.csv", "the plan", askPlan), draft, book, drawing}
}
