package validate

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"growtuck/data"
	"growtuck/data/rules"
	"growtuck/sizing"
	"growtuck/testdata/proof"
)

// builds says why tables cannot be used: they do not load, or a chart cannot be read at
// its sizes and between them.
func builds(files fs.FS) error {
	t, err := data.Load(files)
	if err == nil {
		err = t.Check(rules.Rows(data.Forms()))
	}
	if err != nil {
		return err
	}
	ref, err := sizing.New(t)
	if err != nil {
		return err
	}
	for _, c := range ref.Charts() {
		for _, run := range c.Runs() {
			for i, z := range run.Sizes {
				ref.BodyAt(sizing.Place{Run: run, Position: z.Position}, sizing.Monotone)
				if i > 0 && run.Scale != sizing.Band {
					ref.BodyAt(sizing.Place{Run: run, Position: (z.Position + run.Sizes[i-1].Position) / 2}, sizing.Linear)
				}
			}
		}
	}
	for _, g := range ref.Garments() {
		if _, err := ref.GarmentOptions(g.ID); err != nil {
			return err
		}
	}
	return nil
}

// Charts of any shape: what no rule stops can be used. They are drawn with all that a
// table of body rows may have: scales, sexes, statistics, units, gaps, single sizes.
func TestWhatNoRuleStopsBuilds(t *testing.T) {
	own := ownTables(t)
	charts := 25
	if proof.Whole() {
		charts = 500
	}
	r := rand.New(rand.NewPCG(20261126, 3))
	clean := 0
	for n := range charts {
		files := fstest.MapFS{}
		for name, f := range own {
			files[name] = f
		}
		drawChart(r, files)
		findings, err := CheckTables(files, "", nil)
		require.NoError(t, err)
		if Worst(findings) < Stop {
			clean++
			require.NoError(t, builds(files), "chart %d: %s", n, tail(files))
		}
	}
	require.Greater(t, clean, charts/4, "too few charts have nothing to stop")
}

// tail are the rows that were drawn.
func tail(files fstest.MapFS) string {
	var b strings.Builder
	for _, name := range []string{"sizes.csv", "body.csv"} {
		for line := range strings.Lines(string(files[name].Data)) {
			if strings.HasPrefix(line, "drawn,") {
				b.WriteString(line)
			}
		}
	}
	return b.String()
}

// drawChart adds a chart of any shape.
func drawChart(r *rand.Rand, files fstest.MapFS) {
	add := func(table string, rows ...[]string) {
		var b bytes.Buffer
		b.Write(files[table].Data)
		_ = csv.NewWriter(&b).WriteAll(rows) // a buffer takes everything
		files[table] = &fstest.MapFile{Data: b.Bytes()}
	}
	pick := func(of ...string) string { return of[r.IntN(len(of))] }
	add("charts.csv", []string{"drawn", "Drawn", "cpsc-1977", ""})
	scales := [][]string{{"years"}, {"months"}, {"height"}, {"band"}, {"months", "years"}}[r.IntN(5)]
	type size struct {
		label string
		years float64
	}
	var sizes []size
	for _, scale := range scales {
		from := 1 + r.IntN(4)
		for k := range 1 + r.IntN(5) {
			at := float64(from + 2*k)
			var row []string
			switch scale {
			case "years":
				row = []string{"drawn", fmt.Sprint(at), scale, fmt.Sprint(at), "", "", ""}
			case "months":
				row = []string{"drawn", fmt.Sprintf("%gm", 3*at), scale, fmt.Sprint(3 * at), "", "", ""}
				at /= 4
			case "height":
				row = []string{"drawn", fmt.Sprint(80 + 6*at), scale, fmt.Sprint(80 + 6*at), "", "", ""}
			default:
				row = []string{"drawn", fmt.Sprintf("%g-%g", at, at+1), scale, "", "", "", ""}
			}
			sizes = append(sizes, size{row[1], at})
			add("sizes.csv", row)
		}
	}
	statistics := [][]string{{"given"}, {"low", "high"}, {"p50"}, {"p5", "p50", "p95"}, {"p25", "p75"}, {"mean", "sd"}, {"p3", "p10", "p50", "p90", "p97"}, {"mean"}, {"sd"}, {"low"}, {"p10", "mean", "p90"}}
	sexes := [][]string{{"both"}, {"m", "f"}, {"m"}, {"m", "f", "both"}}[r.IntN(4)]
	gaps := r.IntN(4) == 0
	for _, m := range []struct {
		id         string
		base, step float64
		mass       bool
	}{{"height", 75, 6.5, false}, {"weight", 10, 2.2, true}, {"chest", 49, 2, false}, {"waist", 47, 1.4, false}, {"hip", 50, 2.4, false}, {"neck", 24, 0.6, false}} {
		if r.IntN(3) == 0 {
			continue
		}
		unit := pick("cm", "cm", "mm", "in")
		if m.mass {
			unit = pick("kg", "lb", "oz")
		}
		of := statistics[r.IntN(len(statistics))]
		for _, z := range sizes {
			for _, sex := range sexes {
				if gaps && r.IntN(4) == 0 {
					continue
				}
				for _, statistic := range of {
					share := map[string]float64{"low": 0.96, "high": 1.04, "p3": 0.93, "p5": 0.94, "p10": 0.95, "p25": 0.97, "p75": 1.03, "p90": 1.05, "p95": 1.06, "p97": 1.07, "sd": 0.04}[statistic]
					if share == 0 {
						share = 1
					}
					v := (m.base + m.step*z.years) * share / ownUnits[slices.Index(bodyUnits, unit)]
					if unit == "in" || statistic == "given" {
						v = float64(int(8*v)) / 8
					}
					add("body.csv", []string{"drawn", z.label, sex, m.id, statistic, strconv.FormatFloat(v, 'f', 2, 64), unit, "cpsc-1977", "table 1", "published", "read twice", "", ""})
				}
			}
		}
	}
}
