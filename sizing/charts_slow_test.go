package sizing

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/data"
)

// inCm is a printed figure in cm or kg.
func inCm(v float64, unit string) float64 {
	return v * map[string]float64{"cm": 1, "kg": 1, "mm": 0.1, "in": 2.54, "lb": 0.45359237, "oz": 0.028349523125}[unit]
}

// Every figure of every chart that is printed is read as its row has it, in inches too
// where it is printed in them, with the range beside it, its place and its source.
func TestPublishedFiguresAreTheirRows(t *testing.T) {
	t.Parallel()
	tables, err := data.Load(data.Embedded())
	require.NoError(t, err)
	ref, err := New(tables)
	require.NoError(t, err)
	type cell struct{ chart, size, sex, measurement string }
	rows := make(map[cell][]data.Body)
	for _, b := range tables.Body {
		c := cell{b.Chart, b.Size, b.Sex, b.Measurement}
		rows[c] = append(rows[c], b)
	}
	printed := func(c cell, statistic string, units ...string) (float64, bool) {
		for _, b := range rows[c] {
			if b.Statistic == statistic && slices.Contains(units, b.Unit) {
				return b.Value, true
			}
		}
		return 0, false
	}
	metric := func(c cell, statistic string) (float64, bool) {
		for _, unit := range []string{"cm", "kg", "mm", "in", "lb", "oz"} {
			if v, ok := printed(c, statistic, unit); ok {
				return inCm(v, unit), true
			}
		}
		return 0, false
	}
	checked, ranges, positions := 0, 0, make(map[Scale]int)
	for c, all := range rows {
		i := slices.IndexFunc(tables.Sizes, func(s data.Size) bool { return s.Chart == c.chart && s.Size == c.size })
		size := tables.Sizes[i]
		run, ok := ref.charts[c.chart].findRun(Scale(size.Scale), Sex(c.sex))
		require.True(t, ok)
		k := slices.IndexFunc(run.Sizes, func(m Mark) bool { return m.Size == c.size })
		require.GreaterOrEqual(t, k, 0)
		at := run.Sizes[k].Position
		positions[run.Scale]++
		switch median, ok := metric(cell{c.chart, c.size, c.sex, "height"}, "p50"); {
		case run.Scale == Height && ok:
			require.Equal(t, median, at, "a class stands at its median height")
		case run.Scale != Band:
			require.Equal(t, *size.Position, at)
		default:
			require.Equal(t, float64(k), at)
		}
		col := run.column(c.measurement)
		name := fmt.Sprint(c)
		if col.isDerived() {
			continue // worked out instead, and so at all sizes
		}
		r, err := ref.Read(Place{Run: run, Position: at}, c.measurement, Monotone)
		require.NoError(t, err, name)
		checked++
		want, ok := metric(c, "given")
		if !ok {
			if want, ok = metric(c, "p50"); !ok {
				want, ok = metric(c, "mean")
			}
		}
		low, okLow := metric(c, "low")
		high, okHigh := metric(c, "high")
		if !ok { // of a range the middle
			want = (low + high) / 2
			require.True(t, okLow && okHigh && r.From.Middle, name)
		}
		require.Equal(t, map[bool]Provenance{true: Published, false: Derived}[ok], r.Provenance, name)
		require.InDelta(t, want, r.Value, 1e-12, name)
		inches := want / 2.54
		if ref.measurements[c.measurement].Unit == "kg" {
			inches = want / 0.45359237
		}
		for _, s := range middles {
			if v, ok := printed(c, s, "in", "lb"); ok {
				inches = v
			}
		}
		require.InDelta(t, inches, r.Imperial, 1e-12, name)
		spread := NoSpread
		switch {
		case okLow && okHigh:
			spread = AsPublished
		default:
			for _, ends := range [][2]string{{"p25", "p75"}, {"p5", "p95"}} {
				a, ok1 := metric(c, ends[0])
				b, ok2 := metric(c, ends[1])
				if ok1 && ok2 && spread == NoSpread {
					low, high, spread = a, b, Spread(ends[0]+"–"+ends[1])
				}
			}
		}
		require.Equal(t, spread, r.Spread, name)
		if spread != NoSpread {
			ranges++
			require.InDeltaSlice(t, []float64{low, high}, []float64{r.Low, r.High}, 1e-12, name)
		}
		for _, b := range all {
			require.Contains(t, r.Sources, b.Source)
			require.Contains(t, r.Where, b.Where)
			if b.N != nil {
				require.Contains(t, r.Where, "n="+strconv.FormatFloat(*b.N, 'f', -1, 64))
			}
			if note := data.NoteText(b.Note); note != "" {
				require.Contains(t, fmt.Sprint(r.Notes), note)
			}
		}
		if ok && spread != NoSpread || len(all) == 1 {
			require.LessOrEqual(t, strings.Count(r.Where, all[0].Where), 1, "said once")
		}
	}
	require.Greater(t, checked, 1800)
	require.Greater(t, ranges, 1000)
	require.Len(t, positions, 4)
}

