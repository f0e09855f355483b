package main

import (
	"fmt"
	"io"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"

	"growtuck/data"
	"growtuck/sizing"
)

// predicted are what is known, of the columns of accuracy, that a prediction is
// made for.
var predicted = knowledges[:3]

// The heights, in cm, that a prediction takes as equally common: those of most
// children of 2 to 12 years.
const (
	shortestChild = 88.0
	tallestChild  = 154.0
	heightStep    = 2.0
)

// A prediction is the error that the relations themselves expect of an
// estimate: what is left of the spread, at many heights.
type prediction struct {
	squares, percents float64 // sums over n heights: of cm², of mean absolute error in %
	n                 int
}

func (p prediction) rms() float64 { return math.Sqrt(p.squares / float64(p.n)) }

func (p prediction) percent() float64 { return p.percents / float64(p.n) }

// add takes one estimate's likely range for that of a logarithm that is normal.
func (p *prediction) add(r sizing.Reading) {
	const tenth = 1.2815515655446004 // spreads from the middle to p90
	sd := math.Log(r.High/r.Low) / (2 * tenth)
	half := math.Exp(sd * sd / 2)
	p.percents += 100 * half * math.Erf(sd/math.Sqrt2)
	p.squares += r.Value * r.Value * (half*half*half*half - 2*half + 1)
	p.n++
}

// predict returns the errors to expect of the estimates of a reference, by what
// is known, measurement and sex.
func predict(ref *sizing.Reference) (map[tally]*prediction, error) {
	all := make(map[tally]*prediction)
	for _, sex := range []sizing.Sex{sizing.Boy, sizing.Girl} {
		for h := shortestChild; h <= tallestChild; h += heightStep {
			usual, err := ref.Estimate(sizing.Child{Sex: sex, Own: map[string]float64{"height": h}})
			if err != nil {
				return nil, err
			}
			for _, k := range predicted {
				c := sizing.Child{Sex: sex, Own: make(map[string]float64)}
				for _, id := range k.own {
					r, ok := usual.Get(id)
					if !ok {
						return nil, fmt.Errorf("%s of a child of %g cm is not estimated", id, h)
					}
					c.Own[id] = r.Value
				}
				body, err := ref.Estimate(c)
				if err != nil {
					return nil, err
				}
				for _, id := range judged {
					r, ok := body.Get(id)
					if !ok || r.Spread != sizing.EightInTen {
						continue
					}
					t := tally{k.name, id, string(sex), true}
					if all[t] == nil {
						all[t] = new(prediction)
					}
					all[t].add(r)
				}
			}
		}
	}
	return all, nil
}

// pooled is the prediction for boys and girls together.
func pooled(all map[tally]*prediction, method, id string) (prediction, bool) {
	var sum prediction
	for _, sex := range []string{"m", "f"} {
		if p := all[tally{method, id, sex, true}]; p != nil {
			sum.squares, sum.percents, sum.n = sum.squares+p.squares, sum.percents+p.percents, sum.n+p.n
		}
	}
	return sum, sum.n > 0
}

