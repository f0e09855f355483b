package data

import (
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"growtuck/data/rules"
)

var rowRules = rules.Rows(Forms())

func num(v float64) *float64 { return &v }

// small returns a sound set of tables, a row or two each.
func small() *Tables {
	return &Tables{
		Sources: []Source{{Line: 2, ID: "book", Title: "Book", Publisher: "P", Edition: "first", Year: num(1999), Rights: "facts", Credit: "C", CreditAsked: "no"}},
		Measurements: []Measurement{
			{Line: 2, ID: "height", Name: "height", Kind: "length", Region: "body", Follows: "lengths", Unit: "cm", How: "standing"},
			{Line: 3, ID: "chest", Name: "chest", Kind: "girth", Region: "torso", Follows: "widths", Relation: "chest", Unit: "cm", How: "round"},
		},
		Charts: []Chart{{Line: 2, ID: "c", Title: "Chart", Source: "book"}},
		Sizes:  []Size{{Line: 2, Chart: "c", Size: "2", Scale: "years", Position: num(2)}, {Line: 3, Chart: "c", Size: "toddler", Scale: "band"}},
		Body: []Body{{Line: 2, Chart: "c", Size: "2", Sex: "both", Measurement: "chest", Statistic: "given", Value: 53, Unit: "cm",
			Source: "book", Where: "p. 1", Basis: "published", Review: "read twice"}},
		Derivations: []Derivation{{Line: 2, Chart: "c", Scale: "years", Measurement: "height", Formula: "2*c.chest", Source: "book", Basis: "derived", Why: "so"}},
		Relations:   []Relation{{Line: 2, Sex: "m", A: "chest", B: "chest", Statistic: "sd", LowCm: num(83), HighCm: num(115), Value: 0.05, N: 30, Source: "book", Basis: "computed"}},
		Ratios:      []Ratio{{Line: 2, Sex: "m", Measurement: "chest", LowCm: 83, HighCm: 100, P1: 0.4, P50: 0.5, P99: 0.6, N: 30, Source: "book", Basis: "computed"}},
		Garments:    []Garment{{Line: 2, ID: "vest", Title: "Vest", Group: "upper", Opening: "none"}},
		Parts:       []Part{{Line: 2, Garment: "vest", Part: "chest", Name: "chest", Measurement: "chest", Dimension: "girth"}},
		Ease: []Ease{{Line: 2, Rule: "fit", Garment: "upper", Fit: "close", Layer: "skin", Measurement: "chest", Low: 0, High: num(2), Use: 1,
			Unit: "cm", Source: "book", Basis: "published"}},
		Lengths: []Length{{Line: 2, Garment: "vest", Part: "chest", Role: "style", Adjustment: 1, Unit: "cm", Why: "so", Source: "book", Basis: "published"}},
	}
}

func TestCheckAcceptsSmallSoundTables(t *testing.T) { require.NoError(t, small().Check(rowRules)) }

// Of tables that were read, a fault of a cell has its column too, also behind a
// quoted cell.
func TestCheckGivesColumns(t *testing.T) {
	files := fstest.MapFS{}
	require.NoError(t, fs.WalkDir(Embedded(), ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(Embedded(), path)
		files[path] = &fstest.MapFile{Data: text}
		return err
	}))
	lines := strings.SplitAfter(string(files["body.csv"].Data), "\n")
	require.Contains(t, lines[1], `,cross_back,given,18.5,cm,craft-2018,"booklet pp.`)
	lines[1] = strings.Replace(lines[1], ",cross_back,", ",cros_back,", 1)
	lines[2] = strings.Replace(lines[2], ",published,", ",printed,", 1)
	basis := strings.Index(lines[2], "printed") + 1
	files["body.csv"].Data = []byte(strings.Join(lines, ""))
	tables, err := Load(files)
	require.NoError(t, err)
	require.Equal(t, []string{
		fmt.Sprintf(`body.csv:3:%d: basis: "printed" is not one of published, computed, memory`, basis),
		`body.csv:2:15: measurement: "cros_back" is not in measurements.csv`,
	}, messages(tables.Check(rowRules)))

	files["body.csv"].Data = append([]byte("\ufeff"), files["body.csv"].Data...)
	_, err = Load(files)
	require.ErrorContains(t, err, "body.csv:1:1: begins with a byte order mark")
}

