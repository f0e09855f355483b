package validate

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/data"
	"growtuck/testdata/proof"
)

// A trial is a chart of other children: columns of the survey, each a few per cent
// larger or smaller and with some noise, proposed for a chart of their own.
type trial struct {
	tables *data.Tables
	rows   []data.Body
}

// trialMeasurements are those of a trial, in pairs that are easily exchanged.
var trialMeasurements = []string{"height", "chest", "waist_navel", "hip", "upper_arm", "forearm", "thigh", "calf", "head", "iliocristale_height", "waist_height", "arm_length", "hand_length", "foot_length", "weight"}

func newTrial(t *testing.T, r *rand.Rand) *trial {
	t.Helper()
	own := *ownData(t)
	x := &trial{tables: &own}
	own.Charts = append(slices.Clone(own.Charts), data.Chart{ID: "trial", Title: "trial", Source: "cpsc-1977"})
	own.Sizes = slices.Clone(own.Sizes)
	for _, z := range own.Sizes {
		if z.Chart == "measured" && *z.Position >= 92 && *z.Position <= 158 {
			z.Chart = "trial"
			own.Sizes = append(own.Sizes, z)
		}
	}
	by := make(map[string]float64)
	for _, m := range trialMeasurements {
		by[m] = 1 + 0.015*r.NormFloat64()
	}
	for _, b := range own.Body {
		if b.Chart == "measured" && b.Statistic == "p50" && b.Sex != "both" && slices.Contains(trialMeasurements, b.Measurement) &&
			slices.ContainsFunc(own.Sizes, func(z data.Size) bool { return z.Chart == "trial" && z.Size == b.Size }) {
			b.Chart, b.Note, b.Where = "trial", "", "table 3"
			b.Value = math.Round(b.Value*by[b.Measurement]*(1+0.003*r.NormFloat64())*10) / 10
			x.rows = append(x.rows, b)
		}
	}
	return x
}

// column are the rows of a measurement of a sex.
func (x *trial) column(m, sex string) []*data.Body {
	var rows []*data.Body
	for i := range x.rows {
		if x.rows[i].Measurement == m && x.rows[i].Sex == sex {
			rows = append(rows, &x.rows[i])
		}
	}
	return rows
}

// warned are the findings that are not notes.
func (x *trial) warned(t *testing.T) []Finding {
	t.Helper()
	var b strings.Builder
	b.WriteString(bodyHead)
	for _, r := range x.rows {
		fmt.Fprintf(&b, "%s,%s,%s,%s,%s,%v,%s,%s,\"%s\",%s,%s,\"%s\",9\n", r.Chart, r.Size, r.Sex, r.Measurement, r.Statistic, r.Value, r.Unit, r.Source, r.Where, r.Basis, r.Review, r.Note)
	}
	findings, err := CheckRows(strings.NewReader(b.String()), "p.csv", x.tables)
	require.NoError(t, err)
	return slices.DeleteFunc(findings, func(f Finding) bool { return f.Severity < Warn || f.Rule == "R02" })
}

