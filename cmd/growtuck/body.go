package main

import (
	"github.com/spf13/cobra"

	"growtuck/sizing"
)

// chartFlags are the flags that say how a chart is read.
type chartFlags struct {
	chart  string
	linear bool
}

func (f *chartFlags) add(a *app, cmd *cobra.Command) {
	cmd.Flags().StringVar(&f.chart, "chart", "child", "`chart` that sizes are read from; growtuck charts lists them")
	completeWith(cmd, "chart", a.chartIDs)
	cmd.Flags().BoolVar(&f.linear, "linear", false, "between sizes, go straight from one to the next")
}

func (f *chartFlags) method() sizing.Method {
	if f.linear {
		return sizing.Linear
	}
	return sizing.Monotone
}

// methodName is the method as CSV and JSON name it.
func (f *chartFlags) methodName() string {
	if f.linear {
		return "linear"
	}
	return "monotone"
}

// bodyFlags say how a whole body is made: from named sizes, or, without them,
// estimated from the child's own measurements.
type bodyFlags struct {
	chartFlags
	child                 childFlags
	widths, lengths, size string
}

func (f *bodyFlags) add(a *app, cmd *cobra.Command) {
	f.chartFlags.add(a, cmd)
	f.child.add(cmd)
	cmd.Flags().StringVar(&f.widths, "widths", "", "`size` that widths and girths are taken from")
	cmd.Flags().StringVar(&f.lengths, "lengths", "", "`size` that lengths are taken from")
}

// addSize adds the flag for all of a body from one size.
func (f *bodyFlags) addSize(cmd *cobra.Command) {
	cmd.Flags().StringVar(&f.size, "size", "", "`size` that everything is taken from that was not measured")
}

// check refuses flags that contradict each other, and the lack of any child.
func (f *bodyFlags) check(path string) error {
	switch {
	case f.size != "" && (f.widths != "" || f.lengths != ""):
		return usagef("--size names one size for everything; leave --widths and --lengths out, or --size")
	case f.widths != "" && f.lengths == "":
		return usagef("--widths without --lengths; name both sizes")
	case f.lengths != "" && f.widths == "":
		return usagef("--lengths without --widths; name both sizes")
	case f.size == "" && f.widths == "" && path == "" && f.child.none():
		return usagef("no child; give a file, - for standard input, or measurements with --set chest=53cm")
	case f.size == "" && f.widths == "" && f.chart != "child":
		return usagef("--chart is for named sizes; an estimate rests on the survey and the default chart")
	}
	return nil
}

// readBody reads the child and makes the body that the flags ask for.
func (a *app) readBody(ref *sizing.Reference, path string, f bodyFlags) (sizing.Child, *sizing.Body, error) {
	if err := f.check(path); err != nil {
		return sizing.Child{}, nil, err
	}
	c, err := a.readChild(ref, path, f.child)
	if err != nil {
		return c, nil, err
	}
	if f.size == "" && f.widths == "" {
		b, err := ref.Estimate(c)
		return c, b, err
	}
	chart, err := ref.Chart(f.chart)
	if err != nil {
		return c, nil, err
	}
	if f.size != "" {
		f.widths, f.lengths = f.size, f.size
	}
	widths, err := chart.Place(f.widths, c.Sex)
	if err != nil {
		return c, nil, err
	}
	lengths, err := chart.Place(f.lengths, c.Sex)
	if err != nil {
		return c, nil, err
	}
	if f.size != "" && len(c.Own) == 0 {
		return c, ref.BodyAt(widths, f.method()), nil
	}
	b, err := ref.Blend(widths, lengths, c, f.method())
	return c, b, err
}