func TestCheckSaysInPlainWords(t *testing.T) {
	for _, tt := range []struct {
		name   string
		breaks func(*Tables)
		want   []string
	}{
		{"required", func(t *Tables) { t.Sources[0].Rights = "" }, []string{`sources.csv:2: rights: "" is missing`}},
		{"id", func(t *Tables) { t.Garments[0].ID = "Vest no. 1"; t.Parts, t.Lengths, t.Ease = nil, nil, nil },
			[]string{`garments.csv:2: id: "Vest no. 1" is not an id: lower-case letters and digits, joined by - or _`}},
		{"oneof", func(t *Tables) { t.Body[0].Sex = "boys" }, []string{`body.csv:2: sex: "boys" is not one of m, f, both`}},
		{"oneof, empty", func(t *Tables) { t.Body[0].Unit = "" }, []string{`body.csv:2: unit: "" is not one of cm, mm, in, kg, lb, oz`}},
		{"oneof, a word with a space", func(t *Tables) { t.Ease[0].Basis = "common" },
			[]string{`ease.csv:2: basis: "common" is not one of published, derived, common practice, memory, judgement`}},
		{"max", func(t *Tables) { t.Sizes[1].Size = "a very long label" },
			[]string{`sizes.csv:3: size: "a very long label" is longer than 12 characters`}},
		{"gt", func(t *Tables) { t.Body[0].Value = 0 }, []string{"body.csv:2: value: 0 is not above 0"}},
		{"gt, negative", func(t *Tables) { t.Body[0].Value = -53 }, []string{"body.csv:2: value: -53 is not above 0"}},
		{"gte", func(t *Tables) { t.Ratios[0].N = 3 }, []string{"ratios.csv:2: n: 3 is below 20"}},
		{"lt", func(t *Tables) { t.Ratios[0].P99 = 3 }, []string{"ratios.csv:2: p99: 3 is not below 3"}},
		{"lte", func(t *Tables) { t.Body[0].Value = 3001 }, []string{"body.csv:2: value: 3001 is above 3000"}},
		{"lte, optional", func(t *Tables) { t.Sources[0].Year = num(2101) }, []string{"sources.csv:2: year: 2101 is above 2100"}},
		{"gtfield names the column", func(t *Tables) { t.Ratios[0].HighCm = 83 },
			[]string{"ratios.csv:2: height_high_cm: 83 is not above height_low_cm"}},
		{"gtefield names the column", func(t *Tables) { t.Ease[0].Use = -1 }, []string{"ease.csv:2: use: -1 is below low"}},
		{"required_unless", func(t *Tables) { t.Sizes[0].Position = nil }, []string{"sizes.csv:2: position: nothing is missing"}},
		{"required_if", func(t *Tables) { t.Lengths[0].Role = "option" }, []string{`lengths.csv:2: option: "" is missing`}},
		{"duplicate names both lines", func(t *Tables) { t.Body = append(t.Body, t.Body[0]); t.Body[1].Line = 7 },
			[]string{"body.csv:7: c, 2, both, chest, given, cm is already on line 2"}},
		{"the same figure in another unit is no duplicate", func(t *Tables) {
			t.Body = append(t.Body, t.Body[0])
			t.Body[1].Unit = "in"
		}, nil},
		{"dangling source", func(t *Tables) { t.Body[0].Source = "bok" }, []string{`body.csv:2: source: "bok" is not in sources.csv`}},
		{"dangling measurement", func(t *Tables) { t.Parts[0].Measurement = "girth" }, []string{`parts.csv:2: measurement: "girth" is not in measurements.csv`}},
		{"dangling chart", func(t *Tables) { t.Derivations[0].Chart = "d" }, []string{`derivations.csv:2: chart: "d" is not in charts.csv`}},
		{"dangling size", func(t *Tables) { t.Body[0].Size = "3" }, []string{`body.csv:2: chart, size: "c, 3" is not in sizes.csv`}},
		{"dangling part", func(t *Tables) { t.Lengths[0].Part = "hem" }, []string{`lengths.csv:2: garment, part: "vest, hem" is not in parts.csv`}},
		{"dangling garment or group", func(t *Tables) { t.Ease[0].Garment = "lower" }, []string{`ease.csv:2: garment (or group): "lower" is not in garments.csv`}},
		{"dangling relation", func(t *Tables) { t.Measurements[1].Relation = "girth" }, []string{`measurements.csv:3: relation: "girth" is not in measurements.csv`}},
		{"every fault, not the first", func(t *Tables) { t.Body[0].Sex, t.Body[0].Value, t.Charts[0].Source = "x", 0, "y" },
			[]string{`body.csv:2: sex: "x" is not one of m, f, both`, "body.csv:2: value: 0 is not above 0", `charts.csv:2: source: "y" is not in sources.csv`}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			tables := small()
			tt.breaks(tables)
			require.Equal(t, tt.want, messages(tables.Check(rowRules)))
		})
	}
}