// columnFaults are put into trials, with the least share of each that is found, and
// why not all are.
var columnFaults = []struct {
	kind  string
	seed  func(r *rand.Rand, x *trial)
	least float64
	why   string
}{
	{"inches as cm, a whole column", scaledColumn(1 / 2.54), 1, ""},
	{"mm as cm, a whole column", scaledColumn(10), 1, ""},
	{"boys and girls exchanged, a whole column", func(r *rand.Rand, x *trial) {
		m := someMeasurement(r)
		boys, girls := x.column(m, "m"), x.column(m, "f")
		for i := range min(len(boys), len(girls)) {
			boys[i].Value, girls[i].Value = girls[i].Value, boys[i].Value
		}
	}, 0.8, "at one height boys and girls differ by less than a per cent in most measurements"},
	{"two measurements exchanged", func(r *rand.Rand, x *trial) {
		pairs := [][2]string{{"upper_arm", "forearm"}, {"iliocristale_height", "waist_height"}, {"hip", "chest"}, {"thigh", "calf"}, {"hand_length", "foot_length"}}
		p := pairs[r.IntN(len(pairs))]
		sex := []string{"m", "f"}[r.IntN(2)]
		a, b := x.column(p[0], sex), x.column(p[1], sex)
		for i := range min(len(a), len(b)) {
			a[i].Value, b[i].Value = b[i].Value, a[i].Value
		}
	}, 0.65, "upper arm and forearm, hip bone and waist, chest and hip lie within 2 to 5 % of each other, and children of two decades differ by as much"},
	{"one size off, a whole column", func(r *rand.Rand, x *trial) {
		rows := x.column(someMeasurement(r), []string{"m", "f"}[r.IntN(2)])
		for i := range len(rows) - 1 {
			rows[i].Value = rows[i+1].Value
		}
		rows[len(rows)-1].Value *= 1.04
	}, 0.9, "a girth grows by 2 to 4 % from size to size, which is less than children of two decades differ"},
	{"gross error under a note that names another rule", func(r *rand.Rand, x *trial) { grossError(r, x, "R22: so printed") }, 1, ""},
	{"gross error under a note that names the rules", func(r *rand.Rand, x *trial) { grossError(r, x, "R20 R21 R23 R25 R27 R28: so printed") }, 1, ""},
	{"gross error under a note of no rule", func(r *rand.Rand, x *trial) { grossError(r, x, "lying length") }, 1, ""},
	{"gross error beside rows with notes", func(r *rand.Rand, x *trial) {
		for i := range x.rows {
			x.rows[i].Note = "R20 R21 R25 R27: so printed"
		}
		grossError(r, x, "")
	}, 1, ""},
	{"formula", func(r *rand.Rand, x *trial) { x.rows[r.IntN(len(x.rows))].Review = "=cmd()" }, 1, ""},
	{"web page for a place", func(r *rand.Rand, x *trial) { x.rows[r.IntN(len(x.rows))].Where = "https://example.org/chart" }, 1, ""},
	{"another known source", func(r *rand.Rand, x *trial) { x.rows[r.IntN(len(x.rows))].Source = "craft-2018" }, 1, ""},
	{"invisible character", func(r *rand.Rand, x *trial) {
		x.rows[r.IntN(len(x.rows))].Where = "table" + string([]rune{'\u200b', '\u200e', '\u00ad', '\u202f', '\u2060'}[r.IntN(5)]) + "3"
	}, 1, ""},
}

func someMeasurement(r *rand.Rand) string {
	return trialMeasurements[1+r.IntN(len(trialMeasurements)-2)] // not height or weight
}

func scaledColumn(by float64) func(*rand.Rand, *trial) {
	return func(r *rand.Rand, x *trial) {
		for _, b := range x.column(someMeasurement(r), []string{"m", "f"}[r.IntN(2)]) {
			b.Value = math.Round(b.Value*by*10) / 10
		}
	}
}

// grossError makes a value half as large again, under a note.
func grossError(r *rand.Rand, x *trial, note string) {
	b := &x.rows[r.IntN(len(x.rows))]
	b.Value, b.Note = math.Round(b.Value*15)/10, note
}

// Faults of whole columns, of notes and of text, drawn afresh by a seed, and how many
// of each kind are found. A trial without a fault has at most what its noise brings.
func TestSeededFaultsInColumns(t *testing.T) {
	tries := 6
	if proof.Whole() {
		tries = 80
	}
	clean := make(map[string]int) // rule → findings
	rows := 0
	for try := range tries {
		x := newTrial(t, rand.New(rand.NewPCG(uint64(try), 7)))
		rows += len(x.rows)
		for _, f := range x.warned(t) {
			clean[f.Rule]++
		}
	}
	require.LessOrEqual(t, clean["R30"], rows/500, "columns of 12 rows that are doubted without a fault")
	require.LessOrEqual(t, clean["R27"], rows/100, "values of children a few per cent larger")
	t.Logf("findings in %d rows without a fault, by rule: %v", rows, clean)
	for k, f := range columnFaults {
		found := 0
		for try := range tries {
			r := rand.New(rand.NewPCG(uint64(try), 7))
			x := newTrial(t, r)
			before := make(map[string]bool)
			for _, w := range x.warned(t) {
				before[w.Rule+w.Subject+w.Found.String()] = true
			}
			f.seed(rand.New(rand.NewPCG(uint64(try), uint64(k))), x)
			if slices.ContainsFunc(x.warned(t), func(w Finding) bool { return !before[w.Rule+w.Subject+w.Found.String()] }) {
				found++
			}
		}
		t.Logf("%-52s %d of %d  %s", f.kind, found, tries, f.why)
		if f.least == 1 || proof.Whole() {
			require.GreaterOrEqual(t, float64(found), f.least*float64(tries), f.kind)
		}
	}
}
