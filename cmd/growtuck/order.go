package main

import (
	"cmp"
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/sizing"
	"growtuck/sizing/order"
)

// orderFlags say which sizes a list is held against, and what a misfit costs.
type orderFlags struct {
	list        listFlags
	chart       string
	by, sizes   []string
	best, cuts  int
	halves      bool
	each        bool
	smallWeight float64
	tolerance   float64
}

func newOrderCommand(a *app) *cobra.Command {
	var f orderFlags
	cmd := &cobra.Command{
		Use:     "order [children.csv]",
		GroupID: groupWork,
		Short:   "How many of each size to make for a list of children",
		Long: `order reads a list of children as growtuck batch does, or what that has written
in one unit, gives every child the size of a chart that fits best, and says how
many of each size to make and what misfit is left: for how many children a size
is too small or too big in each measurement by more than --tolerance, and by how
much.

Best is the size with the least sum, over the measurements of --by, of how many
centimetres it is off. A centimetre too small counts --small-weight times one too
big: a garment that is too big can be tucked and grown into, one that is too small
is of no use. All are body measurements; the same ease comes to both sides.

Without more it offers all sizes of the chart. --sizes names those that there
are. --best K chooses at most K sizes that leave the list the least misfit, with
--halves also from the sizes halfway between. --cuts K asks no chart: it cuts the
list at the best places along the one measurement of --by, and says what to make
each group for.

--each prints a line for each child instead, as growtuck batch does: its size, and
by how many centimetres that is more than the child in each measurement.

A line that cannot be used is named on standard error and left out; the exit
status is then 1, and 2 where the list could not be read to its end.`,
		Example: `  growtuck order children.csv
  growtuck order children.csv --sizes 2,4,6 --by chest,height
  growtuck order children.csv --best 3 --halves
  growtuck order children.csv --cuts 3 --by chest
  growtuck order children.csv --best 2 --each`,
		Args: atMostOneList("order"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := f.check(cmd); err != nil {
				return err
			}
			refused, err := a.order(argument(args, 0), f)
			switch {
			case err != nil:
				return cannot(err)
			case refused == 1:
				return fmt.Errorf("1 line was left out")
			case refused > 1:
				return fmt.Errorf("%d lines were left out", refused)
			}
			return nil
		},
	}
	f.list.add(cmd)
	flags := cmd.Flags()
	flags.StringVar(&f.chart, "chart", "child", "`chart` of the sizes; growtuck charts lists them")
	flags.StringSliceVar(&f.by, "by", []string{"chest", "hip", "arm_length", "inside_leg"}, "`measurements` that a size has to fit, parted by commas")
	flags.StringSliceVar(&f.sizes, "sizes", nil, "the `sizes` that there are, parted by commas: 2,4,6")
	flags.IntVar(&f.best, "best", 0, "choose at most so `many` sizes")
	flags.BoolVar(&f.halves, "halves", false, "choose from half sizes too")
	flags.IntVar(&f.cuts, "cuts", 0, "cut the list into so `many` groups, without a chart")
	flags.BoolVar(&f.each, "each", false, "print a line for each child, with its size")
	flags.Float64Var(&f.smallWeight, "small-weight", 4, "how many centimetres too big `count` as one too small")
	flags.Float64Var(&f.tolerance, "tolerance", 2.5, "how many `cm` a size may be off: by itself half a step between the sizes 2, 4 and 6")
	completeWith(cmd, "chart", a.chartIDs)
	completeWith(cmd, "by", a.measurementIDs)
	return cmd
}

func (f *orderFlags) check(cmd *cobra.Command) error {
	changed := cmd.Flags().Changed
	switch {
	case changed("best") && f.best < 1:
		return usagef("--best %d: choose at least one size", f.best)
	case changed("cuts") && f.cuts < 1:
		return usagef("--cuts %d: make at least one group", f.cuts)
	case f.cuts > 0 && (f.best > 0 || len(f.sizes) > 0 || f.halves || changed("chart")):
		return usagef("--cuts asks no chart; leave --best, --sizes, --halves and --chart out")
	case f.cuts > 0 && len(f.by) != 1:
		return usagef("--cuts goes along one measurement; name it, as --by chest")
	case f.halves && (f.best == 0 || len(f.sizes) > 0):
		return usagef("--halves is of the chart's sizes that --best chooses from")
	case f.each && !slices.Contains([]string{"table", "csv", "json"}, cmd.Flag("format").Value.String()):
		return usagef("--each writes CSV or lines of JSON; leave --format out, or use csv or json")
	case len(f.by) == 0:
		return usagef("--by names no measurement")
	}
	return nil
}

// maxOrder bounds the children of an order: all their figures are held.
const maxOrder = 2_000_000

