package main

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
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

func (a *app) planProgress(p *plan.Plan, f progressFlags) error {
	done, err := f.rows()
	if err != nil {
		return err
	}
	left, err := p.Remaining(done)
	if err != nil {
		return err
	}
	yarn, err := f.yarnLeft(p, left)
	if err != nil {
		return err
	}
	return a.print(a.style().Progress(p, left, yarn))
}

// yarnLeft is what yarn the rest takes by what was used so far; nil where that was
// not weighed.
func (f *progressFlags) yarnLeft(p *plan.Plan, left *plan.Remaining) (*stitch.YarnLeft, error) {
	if !f.yarn() {
		return nil, nil
	}
	ball := p.How.Ball
	if !(ball.Grams > 0 && f.used > 0 && f.used <= maxGrams && f.have >= 0 && f.have <= maxGrams) {
		return nil, usagef("--used %g --have %g: want grams of both, the used above nothing, and --yarn with a ball's grams and metres", f.used, f.have)
	}
	perGram := ball.Metres / ball.Grams
	margin := p.How.Margin
	if p.Yarn != nil {
		margin = p.Yarn.Margin
	}
	y, err := left.Progress.YarnToGo(f.used*perGram, f.have*perGram, margin, ball)
	return &y, err
}
