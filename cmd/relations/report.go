package main

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
)

// A column of a report is a method under a heading.
type column struct{ heading, method string }

var mainColumns = []column{
	{"nearest size by height", byHeight},
	{"best size by chest", byChest},
	{"estimate: height", "height"},
	{"height, chest", "height, chest"},
	{"height, weight", "height, weight"},
	{"height, chest, inside leg", "height, chest, inside leg"},
}

// knowledgeColumns has a column for each knowledge.
func knowledgeColumns() []column {
	var columns []column
	for _, k := range knowledges {
		columns = append(columns, column{k.name, k.name})
	}
	return columns
}

func detailColumns() []column {
	return append([]column{{byHeight, byHeight}, {byChest, byChest}, {measured, measured}}, knowledgeColumns()...)
}

// A group is some of the children: their sexes, and whether only the young.
type group struct {
	title string
	sexes []string
	young bool
}

// total is the score of a method for a measurement, or of all measurements if
// none is named.
func (g group) total(scores map[tally]*score, method, measurement string) score {
	ids := judged
	if measurement != "" {
		ids = []string{measurement}
	}
	var sum score
	for _, sex := range g.sexes {
		for _, id := range ids {
			if s := scores[tally{method, id, sex, g.young}]; s != nil {
				sum.add(*s)
			}
		}
	}
	return sum
}

var (
	young  = group{"boys and girls, 2–12 years", []string{"m", "f"}, true}
	boys   = group{"boys, 2–12 years", []string{"m"}, true}
	girls  = group{"girls, 2–12 years", []string{"f"}, true}
	all    = group{"boys and girls, all ages", []string{"m", "f"}, false}
	groups = []group{young, boys, girls, all}
)

// write prints the results as Markdown.
func (r *results) write(out io.Writer) error {
	var b bytes.Buffer
	r.writeMethod(&b)
	fmt.Fprintf(&b, "\n## RMS error in cm, %s\n\n", young.title)
	r.table(&b, young, mainColumns, func(s score) string { return fixed(s.cm(), 2) })
	fmt.Fprintf(&b, "\n## Measured values inside the likely range (p10–p90), in %%, %s\n\n", young.title)
	r.table(&b, young, knowledgeColumns(), func(s score) string { return fixed(s.coverage(), 0) })
	b.WriteString(r.pooled(young))
	for _, g := range groups {
		fmt.Fprintf(&b, "\n## RMS error in cm (in %%), %s\n\n", g.title)
		r.table(&b, g, detailColumns(), func(s score) string {
			return fmt.Sprintf("%s (%s)", fixed(s.cm(), 2), fixed(s.percent(), 1))
		})
	}
	for _, g := range groups[1:] {
		fmt.Fprintf(&b, "\n## Measured values inside the likely range (p10–p90), in %%, %s\n\n", g.title)
		r.table(&b, g, knowledgeColumns(), func(s score) string { return fixed(s.coverage(), 0) })
		b.WriteString(r.pooled(g))
	}
	r.writeSizes(&b)
	fmt.Fprintf(&b, "\n## By weight for height, boys, girls, 2–12 years\n\n")
	var text strings.Builder
	r.byThird.write(&text)
	b.WriteString(text.String())
	_, err := out.Write(b.Bytes())
	return err
}

// table writes a row for each measurement and a cell for each method. A method
// that was told the measurement has no cell.
func (r *results) table(b *bytes.Buffer, g group, columns []column, cell func(score) string) {
	b.WriteString("| measurement | children |")
	for _, c := range columns {
		fmt.Fprintf(b, " %s |", c.heading)
	}
	b.WriteString("\n|---|--:|" + strings.Repeat("--:|", len(columns)) + "\n")
	for _, id := range judged {
		counted := g.total(r.scores, knowledges[0].name, id)
		fmt.Fprintf(b, "| %s | %d |", strings.ReplaceAll(id, "_", " "), counted.n)
		for _, c := range columns {
			text := "–"
			if s := g.total(r.scores, c.method, id); s.n > 0 {
				text = cell(s)
			}
			fmt.Fprintf(b, " %s |", text)
		}
		b.WriteString("\n")
	}
}

// notPublished are the girths that the trade does not publish.
var notPublished = []string{"neck", "wrist", "thigh", "calf", "ankle"}

