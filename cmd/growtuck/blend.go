package main

import (
	"errors"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"growtuck/data"
	"growtuck/sizing"
)

func newBlendCommand(a *app) *cobra.Command {
	var (
		body bodyFlags
		only onlyFlags
		why  bool
	)
	cmd := &cobra.Command{
		Use:     "blend [child.csv]",
		GroupID: groupWork,
		Short:   "A child's measurements, those not taken filled in",
		Long: `blend fills in the measurements that were not taken of a child.

With --widths and --lengths it takes widths and girths from one size and lengths
from another; the child's own come before both. Without them it estimates each
from those taken, by how the measurements of surveyed children go together, and
gives the range in which eight of ten such children are. The more is measured,
the narrower the range; height and chest, or height and weight, are worth most.

The file has the columns measurement,value,unit and a line for each measurement
(growtuck measurements lists them) or for name, sex and age; - reads standard
input. A measurement that hardly any child has is used, and questioned.`,
		Example: `  growtuck blend child.csv
  growtuck blend child.csv --widths 2 --lengths 5
  growtuck blend --sex m --age 4y6m --set height=110.5 --set "chest=20 3/4 in"`,
		Args: atMostOneChild(0),
		RunE: func(cmd *cobra.Command, args []string) error { return a.blend(argument(args, 0), body, only, why) },
	}
	body.add(a, cmd)
	only.add(a, cmd)
	cmd.Flags().BoolVar(&why, "why", false, "print under each number how it was got")
	return cmd
}

func (a *app) blend(path string, body bodyFlags, only onlyFlags, why bool) error {
	ref, err := a.reference()
	if err != nil {
		return err
	}
	child, b, err := a.readBody(ref, path, body)
	if err != nil {
		return err
	}
	ids, err := only.wanted(ref)
	if err != nil {
		return err
	}
	keep(b, ids)
	missing := notKnown(ref, b, ids)
	if len(b.Readings) == 0 {
		return errors.New(missing[0].Reason)
	}
	r, err := a.blendReport(ref, child, b, missing, only, why)
	if err != nil {
		return err
	}
	return a.print(r)
}

// argument returns the argument at i, "" where there is none.
func argument(args []string, i int) string {
	if i < len(args) {
		return args[i]
	}
	return ""
}

type blendDocument struct {
	Child        childRecord     `json:"child"`
	Summary      string          `json:"summary"`
	Measurements []bodyRecord    `json:"measurements"`
	Missing      []missingRecord `json:"missing"`
	Questions    []string        `json:"questions"`
	Sources      []string        `json:"sources"`
	Credits      []string        `json:"credits"`
}

// notKnown lists what the body lacks of the ids, or of all measurements.
func notKnown(ref *sizing.Reference, b *sizing.Body, ids []string) []missingRecord {
	missing := []missingRecord{}
	for _, m := range ref.Measurements() {
		if _, ok := b.Get(m.ID); !ok && (ids == nil || slices.Contains(ids, m.ID)) {
			missing = append(missing, missingRecord{m.ID, m.Name,
				m.Name + " is not known; measure the child: " + m.How})
		}
	}
	return missing
}

func (a *app) blendReport(ref *sizing.Reference, c sizing.Child, b *sizing.Body, missing []missingRecord, only onlyFlags, why bool) (report, error) {
	shown, err := only.shown(ref)
	if err != nil {
		return report{}, err
	}
	r := report{sources: inOrder(b.Sources()), asides: b.Questions}
	r.credits = creditLines(ref, r.sources)
	records := bodyRecords(b)
	r.rows = records
	r.document = blendDocument{newChildRecord(c), b.Summary, records, missing, append([]string{}, b.Questions...), r.sources, r.credits}

	shared := sizing.List(b.Evidence)
	r.heading = bodyHeading(c, b, shared)
	g := grid{columns: []column{{head: "measurement"}}}
	for _, u := range a.inTable() {
		g.columns = append(g.columns, column{head: u, right: true})
	}
	g.columns = append(g.columns, column{head: "range, " + a.inTable()[0]}, column{head: "how", wrap: true}, column{head: "notes"})
	hidden := 0
	var visible []sizing.Reading
	for _, m := range b.Readings {
		if _, own := c.Own[m.Measurement.ID]; !own && !shown(m.Measurement) {
			hidden++
			continue
		}
		visible = append(visible, m)
		words, note := howForChild(m, shared)
		line := row{cells: append(a.amounts(m), words, "")}
		if why {
			line.under = reasons(m)
		} else {
			notes := sizeNotes(m)
			if note != "" {
				notes = append([]string{note}, notes...)
			}
			line.cells[len(line.cells)-1] = r.notes.marks(notes)
		}
		g.rows = append(g.rows, line)
	}
	r.grids = []grid{g}
	r.remarks = append(spreadWords(visible), hiddenWords(hidden)...)
	r.remarks = append(r.remarks, missingWords(ref, missing, shown)...)
	return r, nil
}

// bodyHeading says whose body it is and what it was made from.
func bodyHeading(c sizing.Child, b *sizing.Body, evidence string) []string {
	var lines []string
	if who := childLine(c); who != "" {
		lines = append(lines, who)
	}
	summary := "Measurements: " + b.Summary
	if evidence != "" {
		summary += ", from " + evidence
	}
	return append(lines, summary)
}

// missingWords names what is not known of what tables show.
func missingWords(ref *sizing.Reference, missing []missingRecord, shown func(data.Measurement) bool) []string {
	var names []string
	for _, r := range missing {
		if m, err := ref.Measurement(r.Measurement); err == nil && shown(m) {
			names = append(names, r.Name)
		}
	}
	if len(names) == 0 {
		return nil
	}
	return []string{"Not known, to be measured: " + strings.Join(names, "; ") + "."}
}