// evaluate works a formula out at a size as a person would: term by term, each on the chart
// that it names, at the same size or at the height of the size.
func evaluate(t *testing.T, ref *Reference, run *Run, m Mark, d data.Derivation) (sum, inches float64, alone *column, factor, at float64, made bool) {
	t.Helper()
	sign := 1.0
	for _, word := range strings.Fields(strings.ReplaceAll(d.Formula, " * ", "*")) {
		if word == "+" || word == "-" {
			sign = map[string]float64{"+": 1, "-": -1}[word]
			continue
		}
		by := sign
		if f, rest, ok := strings.Cut(word, "*"); ok {
			v, err := strconv.ParseFloat(f, 64)
			require.NoError(t, err)
			by, word = by*v, rest
		}
		word, measure, _ := strings.Cut(word, "@")
		word, sex, _ := strings.Cut(word, "[")
		chart, id, _ := strings.Cut(word, ".")
		of := run.Sex
		if sex != "" {
			of = Sex(strings.TrimSuffix(sex, "]"))
		}
		var found *column
		where, smaller := math.NaN(), 1.0
		for _, s := range []Sex{of, Both} {
			if found != nil {
				break
			}
			if same, ok := ref.charts[chart].Run(run.Scale, s); ok && measure == "" {
				if c := same.column(id); c != nil && !math.IsNaN(c.values.At(m.Position)) {
					found, where = c, m.Position
				}
				continue
			}
			r, ok := ref.charts[chart].Run(Height, s)
			if !ok {
				continue
			}
			height := run.Value("height", m.Position)
			if measure != "" {
				other, what, _ := strings.Cut(measure, ".")
				from, ok := ref.charts[other].Run(run.Scale, of)
				if !ok {
					continue
				}
				low, _, err := r.Inverse(what, from.Value(what, m.Position))
				if err != nil {
					continue
				}
				height = low
			}
			c := r.column(id)
			if c == nil {
				continue
			}
			even, levelled := c.values.level()
			if measure == "" && len(levelled) > 0 {
				with := *c
				with.values, c = even, &with
			}
			low, high := c.values.Range()
			switch {
			case height >= low && height <= high:
				found, where = c, height
			case measure == "" && d.ReachCm != nil && height < low && height >= low-*d.ReachCm:
				found, where, made = c, low, true
				power := map[string]float64{"length": 1, "girth": 0.5, "width": 0.5, "mass": 2}[ref.measurements[id].Kind]
				smaller = math.Pow(height/low, power)
			}
		}
		if found == nil {
			return math.NaN(), math.NaN(), nil, 0, 0, false
		}
		sum += by * smaller * found.values.At(where)
		if found.imperial != nil {
			inches += by * found.imperial.At(where)
		} else {
			inches = math.NaN()
		}
		alone, factor, at = found, by*smaller, where
	}
	return sum, inches, alone, factor, at, made
}