// writeSizes writes how far the girths of a size are off that was chosen by chest.
// Children whose chest the sizes do not reach are left out between sizes.
func (r *results) writeSizes(b *bytes.Buffer) {
	b.WriteString("\n## Size chosen by chest: error in % of girths that the trade does not publish, boys and girls, 2–12 years\n\n" +
		"| measurement | estimate: height, chest | between sizes | ratio | whole size | ratio |\n|---|--:|--:|--:|--:|--:|\n")
	for _, id := range notPublished {
		estimate := young.total(r.scores, "height, chest", id).percent()
		fmt.Fprintf(b, "| %s | %s |", label(id), fixed(estimate, 1))
		for _, method := range []string{between, byChest} {
			size := young.total(r.scores, method, id).percent()
			fmt.Fprintf(b, " %s | %s |", fixed(size, 1), fixed(size/estimate, 2))
		}
		b.WriteString("\n")
	}
}

// pooled is the last row of a table of coverage.
func (r *results) pooled(g group) string {
	row := "| all | |"
	for _, c := range knowledgeColumns() {
		row += " " + fixed(g.total(r.scores, c.method, "").coverage(), 1) + " |"
	}
	return row + "\n"
}

// writeMethod says how the figures were got and what they leave out.
func (r *results) writeMethod(b *bytes.Buffer) {
	var refused []string
	for _, k := range knowledges {
		if n := r.refused[k.name]; n > 0 {
			refused = append(refused, fmt.Sprintf("%d from %s", n, k.name))
		}
	}
	if refused == nil {
		refused = []string{"none"}
	}
	low, middle, high := r.strictness(young)
	fmt.Fprintf(b, `# How close the estimates come

%d children of the survey were divided at random into %d parts (seed %d). The children of each part were estimated by
relations fitted to the other parts. Each error is of a value that the estimate was not told, all errors being squared,
averaged and rooted; in %%, that of the logarithm. A child is counted in a column if it has what the column is told.

- Nearest size by height: the default chart at the whole size whose height is nearest. Best size by chest: at the whole
  size whose chest is nearest. %d chests were smaller than the smallest size's and were read at the smallest size, %d were
  larger than the largest's and were read at the largest. Measured chart at the height: the survey's medians.
- Inside leg is 0.97 of standing less sitting height, and the arm length of two children in three is worked out from
  segments of the arm: neither was measured as a tailor would. Waist is the natural waist.
- %d values, of children so small that the survey has no median for them, are estimated from its lowest, carried down; the
  measured chart's column is without them.
- Left out: %d children whose height the survey's medians do not cover; %d values that the fit, too, takes for slips (six
  robust standard deviations off). Not estimated, since the height they suit may lie outside the survey or the age outside
  the chart: %s.
- The medians that estimates start from are those of the survey's chart and have seen the children tested here. With
  medians of the training parts alone the error of an estimate that knows the height is, over the measurements and sexes of
  2–12 years, from %s to %s %% larger, in the middle %s %%.
`, r.children, r.folds, r.seed, r.beyond[0], r.beyond[1], all.total(r.scores, knowledges[0].name, "").n-all.total(r.scores, measured, "").n, r.outside, r.dropped, strings.Join(refused, ", "),
		signed(low), signed(high), signed(middle))
}

// strictness returns by how many percent errors grow with medians that have not
// seen the child: the least, the median and the most over the measurements, the
// sexes and what is known.
func (r *results) strictness(g group) (low, middle, high float64) {
	var growth []float64
	for _, k := range knowledges {
		for _, id := range judged {
			for _, sex := range g.sexes {
				t := tally{k.name, id, sex, g.young}
				if r.seen[t] != nil && r.unseen[t] != nil {
					growth = append(growth, 100*(r.unseen[t].percent()/r.seen[t].percent()-1))
				}
			}
		}
	}
	slices.Sort(growth)
	return percentile(growth, 0), percentile(growth, 0.5), percentile(growth, 1)
}

func fixed(v float64, places int) string {
	if math.IsNaN(v) {
		return "–"
	}
	return strconv.FormatFloat(v, 'f', places, 64)
}

// signed shows a change with its sign, a minus as in print.
func signed(v float64) string {
	text := fixed(math.Abs(v), 1)
	if v < 0 && text != "0.0" {
		return "−" + text
	}
	return text
}
