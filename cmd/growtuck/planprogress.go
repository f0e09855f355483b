package main

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"growtuck/sizing"
	"growtuck/sizing/plan"
)

// progressFlags say how far the work is.
type progressFlags struct {
	done, lower []string
	used, have  float64
}

func (f *progressFlags) add(cmd *cobra.Command) {
	flags := cmd.Flags()
	flags.StringSliceVar(&f.done, "done", nil, "rows done of a section, as `yoke=12`; earlier sections count as done; may be repeated")
	flags.StringArrayVar(&f.lower, "lower", nil, "tried on: how much lower than now a section should end, as `sleeve=6cm`; may be repeated")
	flags.Float64Var(&f.used, "used", 0, "`grams` of yarn used so far")
	flags.Float64Var(&f.have, "have", 0, "`grams` of yarn at hand")
}

func (f *progressFlags) given() bool { return len(f.done)+len(f.lower) > 0 }

// yarn reports whether grams were given.
func (f *progressFlags) yarn() bool { return f.used != 0 || f.have != 0 }

// maxGrams bounds the yarn of one garment: a slip of the pen beyond.
const maxGrams = 100000

// rows reads what is done.
func (f *progressFlags) rows() ([]plan.Done, error) {
	var all []plan.Done
	at := make(map[string]int)
	for _, s := range f.done {
		id, value, ok := strings.Cut(s, "=")
		n, err := strconv.Atoi(strings.TrimSpace(value))
		if !ok || err != nil {
			return nil, usagef("--done %q: want a section and its rows, as yoke=12", s)
		}
		id = strings.TrimSpace(id)
		at[id] = len(all)
		all = append(all, plan.Done{Section: id, Rows: n})
	}
	for _, s := range f.lower {
		id, value, ok := strings.Cut(s, "=")
		if !ok {
			return nil, usagef("--lower %q: want a section and a length, as sleeve=6cm", s)
		}
		l, err := sizing.ParseLength(value, "cm")
		if err != nil {
			return nil, fmt.Errorf("--lower %s: %w", id, err)
		}
		i, known := at[strings.TrimSpace(id)]
		if !known {
			return nil, usagef("--lower %s: say with --done how many rows of it are worked", s)
		}
		all[i].TriedOn, all[i].LowerCm = true, float64(l)
	}
	return all, nil
}

// A leftRow is what is left of a section.
type leftRow struct {
	Section  string `json:"section"`
	Name     string `json:"name"`
	RowsDone int    `json:"rows_done"`
	RowsToGo int    `json:"rows_to_go"`
	How      string `json:"how"`
	Others   string `json:"others"`
}

type progressDocument struct {
	Garment    string    `json:"garment"`
	Left       []leftRow `json:"left"`
	RowsDone   int       `json:"rows_done"`
	RowsToGo   int       `json:"rows_to_go"`
	DoneShare  figure    `json:"done_share"`
	NeedMetres *figure   `json:"need_metres"`
	HaveMetres *figure   `json:"have_metres"`
	SpareBalls *figure   `json:"spare_balls"`
	Notes      []string  `json:"notes"`
}

func (a *app) planProgress(p *plan.Plan, f progressFlags) error {
	done, err := f.rows()
	if err != nil {
		return err
	}
	left, err := p.Remaining(done)
	if err != nil {
		return err
	}
	r := report{heading: []string{p.Garment.Title + ", " + p.Spec.Describe() + ": what is left"}}
	doc := progressDocument{Garment: p.Garment.ID, Left: []leftRow{}, RowsDone: left.Progress.RowsDone, RowsToGo: left.Progress.RowsLeft,
		DoneShare: figure(left.Progress.DoneShare), Notes: append([]string{}, left.Notes...)}
	g := grid{columns: []column{{head: "section"}, {head: "rows done", right: true}, {head: "to go", right: true}, {head: "how", wrap: true}}}
	for _, l := range left.Left {
		row := leftRow{l.Section.ID, l.Section.Name, l.RowsDone, l.Rows, l.Words, l.Others}
		if row.How == "" {
			row.How = "as planned"
		}
		doc.Left = append(doc.Left, row)
		g.rows = append(g.rows, tableRow(row.Name, strconv.Itoa(row.RowsDone), strconv.Itoa(row.RowsToGo), strings.TrimSpace(row.How+" "+row.Others)))
	}
	r.grids = []grid{g}
	r.remarks = append(r.remarks, fmt.Sprintf("%.0f %% of the stitches are worked; %d of %d rows are left.", left.Progress.DoneShare*100, left.Progress.RowsLeft, left.Progress.Rows))
	if err := yarnToGo(p, left, f, &r, &doc); err != nil {
		return err
	}
	r.remarks = append(r.remarks, left.Notes...)
	r.rows, r.document = doc.Left, doc
	return a.print(r)
}

// yarnToGo says what yarn the rest takes: by what was used so far, else by the
// swatch.
func yarnToGo(p *plan.Plan, left *plan.Remaining, f progressFlags, r *report, doc *progressDocument) error {
	ball := p.How.Ball
	if f.yarn() {
		if !(ball.Grams > 0 && f.used > 0 && f.used <= maxGrams && f.have >= 0 && f.have <= maxGrams) {
			return usagef("--used %g --have %g: want grams of both, the used above nothing, and --yarn with a ball's grams and metres", f.used, f.have)
		}
		perGram := ball.Metres / ball.Grams
		margin := p.How.Margin
		if p.Yarn != nil {
			margin = p.Yarn.Margin
		}
		y, err := left.Progress.YarnToGo(f.used*perGram, f.have*perGram, margin, ball)
		if err != nil {
			return err
		}
		doc.NeedMetres, doc.HaveMetres, doc.SpareBalls = known(y.NeedMetres, true), known(y.HaveMetres, true), known(y.SpareBalls, true)
		words := fmt.Sprintf("The rest takes %.0f m, by what was used so far; at hand are %.0f m", y.NeedMetres, y.HaveMetres)
		if y.Enough {
			words += ": enough."
		} else {
			words += fmt.Sprintf(": %.1f balls are missing.", -y.SpareBalls)
		}
		r.remarks = append(r.remarks, words)
		return nil
	}
	if left.NeedMetres > 0 {
		doc.NeedMetres = known(left.NeedMetres, true)
		r.remarks = append(r.remarks, fmt.Sprintf("The rest takes %.0f m, %.1f balls, by the swatch.", left.NeedMetres, left.NeedMetres/ball.Metres))
	}
	return nil
}