// printPrediction prints the errors that the tables predict, beside those that
// the table of data/README.md says were measured.
func printPrediction(readme string, out io.Writer) error {
	text, err := os.ReadFile(readme)
	if err != nil {
		return err
	}
	measured, err := measuredErrors(string(text))
	if err != nil {
		return fmt.Errorf("%s: %w", readme, err)
	}
	byThird, err := measuredThirds(string(text))
	if err != nil {
		return fmt.Errorf("%s: %w", readme, err)
	}
	survey, today, err := eras()
	if err != nil {
		return err
	}
	all, err := predict(survey)
	if err != nil {
		return err
	}
	expected, err := predictThirds(today)
	if err != nil {
		return err
	}
	var b strings.Builder
	fmt.Fprintf(&b, "# Errors to expect of estimates\n\nPredicted from relations.csv: what is left of the spread once something is known, averaged over heights of %g to\n"+
		"%g cm. No child was estimated for it. Measured: the tables of data/README.md, root mean square errors of children that\n"+
		"the relations were not fitted to. Children of 1975–77 are predicted from the survey's spreads and correlations alone.\n", shortestChild, tallestChild)
	b.WriteString("\n## Children of 1999–2016, by weight for height: root mean square error in %, predicted; ratio to measured\n\n")
	writeThirds(&b, expected, byThird)
	b.WriteString("\n## Children of 1975–77: root mean square error in cm, predicted; ratio to measured\n\n| measurement |")
	for _, k := range predicted {
		fmt.Fprintf(&b, " %s | ratio |", k.name)
	}
	b.WriteString("\n|---|" + strings.Repeat("--:|--:|", len(predicted)) + "\n")
	for _, id := range judged {
		fmt.Fprintf(&b, "| %s |", label(id))
		for _, k := range predicted {
			p, ok := pooled(all, k.name, id)
			was, told := measured[cell{label(id), k.name}]
			switch {
			case !ok:
				b.WriteString(" – | – |")
			case !told:
				fmt.Fprintf(&b, " %.2f | – |", p.rms())
			default:
				fmt.Fprintf(&b, " %.2f | %.2f |", p.rms(), p.rms()/was)
			}
		}
		b.WriteString("\n")
	}
	b.WriteString("\n## Children of 1975–77: mean absolute error in %, predicted: boys, girls\n\n| measurement |")
	for _, k := range predicted {
		fmt.Fprintf(&b, " %s |", k.name)
	}
	b.WriteString("\n|---|" + strings.Repeat("--:|", len(predicted)) + "\n")
	for _, id := range judged {
		fmt.Fprintf(&b, "| %s |", label(id))
		for _, k := range predicted {
			boys, girls := all[tally{k.name, id, "m", true}], all[tally{k.name, id, "f", true}]
			if boys == nil || girls == nil {
				b.WriteString(" – |")
				continue
			}
			fmt.Fprintf(&b, " %.1f, %.1f |", boys.percent(), girls.percent())
		}
		b.WriteString("\n")
	}
	_, err = io.WriteString(out, b.String())
	return err
}

// eras are the engine as the survey alone has it, and as it is.
func eras() (survey, today *sizing.Reference, err error) {
	tables, err := data.Load(data.Embedded())
	if err != nil {
		return nil, nil, err
	}
	t := *tables
	t.Relations = ofSurvey(tables.Relations)
	if survey, err = sizing.New(&t); err != nil {
		return nil, nil, err
	}
	today, err = sizing.New(tables)
	return survey, today, err
}

// label is a measurement's name in tables.
func label(id string) string { return strings.ReplaceAll(id, "_", " ") }

// A cell names a figure of the table of data/README.md: a measurement and what is known.
type cell struct{ measurement, known string }

// measuredErrors reads the table of errors: the first whose columns
// are what is known, after "estimate: " or alone.
func measuredErrors(readme string) (map[cell]float64, error) {
	errors := make(map[cell]float64)
	var head []string
	for line := range strings.Lines(readme) {
		fields := strings.Split(strings.Trim(strings.TrimSpace(line), "|"), "|")
		for i := range fields {
			fields[i] = strings.TrimPrefix(strings.TrimSpace(fields[i]), "estimate: ")
		}
		switch {
		case head == nil && slices.Contains(fields, predicted[0].name) && fields[0] == "measurement":
			head = fields
		case head == nil:
		case len(fields) != len(head):
			return errors, nil // the table's end
		default:
			for i, f := range fields {
				if v, err := strconv.ParseFloat(f, 64); err == nil {
					errors[cell{fields[0], head[i]}] = v
				}
			}
		}
	}
	if len(errors) == 0 {
		return nil, fmt.Errorf("no table of errors: want one with the columns measurement and %s", predicted[0].name)
	}
	return errors, nil
}
