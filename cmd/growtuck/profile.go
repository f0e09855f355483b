package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"growtuck/sizing"
)

func newProfileCommand(a *app) *cobra.Command {
	var (
		child childFlags
		name  string
	)
	cmd := &cobra.Command{
		Use:     "profile [child.csv]",
		GroupID: groupWork,
		Short:   "Which size each of a child's measurements is",
		Long: `profile says at which size of a chart each of the child's measurements stands: a
tall, slim child may have the chest of a size 2 and the arms of a size 5. Sizes
that lie far apart say which two to name in growtuck blend. The last column says
how tall the child is in whom the measurement would be the usual one, by the
survey of measured children.`,
		Example: `  growtuck profile child.csv
  growtuck profile --set chest=53cm --set arm_length=37cm
  growtuck profile child.csv --chart measured`,
		Args: atMostOneChild(0),
		RunE: func(cmd *cobra.Command, args []string) error {
			path := argument(args, 0)
			if path == "" && child.none() {
				return usagef("no child; give a file, - for standard input, or measurements with --set chest=53cm")
			}
			return a.profile(path, child, name)
		},
	}
	child.add(cmd)
	cmd.Flags().StringVar(&name, "chart", "child", "`chart` to find the measurements in; growtuck charts lists them")
	completeWith(cmd, "chart", a.chartIDs)
	return cmd
}

var errNothingToFind = errors.New("the child has no measurements to find in a chart")

func (a *app) profile(path string, child childFlags, name string) error {
	ref, err := a.reference()
	if err != nil {
		return err
	}
	c, err := a.readChild(ref, path, child)
	if err != nil {
		return err
	}
	if len(c.Own) == 0 {
		return errNothingToFind
	}
	chart, err := ref.Chart(name)
	if err != nil {
		return err
	}
	standings, err := ref.Profile(chart, c)
	if err != nil {
		return err
	}
	var survey []sizing.Standing
	if measured, err := ref.Chart("measured"); err == nil && chart.ID != measured.ID {
		if survey, err = ref.Profile(measured, c); err != nil {
			return err
		}
	}
	return a.print(a.profileReport(ref, c, chart, standings, survey))
}

type standingRecord struct {
	Measurement string  `json:"measurement"`
	Name        string  `json:"name"`
	Value       figure  `json:"value"`
	Unit        string  `json:"unit"`
	ValueIn     *figure `json:"value_in"`
	ValueLb     *figure `json:"value_lb"`
	Size        string  `json:"size"`
	Scale       string  `json:"scale"`
	From        *figure `json:"position_low"`
	To          *figure `json:"position_high"`
	Usual       string  `json:"usual_at"`
	Reason      string  `json:"reason"`
}

type profileDocument struct {
	Child        childRecord      `json:"child"`
	Chart        string           `json:"chart"`
	Measurements []standingRecord `json:"measurements"`
	Sources      []string         `json:"sources"`
	Credits      []string         `json:"credits"`
}

func (a *app) profileReport(ref *sizing.Reference, c sizing.Child, chart *sizing.Chart, standings, survey []sizing.Standing) report {
	r := report{asides: ref.Questions(c)}
	g := grid{columns: []column{{head: "measurement"}}}
	for _, u := range a.inTable() {
		g.columns = append(g.columns, column{head: u, right: true})
	}
	g.columns = append(g.columns, column{head: "is a size"})
	if survey != nil {
		g.columns = append(g.columns, column{head: "usual at a height of", right: true})
	}
	g.columns = append(g.columns, column{head: "notes"})
	records := []standingRecord{}
	for i, s := range standings {
		m := newBodyRecord(s.Reading)
		rec := standingRecord{Measurement: m.Measurement, Name: m.Name, Value: m.Value, Unit: m.Unit,
			ValueIn: m.ValueIn, ValueLb: m.ValueLb, Size: s.Label()}
		cells := []string{title(s.Reading, a.inTable())}
		for _, u := range a.inTable() {
			cells = append(cells, amount(s.Reading, u))
		}
		note := ""
		if s.Run != nil {
			rec.Scale, rec.From, rec.To = string(s.Run.Scale), known(s.From, true), known(s.To, true)
			if at, err := ref.Read(sizing.Place{Run: s.Run, Position: s.From}, m.Measurement, sizing.Monotone); err == nil {
				r.sources = append(r.sources, at.Sources...)
			}
		} else {
			rec.Size = ""
			if s.Err != nil {
				rec.Reason = s.Err.Error()
				note = r.notes.mark(rec.Reason)
			}
		}
		label := rec.Size
		if label == "" {
			label = "none"
		}
		cells = append(cells, label)
		if survey != nil {
			rec.Usual = usualAt(survey[i])
			cells = append(cells, rec.Usual)
		}
		g.rows = append(g.rows, row{cells: append(cells, note)})
		records = append(records, rec)
	}
	r.sources = inOrder(r.sources)
	r.credits = creditLines(ref, r.sources)
	r.grids = []grid{g}
	if who := childLine(c); who != "" {
		r.heading = append(r.heading, who)
	}
	r.heading = append(r.heading, fmt.Sprintf("Where the child's measurements stand on chart %s (%s)", chart.ID, chart.Title))
	r.rows = records
	r.document = profileDocument{newChildRecord(c), chart.ID, records, r.sources, r.credits}
	return r
}

// usualAt is the height, in cm, of the children in whom a measurement is the
// usual one.
func usualAt(s sizing.Standing) string {
	switch {
	case s.Run == nil:
		return ""
	case s.To-s.From < 1:
		return fmt.Sprintf("%.0f", s.From)
	}
	return fmt.Sprintf("%.0f–%.0f", s.From, s.To)
}