// order plans for a list, and returns how many lines were left out.
func (a *app) order(path string, f orderFlags) (refused int, err error) {
	ref, err := a.reference()
	if err != nil {
		return 0, err
	}
	ids, err := ask.MeasurementIDs(ref, f.by)
	if err != nil {
		return 0, err
	}
	for i, id := range ids {
		if slices.Contains(ids[:i], id) {
			return 0, usagef("--by names %s twice", id)
		} else if id == "weight" {
			return 0, usagef("--by weight: a size is fitted to lengths and girths")
		}
	}
	misfit := order.Misfit{Small: f.smallWeight}
	if err := misfit.Check(); err != nil {
		return 0, usagef("--small-weight: %v", err)
	}
	if err := order.CheckTolerance(f.tolerance); err != nil {
		return 0, usagef("--tolerance: %v", err)
	}
	offer := []offered{}
	if f.cuts == 0 {
		if offer, err = f.offer(ref, ids); err != nil {
			return 0, err
		}
	}
	if f.each {
		f.list.own = eachColumns(ids)
	}
	list, err := a.openList(ref, path, f.list)
	if err != nil {
		return 0, err
	}
	defer list.close()
	for _, doubt := range list.doubts(ref) {
		a.say("note: " + doubt)
	}
	if f.each && list.json && a.format == "csv" {
		return 0, usagef("a list of JSON lines is written as JSON lines; leave --format out")
	}
	if f.each && a.format == "json" && !list.json {
		if err := list.oneName(); err != nil {
			return 0, err
		}
	}
	each := &eachRow{list: list, json: list.json || a.format == "json"}
	children, refused, err := a.gather(ref, list, ids, f, each)
	if err != nil {
		return 0, err
	}
	r := orderReport{app: a, ref: ref, list: filepath.Base(list.name), ids: ids, children: children, refused: refused, misfit: misfit, flags: f}
	if children.Len() == 0 {
		return refused, fmt.Errorf("%s has no child to plan for", list.name)
	}
	if f.each {
		r.each = each
	}
	return refused, r.print(offer)
}

// An offered size is a size of the chart with what it is made for.
type offered struct {
	place   sizing.Place
	figures []float64 // cm, in the order of --by
}

// offer lists the sizes to choose from.
func (f *orderFlags) offer(ref *sizing.Reference, ids []string) ([]offered, error) {
	chart, err := ref.Chart(f.chart)
	if err != nil {
		return nil, err
	}
	var offer []offered
	if len(f.sizes) > 0 {
		for _, name := range f.sizes {
			p, err := chart.Place(name, sizing.Both)
			if err != nil {
				return nil, err
			}
			o := offered{place: p}
			for _, id := range ids {
				r, err := ref.Read(p, id, sizing.Monotone)
				if err != nil {
					return nil, fmt.Errorf("size %s: %w", p.Label(), err)
				}
				o.figures = append(o.figures, r.Value)
			}
			if slices.ContainsFunc(offer, func(other offered) bool { return other.place == p }) {
				return nil, usagef("--sizes names %s twice", p.Label())
			}
			offer = append(offer, o)
		}
	} else {
		offer = chartOffer(chart, ids, f.halves)
	}
	if len(offer) == 0 {
		return nil, fmt.Errorf("chart %s has no size with all of %s", chart.ID, strings.Join(ids, ", "))
	}
	if f.best > len(offer) {
		return nil, usagef("--best %d: there are only %d sizes to choose from", f.best, len(offer))
	}
	slices.SortStableFunc(offer, func(a, b offered) int {
		if a.place.Run != b.place.Run {
			return strings.Compare(string(a.place.Run.Scale), string(b.place.Run.Scale)) // months, then years
		}
		return cmp.Compare(a.place.Position, b.place.Position)
	})
	return offer, nil
}

// chartOffer lists the sizes of a chart that have all measurements, with those
// halfway between if asked for.
func chartOffer(chart *sizing.Chart, ids []string, halves bool) []offered {
	var offer []offered
	for _, scale := range []sizing.Scale{sizing.Months, sizing.Years, sizing.Height} {
		run, ok := chart.Run(scale, sizing.Both)
		if !ok {
			continue
		}
		var at []float64
		for i, m := range run.Sizes {
			if i > 0 && halves {
				at = append(at, (run.Sizes[i-1].Position+m.Position)/2)
			}
			at = append(at, m.Position)
		}
		for _, position := range at {
			o := offered{place: sizing.Place{Run: run, Position: position}}
			for _, id := range ids {
				o.figures = append(o.figures, run.Value(id, position))
			}
			if !slices.ContainsFunc(o.figures, math.IsNaN) {
				offer = append(offer, o)
			}
		}
	}
	return offer
}

// gather reads the list, and estimates what was not measured.
func (a *app) gather(ref *sizing.Reference, list *childList, ids []string, f orderFlags, each *eachRow) (*order.List, int, error) {
	children, err := order.NewList(len(ids))
	if err != nil {
		return nil, 0, err
	}
	refused := 0
	bar := a.newProgress(list.file)
	defer bar.clear()
	p := pipeline{list: list.lines, name: list.name}
	p.handler = func() (handler, error) {
		sizer, err := ref.Sizer(sizing.Bulk{Known: list.known, Want: ids})
		if err != nil {
			return nil, err
		}
		r := newChildReader(ref, list)
		figures := make([]sizing.Figure, len(ids))
		return func(b *block, line []byte) *fault {
			if wrong := r.readLine(line); wrong != nil {
				return wrong
			}
			if _, err := sizer.Size(r.sex, r.age, r.own, figures); err != nil {
				return sizeFault(err)
			}
			for i, figure := range figures {
				if math.IsNaN(figure.Value) {
					return &fault{msg: ids[i] + ": not known of such a child; measure it"}
				}
				b.figures = append(b.figures, figure.Value)
			}
			if f.each {
				each.add(b, r)
			}
			return nil
		}, nil
	}
	p.write = func(b *block) error {
		refused += a.sayRefused(b, bar)
		if children.Len()+b.children > maxOrder {
			return fmt.Errorf("%s has more than %d children; plan for a part of them, drawn at random", list.name, maxOrder)
		}
		each.lines = append(each.lines, b.out...)
		bar.add(b.children, b.read)
		return children.Add(b.figures...)
	}
	err = p.run()
	return children, refused, err
}