// What is worked out is its formula's value at every size, by the first row of the table
// that has one there, with the range of a single term.
func TestDerivedFiguresAreTheirFormulas(t *testing.T) {
	t.Parallel()
	tables, err := data.Load(data.Embedded())
	require.NoError(t, err)
	ref, err := New(tables)
	require.NoError(t, err)
	checked, ranges, smaller, inInches := 0, 0, 0, 0
	for _, d := range tables.Derivations {
		for _, run := range ref.charts[d.Chart].runs {
			if run.Scale != Scale(d.Scale) || run.columns[d.Measurement] == nil {
				continue
			}
			c := run.column(d.Measurement)
			for _, m := range run.Sizes {
				sum, inches, alone, factor, at, belowAll := evaluate(t, ref, run, m, d)
				o := c.of(m.Size)
				name := fmt.Sprintf("%s %s %s %s: %s", d.Chart, run.Sex, m.Size, d.Measurement, d.Formula)
				if math.IsNaN(sum) {
					require.True(t, o.derived == nil || o.derived.Formula != d.Formula, name)
					continue
				}
				require.NotNil(t, o.derived, name)
				if o.derived.Line != d.Line {
					require.Less(t, o.derived.Line, d.Line, "an earlier row stays: %s", name)
					continue
				}
				checked++
				require.InDelta(t, sum, c.values.At(m.Position), 1e-9, name)
				require.Contains(t, c.sources, d.Source, name)
				if c.imperial != nil {
					require.InDelta(t, inches, c.imperial.At(m.Position), 1e-9, name)
					inInches++
				}
				made := slices.ContainsFunc(o.notes, func(f Fact) bool { return f.ID == "made-smaller" })
				require.Equal(t, belowAll, made, name)
				if made {
					smaller++
				}
				if strings.Count(d.Formula, ".")-strings.Count(d.Formula, "0.")-strings.Count(d.Formula, "1.0")-strings.Count(d.Formula, "2.")-strings.Count(d.Formula, "@") != 1 || strings.Contains(d.Formula, " ") {
					continue
				}
				if alone.low != nil && alone.high != nil && c.low != nil && alone.spread == c.spread {
					if low := alone.low.At(at); !math.IsNaN(low) {
						ranges++
						require.InDelta(t, factor*low, c.low.At(m.Position), 1e-9, name)
						require.InDelta(t, factor*alone.high.At(at), c.high.At(m.Position), 1e-9, name)
					}
				}
				require.Equal(t, factor == 1 && at == m.Position && alone.of(m.Size).published, o.published, name)
			}
		}
	}
	require.Greater(t, checked, 1500)
	require.Greater(t, min(ranges, smaller, inInches), 20)
}

// Formulas are sums of terms with factors; what is none is refused.
func TestFormulasAreRead(t *testing.T) {
	for text, want := range map[string][]term{
		"craft.chest":             {{factor: 1, chart: "craft", measurement: "chest"}},
		"0.5*a.x[m] + 0.5*a.x[f]": {{factor: 0.5, chart: "a", measurement: "x", sex: Boy}, {factor: 0.5, chart: "a", measurement: "x", sex: Girl}},
		"a-b.x - 2*c.y - d.z":     {{factor: 1, chart: "a-b", measurement: "x"}, {factor: -2, chart: "c", measurement: "y"}, {factor: -1, chart: "d", measurement: "z"}},
		"a.x - b.y + c.z":         {{factor: 1, chart: "a", measurement: "x"}, {factor: -1, chart: "b", measurement: "y"}, {factor: 1, chart: "c", measurement: "z"}},
		"0.25 * m.t@child.chest":  {{factor: 0.25, chart: "m", measurement: "t", measureChart: "child", measure: "chest"}},
		"m.t[both]@c.d":           {{factor: 1, chart: "m", measurement: "t", sex: Both, measureChart: "c", measure: "d"}},
	} {
		got, err := parseFormula(text)
		require.NoError(t, err, text)
		require.Equal(t, want, got, text)
	}
	for _, text := range []string{"", "chest", "x*a.b", "1e3*a.b", "-1*a.b", "a.b[x]", "a.b[m", "a.b@c", "a.b@", "a.b c", "a.b]", "a.b*c", "a.b@c.d@e.f", "a.b@c.[", "a.b + ", "2*2*a.b", "NaN*a.b"} {
		_, err := parseFormula(text)
		require.Error(t, err, text)
	}
}

