package tell

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/data"
	"growtuck/sizing"
)

func TestFigures(t *testing.T) {
	tests := []struct {
		in   float64
		want string
	}{
		{0, "0"}, {math.Copysign(0, -1), "0"}, {-0.001, "0"}, {53, "53"}, {53.25, "53.25"}, {9.7536, "9.75"}, {-4, "-4"}, {0.005, "0.01"},
	}
	for _, tt := range tests {
		require.Equal(t, tt.want, Figure(tt.in).String())
		text, err := json.Marshal(Figure(tt.in))
		require.NoError(t, err)
		require.Equal(t, tt.want, string(text))
	}
	require.Nil(t, Known(1, false))
	require.Nil(t, Known(math.Inf(1), true))
	require.Nil(t, Known(math.NaN(), true))
	require.Equal(t, Figure(1), *Known(1, true))
}

func TestAmounts(t *testing.T) {
	chest := sizing.Reading{Value: 55.81, Imperial: 22, Low: 52, High: 58.1, Spread: "p25–p75"}
	weight := sizing.Reading{Measurement: data.Measurement{Name: "weight", Unit: "kg"}, Value: 16.84, Imperial: 37.126}
	require.Equal(t, "56.0", amount(chest, "cm"))
	require.Equal(t, "22", amount(chest, "in"))
	require.Equal(t, "52.0–58.1 (p25–p75)", spread(chest, "cm"))
	require.Equal(t, "20 1/2–22 3/4 (p25–p75)", spread(chest, "in"))
	require.Equal(t, "16.8", amount(weight, "cm"))
	require.Equal(t, "37.1", amount(weight, "in"))
	require.Equal(t, "weight (kg, lb)", title(weight, []string{"cm", "in"}))
	require.Equal(t, "+7.5", signed(7.5, "cm"))
	require.Equal(t, "−1/2", signed(-1.27, "in"))
	require.Equal(t, "", signed(0.1, "cm"))
	require.Equal(t, "7.62 cm (3 in)", quantity(7.62, "both"))
}

func TestTableLinesUp(t *testing.T) {
	g := Table{
		Columns: []Column{{Head: "part"}, {Head: "in", Right: true}, {Head: "empty"}, {Head: "about", Wrap: true}},
		Rows: []Row{
			{Cells: []string{"chest", "9 3/4", "", "round the fullest part of the chest"}},
			{Cells: []string{"hip", "21", "", "level"}, Under: []string{"because of this and that and the other"}},
			{Cells: []string{"weight", "16.8", "", ""}},
		},
	}
	require.Equal(t, []string{
		"part        in  about",
		"───────────────────────────────",
		"chest    9 3/4  round the",
		"                fullest part of",
		"                the chest",
		"hip     21      level",
		"    because of this and that",
		"      and the other",
		"weight    16.8",
	}, g.text(31))
	require.Empty(t, Table{Columns: []Column{{Head: "a"}}}.text(100))
}

func TestCSVCells(t *testing.T) {
	type inner struct {
		Text string `json:"text"`
	}
	type outer struct {
		inner
		List   []string `json:"list"`
		Number Figure   `json:"number"`
		None   *Figure  `json:"none"`
	}
	var out bytes.Buffer
	require.NoError(t, writeCSV(&out, []outer{
		{inner{"=1+1"}, []string{"@a", "b"}, -5, Known(-2, true)},
		{inner{"\tx"}, nil, 2.5, nil},
		{inner{"-x"}, []string{"+1"}, 0, nil},
	}))
	require.Equal(t, "text,list,number,none\n'=1+1,'@a; b,-5,-2\n'\tx,,2.5,\n'-x,'+1,0,\n", out.String())

	out.Reset()
	require.NoError(t, writeCSV(&out, []outer{}))
	require.Equal(t, "text,list,number,none\n", out.String())
}

// A column of the CSV has the name of the field in the JSON.
func TestCSVAndJSONNameThingsTheSame(t *testing.T) {
	for _, row := range []any{bodyRecord{}, sizeRow{}, standingRecord{}, finishedRow{}, chartRecord{}, measurementRecord{}, sourceRecord{}, GarmentRecord{}} {
		text, err := json.Marshal(row)
		require.NoError(t, err)
		d := json.NewDecoder(bytes.NewReader(text))
		var keys []string
		var doc map[string]json.RawMessage
		require.NoError(t, d.Decode(&doc))
		for k := range doc {
			keys = append(keys, k)
		}
		var out bytes.Buffer
		switch r := row.(type) {
		case bodyRecord:
			err = writeCSV(&out, []bodyRecord{r})
		case sizeRow:
			err = writeCSV(&out, []sizeRow{r})
		case standingRecord:
			err = writeCSV(&out, []standingRecord{r})
		case finishedRow:
			err = writeCSV(&out, []finishedRow{r})
		case chartRecord:
			err = writeCSV(&out, []chartRecord{r})
		case measurementRecord:
			err = writeCSV(&out, []measurementRecord{r})
		case sourceRecord:
			err = writeCSV(&out, []sourceRecord{r})
		case GarmentRecord:
			err = writeCSV(&out, []GarmentRecord{r})
		}
		require.NoError(t, err)
		head, _, _ := strings.Cut(out.String(), "\n")
		require.ElementsMatch(t, keys, strings.Split(head, ","))
	}
}

func TestMarkdownIsEscaped(t *testing.T) {
	var out bytes.Buffer
	writeMarkdown(&out, Document{
		Heading: []string{"# not a <b>heading</b>"},
		Tables:  []Table{{Columns: []Column{{Head: "a|b"}, {Head: "n", Right: true}}, Rows: []Row{{Cells: []string{"x|y\nz", "1"}}}}},
		Notes:   Notes{"*star*"},
		Credits: []string{"Source: us"},
	})
	require.Equal(t, `\# not a &lt;b&gt;heading&lt;/b&gt;

| a\|b | n |
| --- | ---: |
| x\|y�z | 1 |

[1] \*star\*

Source: us
`, out.String())
}

func TestFootnotesAreGivenOnce(t *testing.T) {
	var n Notes
	require.Equal(t, "[1] [2]", n.marks([]string{"a", "b", "a"}))
	require.Equal(t, "[2]", n.mark("b"))
	require.Equal(t, "", n.marks(nil))
	require.Equal(t, Notes{"a", "b"}, n)
}
