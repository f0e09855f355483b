package main

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"growtuck/sizing"
)

// weightsPerThird is how many weights stand for those of the children of a third.
const weightsPerThird = 20

// A thirdCell names an error among today's children of a third.
type thirdCell struct{ known, measurement, third string }

// predictThirds returns the root mean square errors in % to expect of the
// estimates of children of today, boys and girls together: of the weights that
// children of one height are expected to have, each third's are set against the
// estimate that knows the height alone, and that knows the weight too.
func predictThirds(ref *sizing.Reference) (map[thirdCell]float64, error) {
	squares, n := make(map[thirdCell]float64), make(map[thirdCell]int)
	for _, sex := range []sizing.Sex{sizing.Boy, sizing.Girl} {
		for h := shortestChild; h <= tallestChild; h += heightStep {
			usual, err := ref.Estimate(sizing.Child{Sex: sex, Own: map[string]float64{"height": h}})
			if err != nil {
				return nil, err
			}
			weight, ok := usual.Get("weight")
			if !ok {
				return nil, fmt.Errorf("the weight of a child of %g cm is not estimated", h)
			}
			for i := range 3 * weightsPerThird {
				z := math.Sqrt2 * math.Erfinv(2*(float64(i)+0.5)/(3*weightsPerThird)-1)
				side := math.Log(weight.High/weight.Value) / zTenth
				if z < 0 {
					side = math.Log(weight.Value/weight.Low) / zTenth
				}
				body, err := ref.Estimate(sizing.Child{Sex: sex, Own: map[string]float64{"height": h, "weight": weight.Value * math.Exp(z*side)}})
				if err != nil {
					return nil, err
				}
				for _, id := range judgedByThird[1].measurements {
					with, okWith := body.Get(id)
					alone, okAlone := usual.Get(id)
					if !okWith || !okAlone {
						continue
					}
					left := math.Log(with.High/with.Low) / (2 * zTenth)
					off := math.Log(with.Value / alone.Value)
					for _, third := range []string{everyThird, thirds[1+i/weightsPerThird]} {
						for known, square := range map[string]float64{"height": off*off + left*left, "height, weight": left * left} {
							c := thirdCell{known, id, third}
							squares[c] += square
							n[c]++
						}
					}
				}
			}
		}
	}
	for c := range squares {
		squares[c] = 100 * math.Sqrt(squares[c]/float64(n[c]))
	}
	return squares, nil
}

// writeThirds writes the errors to expect of today's children, beside those that
// were measured.
func writeThirds(b *strings.Builder, expected, measured map[thirdCell]float64) {
	b.WriteString("| measurement | third |")
	for _, k := range thirdKnowledges {
		fmt.Fprintf(b, " %s | ratio |", k)
	}
	b.WriteString("\n|---|---|" + strings.Repeat("--:|--:|", len(thirdKnowledges)) + "\n")
	for _, id := range judgedByThird[1].measurements {
		for _, third := range thirds {
			fmt.Fprintf(b, "| %s | %s |", label(id), third)
			for _, k := range thirdKnowledges {
				p, was := expected[thirdCell{k, id, third}], measured[thirdCell{k, id, third}]
				fmt.Fprintf(b, " %.1f | %.2f |", p, p/was)
			}
			b.WriteString("\n")
		}
	}
}

// measuredThirds reads the errors of today's children from the table by thirds,
// boys and girls together.
func measuredThirds(readme string) (map[thirdCell]float64, error) {
	errors := make(map[thirdCell]float64)
	var head []string
	for line := range strings.Lines(readme) {
		fields := strings.Split(strings.Trim(strings.TrimSpace(line), "|"), "|")
		for i := range fields {
			fields[i] = strings.TrimSpace(fields[i])
		}
		switch {
		case len(fields) > 3 && fields[1] == "measurement" && fields[2] == "third":
			head = fields
		case len(fields) != len(head) || fields[0] != now:
		default:
			for _, k := range thirdKnowledges {
				at := slices.Index(head, k+": bias, %") + 1 // the error is beside the bias
				boys, girls, ok := strings.Cut(fields[at], ", ")
				m, errM := strconv.ParseFloat(boys, 64)
				f, errF := strconv.ParseFloat(girls, 64)
				if at == 0 || !ok || errM != nil || errF != nil {
					return nil, fmt.Errorf("%q is not the errors of boys and girls", fields[at])
				}
				id := strings.ReplaceAll(fields[1], " ", "_")
				errors[thirdCell{k, id, fields[2]}] = math.Sqrt((m*m + f*f) / 2)
			}
		}
	}
	if len(errors) == 0 {
		return nil, fmt.Errorf("no table of errors by thirds: want one with the columns measured, measurement and third")
	}
	return errors, nil
}