// A place is named by the sizes beside it, and what is said of two sizes is said once where
// it is the same.
func TestPlacesAreNamed(t *testing.T) {
	years := &Run{Scale: Years, Chart: &Chart{}, Sizes: []Mark{{Size: "2", Position: 2}, {Size: "4", Position: 4}, {Size: "6", Position: 6}, {Size: "8", Position: 8}}}
	months := &Run{Scale: Months, Chart: years.Chart, Sizes: []Mark{{Size: "3m", Position: 3}}}
	heights := &Run{Scale: Height, Chart: years.Chart}
	for _, tt := range []struct {
		run         *Run
		at          float64
		exact, near string
	}{{years, 4, "4", "4"}, {years, 4.049, "4.05", "4"}, {years, 4.051, "4.05", "4.1"}, {years, 3.951, "3.95", "4"}, {years, 5.256, "5.26", "5.3"}, {months, 3, "3m", "3m"}, {months, 4.24, "4.24m", "4.2m"}, {heights, 104.27, "104.3cm", "104.3cm"}} {
		require.Equal(t, tt.exact, tt.run.label(tt.at))
		require.Equal(t, tt.near, tt.run.near(tt.at))
		require.Equal(t, tt.exact, Place{Run: tt.run, Position: tt.at}.Label())
	}
	require.Equal(t, "4–6", Span{years, 4.01, 5.99}.Label())
	require.Equal(t, "4", Span{years, 4.01, 3.99}.Label())
	require.Empty(t, Span{}.Label())
	values, err := NewCurve([]float64{4, 8}, []float64{50, 60})
	require.NoError(t, err)
	c := &column{values: values}
	for at, want := range map[float64][2]string{4: {"4", ""}, 8: {"8", ""}, 5: {"4", "8"}, 6: {"4", "8"}, 7.9: {"4", "8"}} { // it has none at 6
		below, above := years.neighbours(c, at)
		require.Equal(t, want, [2]string{below, above}, "%g", at)
	}
	one, two := &data.Derivation{Formula: "a.b", Why: "so"}, &data.Derivation{Formula: "c.d", Why: "thus"}
	c.sizes = []origins{{size: "2", derived: one, where: "p. 1"}, {size: "4", derived: two, where: "p. 2"}, {size: "6", derived: one, where: "p. 1"}, {size: "8"}}
	for _, tt := range []struct{ below, above, formula, why, where string }{
		{"2", "", "a.b", "so", "p. 1"}, {"2", "6", "a.b", "so", "p. 1"}, {"2", "4", "2: a.b; 4: c.d", "so; thus", "2: p. 1; 4: p. 2"}, {"8", "", "", "", ""}, {"8", "4", "c.d", "thus", "4: p. 2"}, {"4", "8", "c.d", "thus", "4: p. 2"},
	} {
		formula, why := c.formulaOf(tt.below, tt.above)
		require.Equal(t, []string{tt.formula, tt.why, tt.where}, []string{formula, why, c.whereOf(tt.below, tt.above)}, tt)
	}
	o := c.add("2")
	o.addWhere("p. 1")
	o.addWhere("p. 9")
	require.Equal(t, "p. 1; p. 9", c.of("2").where)
	c.add("10").addWhere("p. 3")
	require.Equal(t, "p. 3", c.of("10").where)
	require.Len(t, c.sizes, 5)
	require.Equal(t, origins{}, c.of("12"))
}

// A chart of boys and girls apart asks which; one of either names the other.
func TestSexesThatAChartNeeds(t *testing.T) {
	for _, tt := range []struct {
		of   []Sex
		want string
	}{{[]Sex{Boy, Girl}, "either"}, {[]Sex{Boy}, "m"}, {[]Sex{Girl}, "f"}} {
		require.Equal(t, NewFact("sex-needed."+tt.want, "c"), (&SexError{"c", tt.of}).Fact())
	}
	require.Equal(t, "chart c is of boys alone; give the sex m", (&SexError{"c", []Sex{Boy}}).Error())
	ref, err := Default()
	require.NoError(t, err)
	for id, want := range map[string]bool{"child": true, "measured": true, "stature": false, "craft": true} {
		chart, err := ref.Chart(id)
		require.NoError(t, err)
		require.NoError(t, chart.CheckSex(Girl), id)
		require.Equal(t, want, chart.CheckSex(Both) == nil, id)
		require.Equal(t, want, chart.CheckSex("") == nil, id)
	}
	for _, m := range ref.Measurements() {
		want := false
		for _, id := range []string{"child", "measured"} {
			for _, run := range ref.charts[id].runs {
				want = want || run.column(m.ID) != nil
			}
		}
		require.Equal(t, want, ref.Estimable(m.ID), m.ID)
	}
	require.False(t, ref.Estimable("tail"))
	require.False(t, ref.Estimable("elbow_to_fingertip"), "taken of infants alone")
}
