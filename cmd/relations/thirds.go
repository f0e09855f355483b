package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
)

// The eras in which children were measured.
const (
	then = "1975–77"
	now  = "1999–2016"
)

// everyThird stands for all children; the others of thirds divide them by weight
// for their height.
const everyThird = "all"

var thirds = []string{everyThird, "thin", "middle", "heavy"}

// judgedByThird are the measurements judged by thirds, of each era.
var judgedByThird = []struct {
	era          string
	measurements []string
}{
	{then, []string{"chest", "waist", "waist_navel", "hip", "upper_arm", "thigh", "calf"}},
	{now, []string{"waist_navel", "upper_arm", "calf"}},
}

// A thirdTally names a score among the children of a third.
type thirdTally struct{ era, known, measurement, sex, third string }

type thirdScores map[thirdTally]*score

func (t thirdScores) add(key thirdTally, s score) {
	for _, third := range []string{everyThird, key.third} {
		key.third = third
		if t[key] == nil {
			t[key] = new(score)
		}
		t[key].add(s)
	}
}

// of are the scores of boys and girls, and false where there are none.
func (t thirdScores) of(era, known, measurement, third string) (boys, girls *score, ok bool) {
	boys, girls = t[thirdTally{era, known, measurement, "m", third}], t[thirdTally{era, known, measurement, "f", third}]
	return boys, girls, boys != nil && girls != nil
}

// thirdsOf says to which third each child belongs among those of its sex; "" for
// one whose weight or height the medians do not cover.
func thirdsOf(children []child, median medianReader) []string {
	of := make([]string, len(children))
	for _, sex := range []string{"m", "f"} {
		type weighed struct {
			i         int
			heaviness float64
		}
		var all []weighed
		for i, c := range children {
			if h := c.value("weight") / median(sex, "weight", c.height); c.sex == sex && !math.IsNaN(h) {
				all = append(all, weighed{i, h})
			}
		}
		slices.SortStableFunc(all, func(a, b weighed) int { return cmp.Compare(a.heaviness, b.heaviness) })
		for rank, w := range all {
			of[w.i] = thirds[1+3*rank/len(all)]
		}
	}
	return of
}

// thirdKnowledges are what is known of a child in the table by thirds.
var thirdKnowledges = []string{"height", "height, weight"}

// write prints the table by thirds: a cell has boys, girls.
func (t thirdScores) write(b *strings.Builder) {
	b.WriteString("| measured | measurement | third | children |")
	for _, k := range thirdKnowledges {
		fmt.Fprintf(b, " %s: bias, %% | RMS error, %% | in range, %% |", k)
	}
	b.WriteString("\n|---|---|---|--:|" + strings.Repeat("--:|--:|--:|", len(thirdKnowledges)) + "\n")
	for _, e := range judgedByThird {
		for _, id := range e.measurements {
			for _, third := range thirds {
				boys, girls, ok := t.of(e.era, thirdKnowledges[0], id, third)
				if !ok {
					continue
				}
				fmt.Fprintf(b, "| %s | %s | %s | %d |", e.era, label(id), third, boys.n+girls.n)
				for _, k := range thirdKnowledges {
					boys, girls, ok := t.of(e.era, k, id, third)
					if !ok {
						b.WriteString(" – | – | – |")
						continue
					}
					fmt.Fprintf(b, " %s, %s | %s, %s | %s, %s |", signed(boys.bias()), signed(girls.bias()),
						fixed(boys.percent(), 1), fixed(girls.percent(), 1), fixed(boys.coverage(), 0), fixed(girls.coverage(), 0))
				}
				b.WriteString("\n")
			}
		}
	}
}
