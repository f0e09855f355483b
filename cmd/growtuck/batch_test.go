package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/data/table"
	"growtuck/sizing"
	"growtuck/testdata/bounded"
)

// someChildren writes a list of made-up children, every tenth line with
// something wrong.
func someChildren(n int, faulty bool) string {
	r := rand.New(rand.NewPCG(11, uint64(n)))
	var b strings.Builder
	b.WriteString("id,name,sex,age,height,weight,chest,inside_leg,class\n")
	for i := range n {
		h := 92 + 70*r.Float64()
		chest := strconv.FormatFloat(6.7+0.444*h+2*r.NormFloat64(), 'f', 1, 64)
		if faulty && i%10 == 3 {
			chest = "5x"
		}
		fmt.Fprintf(&b, "%d,\"Child, %d\",%c,%.1f,%.1f,%.1f,%s,%.1f,%c\n", i, i%97, "mf"[i&1], (h-74)/6.6, h, 14.2*math.Pow(h/100, 2.55), chest, 0.597*h-18.7, 'A'+i%5)
	}
	return b.String()
}

// What is written of a child is what growtuck blend says of it.
func TestBatchIsBlend(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	code, stdout, stderr := try(t, someChildren(50, false), "batch", "--want", "waist,chest,weight", "--ranges")
	require.Zero(t, code, stderr)
	rows, err := csv.NewReader(strings.NewReader(stdout)).ReadAll()
	require.NoError(t, err)
	input, err := csv.NewReader(strings.NewReader(someChildren(50, false))).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 51)
	chart, err := ref.Chart("child")
	require.NoError(t, err)
	for i, row := range rows[1:] {
		in := input[i+1]
		c := sizing.Child{Sex: sizing.Both}
		for j, id := range []string{"sex", "age", "height", "weight", "chest", "inside_leg"} {
			require.NoError(t, ref.Set(&c, id, in[j+2], ""))
		}
		b, err := ref.Estimate(c)
		require.NoError(t, err)
		waist, ok := b.Get("waist")
		require.True(t, ok)
		height, err := chart.SizeOf("height", c.Own["height"], c.Sex)
		require.NoError(t, err)
		chest := ""
		if span, err := chart.SizeOf("chest", c.Own["chest"], c.Sex); err == nil {
			chest = span.Label()
		}
		check := ""
		for _, q := range b.Questions {
			check = strings.TrimPrefix(check+" "+q.Measurement, " ")
			if len(q.Likely) > 0 {
				check += "=" + sizing.FormatExact(q.Likely[0].Values[0].Amount) + q.Likely[0].Values[0].Unit
			}
		}
		require.Equal(t, []string{in[0], in[1], in[2], in[3], in[8]}, row[:5])
		require.Equal(t, []string{height.Label(), chest, check}, []string{row[6], row[8], row[9]})
		require.Equal(t, []string{tell.Figure(waist.Value).String(), tell.Figure(waist.Low).String(), tell.Figure(waist.High).String(),
			tell.Figure(c.Own["chest"]).String(), "", "", tell.Figure(c.Own["weight"]).String(), "", ""}, row[10:])
	}
}

// The finished measurements are those of growtuck garment.
func TestBatchFinishesAsGarmentDoes(t *testing.T) {
	child := "measurement,value,unit\nsex,m,\nheight,110.5,cm\nchest,53,cm\n"
	flags := []string{"--fit", "loose", "--layer", "winter", "--growth", "1", "--extra", "sleeve_length=2"}
	code, stdout, stderr := try(t, child, append([]string{"garment", "pullover", "-", "--format", "csv"}, flags...)...)
	require.Zero(t, code, stderr)
	parts, err := csv.NewReader(strings.NewReader(stdout)).ReadAll()
	require.NoError(t, err)
	code, stdout, stderr = try(t, "sex,height,chest\nm,110.5,53\n", append([]string{"batch", "--garment", "pullover"}, flags...)...)
	require.Zero(t, code, stderr)
	rows, err := csv.NewReader(strings.NewReader(stdout)).ReadAll()
	require.NoError(t, err)
	got := make(map[string]string)
	for i, name := range rows[0] {
		got[name] = rows[1][i]
	}
	require.Len(t, got, 1+5+len(parts)-1)
	for _, p := range parts[1:] {
		require.Equal(t, p[15], got["finished_"+p[1]+"_cm"], p[1])
	}
}

// A list is the same whatever the number of workers, and wherever it is cut.
func TestBatchKeepsTheOrder(t *testing.T) {
	before := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(before)
	text := someChildren(6000, true)
	head, body, _ := strings.Cut(text, "\n")
	runtime.GOMAXPROCS(1)
	args := []string{"batch", "--want", "waist", "--header=false", "--columns", head}
	code, want, wrong := try(t, body, args...)
	require.Equal(t, 1, code)
	require.Equal(t, 5400, strings.Count(want, "\n"))
	for _, workers := range []int{2, 7} {
		runtime.GOMAXPROCS(workers)
		code, got, stderr := try(t, body, args...)
		require.Equal(t, 1, code)
		require.True(t, want == got, "%d workers", workers)
		require.Equal(t, wrong, stderr)
	}
	var pieces string
	for rest := body; rest != ""; {
		cut := strings.Index(rest[min(len(rest)-1, 100_000):], "\n") + min(len(rest)-1, 100_000) + 1
		_, got, _ := try(t, rest[:cut], args...)
		pieces += got
		rest = rest[cut:]
	}
	require.True(t, want == pieces)
}

// No message holds what was measured, whatever is wrong.
func TestFaultsHoldNoMeasurement(t *testing.T) {
	for _, line := range []string{
		"Zoe,m,4.5,1234,55", "Zoe,m,4.5,777.25,55", "Zoe,m,4.5,-777,55", "Zoe,m,4.5,777 furlongs,55", "Zoe,m,4.5,77777777,55", "Zoe,m,777,110,55",
		"Zoe,777,4.5,110,55", "Zoe,m,4.5,,777", "Zoe,m,4.5,,7.77", "Zoe,m,4.5,110,\"777", "Zoe,m,4.5,110,\"777\"7", "Zoe,m,4.5,110,777,777", "Zoe,m,777",
		"Zoe,m,,,", "Zoe,m,4.5,0,55", "Zoe,m,4.5,777e9,55", "Zoe,m,4.5,½½,777",
	} {
		code, stdout, stderr := try(t, line+"\n", "batch", "--header=false", "--columns", "name,sex,age,height,chest")
		require.Equal(t, 1, code, line)
		require.Empty(t, stdout, line)
		require.Contains(t, stderr, "growtuck: standard input:1", line)
		for _, told := range []string{"Zoe", "777", "7.77", "1234", "110", "55"} {
			require.NotContains(t, stderr, told, line)
		}
	}
}

func TestBatchLists(t *testing.T) {
	tests := []struct {
		name, in, args string
		want           string // the first line that is no header, up to a part of it
	}{
		{"units in the names", "name,Height (in),chest mm\nAda,41 1/2,530\n", "--want height,chest", "Ada,4,4.5,2,2,,105.41,53\n"},
		{"figures in inches", "name,height,weight\nAda,41.5,38\n", "--figures-in in --want height,weight", "Ada,4,4.5,2,2.4,,105.41,17.24\n"},
		{"written in inches", "name,height,weight\nAda,105.41,17.24\n", "--unit in --want height,weight", "Ada,4,4.5,2,2.4,,41.5,38.01\n"},
		{"both", "name,height\nAda,105.41\n", "--unit both --want height", "Ada,4,4.5,2,2.3,,105.41,41.5\n"},
		{"semicolons", "\ufeffname;height;chest\r\nAda;104,5;53,25\r\n", "--want height,chest", "Ada;4;4,4;2;2,1;;104,5;53,25\n"},
		{"tabs", "name\theight\tchest\nAda\t104,5\t53\n", "--want height,chest", "Ada\t4\t4.4\t2\t2\t\t104.5\t53\n"},
		{"quotes", "name,height,chest\n\"Ada \"\"A\"\"\",\"41 1/2\"\"\",\"53,0\"\n", "--want chest", "\"Ada \"\"A\"\"\",4,4.5,2,2,,53\n"},
		{"a bare quote is carried as text", "name,height,chest\nAda \"A\",104.5,53\n", "--want chest", "\"Ada \"\"A\"\"\",4,4.4,2,2,,53\n"},
		{"comments and empty lines above", "# class\n\nname,height,chest\n#1,104.5,53\n", "--want chest", "#1,4,4.4,2,2,,53\n"},
		{"a column of numbers", "#,name,height,chest\n1,Ada,104.5,53\n", "--want chest", "1,Ada,4,4.4,2,2,,53\n"},
		{"titles as names", "Name,Chest girth,Height\nAda,53,104.5\n", "--want chest", "Ada,4,4.4,2,2,,53\n"},
		{"columns instead of the header's", "Wer,Größe,Brust\nAda,104.5,53\n", "--columns name,height,chest --want chest", "Ada,4,4.4,2,2,,53\n"},
		{"a sized list again", "name,size_by_height,place_by_height,size_by_chest,place_by_chest,check,height_cm,chest_cm\nAda,9,9,9,9,yes,104.5,53\n", "--want chest", "Ada,4,4.4,2,2,,53\n"},
		{"a sized list with ranges again", "name,chest_low_cm,chest_high_cm,chest_cm,height in cm\nAda,50,60,53,104.5\n", "--want chest --ranges", "Ada,4,4.4,2,2,,53,,\n"},
		{"a semicolon in a quoted name", "\"name; class\",height,chest\nAda,104.5,53\n", "--want chest", "Ada,4,4.4,2,2,,53\n"},
		{"age in months", "name,age in months,chest\nAda,54,53\n", "--want chest", "Ada,54,4,4.4,2,2,,53\n"},
		{"a rare chest is doubted", "name,height,chest\nAda,104.5,75\n", "--want chest", "Ada,4,4.4,12,11.6,height=140.5cm,75\n"},
		{"a slip is named", "name,height,chest,weight\nAda,104.5,5.35,38\n", "--want chest", "Ada,4,4.4,,,chest=53.5cm weight=17.2kg,5.35\n"},
		{"a sum that is none is doubted", "name,trunk,rise,back_waist_length,height\nAda,42,20.5,25,104.5\n", "--want chest", "Ada,4,4.4,2,2.1,trunk,53.36\n"},
		{"beyond the chart", "name,height,chest\nAda,104.5,39\n", "--want chest", "Ada,4,4.4,,,chest,39\n"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			code, stdout, stderr := try(t, tt.in, append([]string{"batch"}, strings.Fields(tt.args)...)...)
			require.Zero(t, code, stderr)
			_, got, _ := strings.Cut(stdout, "\n")
			require.Equal(t, tt.want, got)
		})
	}
}

func TestBatchRefuses(t *testing.T) {
	tests := []struct {
		name, in, args string
		code           int
		want           string
	}{
		{"empty", "", "", 2, "standard input: is empty; it needs a header"},
		{"no measurement", "name,age\nAda,4\n", "", 2, "no column is a measurement"},
		{"one child's table", "measurement,value,unit\nheight,104,cm\n", "", 2, "is the table of one child, which growtuck blend takes"},
		{"twice", "height,height_in\n1,2\n", "", 2, "columns height and height_in are the same thing"},
		{"two ages", "age,age_months,height\n4,6,104\n", "", 2, "columns age and age_months are the same thing"},
		{"two sexes", "sex,Sex,height\nm,f,104\n", "", 2, "columns sex and Sex are the same thing"},
		{"an array of JSON", "[\n{\"height\":104}\n]\n", "", 2, "write each child as a JSON object on its own line"},
		{"two fields of a name", "note,Note,height\na,b,104\n", "--format json", 2, `would be the field "note"`},
		{"wrong unit", "height_kg\n1\n", "", 2, "column height_kg: a length is not in kg"},
		{"weight in cm", "weight_cm\n1\n", "", 2, "column weight_cm: a mass is not in cm"},
		{"open quote in the header", "\"height\n", "", 2, "header: a quote is not closed"},
		{"Latin-1 in the header", "gr\xf6\xdfe,height\n", "", 2, "is not in UTF-8; save the list in UTF-8, or give --latin-1 if it is in Latin-1"},
		{"no file", "", "nowhere.csv", 2, "nowhere.csv: no such file"},
		{"two lists", "", "a.csv b.csv", 2, "2 lists given; batch takes one"},
		{"no columns", "", "--header=false", 2, "the list has no header; name its columns"},
		{"markdown", "height\n104\n", "--format markdown", 2, "batch writes CSV or lines of JSON"},
		{"unit", "height\n104\n", "--figures-in ell", 2, `unknown figures-in "ell"; known are cm, mm, in`},
		{"want", "height\n104\n", "--want chst", 2, `did you mean "chest"?`},
		{"garment", "height\n104\n", "--garment pulover", 2, `did you mean "pullover"?`},
		{"fit", "height\n104\n", "--garment pullover --fit snug", 2, "unknown fit"},
		{"fit of nothing", "height\n104\n", "--fit loose", 2, "fit needs a garment; name it with garment"},
		{"growth", "height\n104\n", "--garment pullover --growth 9", 2, "from 0 to 4"},
		{"JSON as CSV", `{"height":104}`, "--format csv", 2, "written as JSON lines"},
		{"JSON with columns", `{"height":104}`, "--columns height", 2, "is a list of JSON lines, which name their own columns"},
		{"rejects in no folder", "height\n104\n", "--rejects nowhere/x.csv", 2, "nowhere"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			code, stdout, stderr := try(t, tt.in, append([]string{"batch"}, strings.Fields(tt.args)...)...)
			require.Equal(t, tt.code, code, stderr)
			require.Empty(t, stdout)
			require.Contains(t, stderr, tt.want)
		})
	}
}

func TestRejects(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "rejects.csv")
	in := "name,height,chest\r\nAda,104,53\r\n\"Ben\",1o4,53\r\n" + strings.Repeat("y", 512<<10) + "\r\nCem,110,\r\nDot,,"
	code, stdout, stderr := try(t, in, "batch", "--rejects", path, "--want", "height")
	require.Equal(t, 1, code)
	require.Equal(t, 3, strings.Count(stdout, "\n"))
	require.Contains(t, stderr, "standard input:3:7: height: not a length")
	require.Contains(t, stderr, "standard input:4: is longer than 256 KiB")
	require.Contains(t, stderr, "standard input:6: has no measurement")
	require.Contains(t, stderr, "3 lines were rejected; see "+path)
	content, err := os.ReadFile(path)
	require.NoError(t, err)
	require.True(t, "name,height,chest\r\n\"Ben\",1o4,53\r\n"+strings.Repeat("y", 512<<10)+"\r\nDot,," == string(content))

	code, _, stderr = try(t, in, "batch", "--rejects", path)
	require.Equal(t, 2, code)
	require.Contains(t, stderr, "already exists; use --force to overwrite")
	code, _, _ = try(t, "name,height\nAda,104\n", "batch", "--rejects", path, "--force")
	require.Zero(t, code)
	content, err = os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, "name,height\n", string(content))

	list := filepath.Join(dir, "list.csv")
	require.NoError(t, os.WriteFile(list, []byte("height\n104\n"), 0o644))
	code, _, stderr = try(t, "", "batch", list, "--rejects", list, "--force")
	require.Equal(t, 2, code)
	require.Contains(t, stderr, "is the list itself")
	require.NoError(t, os.Remove(list))

	// A list that breaks off leaves no rejects, nor anything else.
	var stdout2, stderr2 bytes.Buffer
	other := filepath.Join(dir, "other.csv")
	torn := io.MultiReader(strings.NewReader("name,height\nAda,x\n"), brokenReader{})
	require.Equal(t, 2, run([]string{"batch", "--rejects", other}, torn, &stdout2, &stderr2))
	require.Contains(t, stderr2.String(), "the tape ran out")
	require.Equal(t, 2, run([]string{"batch", "--rejects", other}, strings.NewReader("height\nx\n104\n"), brokenWriter{errors.New("no space left")}, &stderr2))
	require.Contains(t, stderr2.String(), "standard output: no space left")
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, entries, 1)
}

func TestBatchJSONLines(t *testing.T) {
	in := `{"id":7,"name":"Ada \u00e9","sex":"f","height":104.5,"chest_in":"20 7/8","group":{"a":[1]}}
{"height":"41 1/2 in","sex":null}
{"height":{}}
{"height":104,"height_cm":104}
not JSON
[1]
null
{"height":1e9}
{"height":104,"height":105}
{"id":"a\":{","id":1,"height":104}
{"age":4,"age_months":6,"height":104}
{"sex":"m","Sex":"f","height":104}
{"age":4,"age_months":null,"a:":{"x":1,"x":{"y":2}},"b\\\":":["::"],"height":104}
{"age":"1m","weight":4}
`
	code, stdout, stderr := try(t, in, "batch", "--want", "chest")
	require.Equal(t, 1, code)
	lines := strings.Split(stdout, "\n")
	require.Len(t, lines, 4)
	require.JSONEq(t, `{"id":7,"name":"Ada é","sex":"f","group":{"a":[1]},"size_by_height":"4","place_by_height":"4.4","size_by_chest":"2","place_by_chest":"2","check":null,"chest_cm":53.02}`, lines[0])
	require.JSONEq(t, `{"sex":null,"size_by_height":"4","place_by_height":"4.5","size_by_chest":"2","place_by_chest":"2.3","check":null,"chest_cm":53.83}`, lines[1])
	for _, want := range []string{":3: height: want a number or text", ":4: height is given twice", ":5: is not a JSON object", ":6: is not a JSON object", ":7: is not a JSON object", ":8: height: not a length",
		":9: names a field twice", ":10: names a field twice", ":11: age_months is given twice", ":12: sex is given twice",
		":14: the age is outside chart child (months), which has 3 to 24; nothing is extrapolated", "11 lines were rejected"} {
		require.Contains(t, stderr, want)
	}

	// No lines are no fault of lines of JSON.
	code, stdout, stderr = try(t, "", "batch", "--format", "json")
	require.Zero(t, code, stderr)
	require.Empty(t, stdout)

	// CSV becomes lines of JSON.
	code, stdout, stderr = try(t, "id,class,height\n1,\"B \"\"x\"\"\",104.5\n", "batch", "--format", "json", "--want", "chest")
	require.Zero(t, code, stderr)
	var got map[string]any
	require.NoError(t, json.Unmarshal([]byte(stdout), &got))
	require.Equal(t, `B "x"`, got["class"])
	require.Equal(t, "4.4", got["place_by_height"])
}

func TestColumnsNearlyMeasurementsAreDoubted(t *testing.T) {
	code, _, stderr := try(t, "id,class,height,chst_cm\n1,B,104.5,53\n", "batch")
	require.Zero(t, code)
	require.Contains(t, stderr, "note: column chst_cm is not a measurement and is copied unchanged; did you mean chest?")
	require.NotContains(t, stderr, "class")

	code, _, stderr = try(t, "{\"class\":\"B\",\"height\":104.5,\"chst_cm\":53}\n", "batch")
	require.Zero(t, code)
	require.Contains(t, stderr, "note: column chst_cm is not a measurement")
	require.NotContains(t, stderr, "class")
}

// FuzzBatch: whatever the list, every line that is not blank is sized or set
// aside, unchanged and in order, and no piece of it is lost.
func FuzzBatch(f *testing.F) {
	for _, seed := range []string{
		"1,m,104.5,53\n", "1,m,\"104,5\",53\r\n\n2,f,41 1/2 in,\n", "\"", "\"\"\"\n,,,\n", "1,m,104.5,53,\n1\n", "\ufeff1,m,110,55", "{\"height\":104}\n", "a,b,9¾\",½\n",
		"1,m,1e5,NaN\n", "\x00,\xff,\xfe,\n", ";;;\n\t\n,", "1,boy,0,0\n", "#,f,-5,5\n",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		defer bounded.By(t, 64<<20)()
		path := filepath.Join(t.TempDir(), "rejects")
		code, stdout, stderr := try(t, text, "batch", "--header=false", "--columns", "id,sex,height,chest", "--want", "chest", "--rejects", path)
		if plain, err := io.ReadAll(table.NewText(strings.NewReader(text))); err != nil || string(plain) != strings.TrimPrefix(text, "\ufeff") {
			return // in another encoding: what is rejected is not in it
		}
		if strings.HasPrefix(strings.TrimLeft(strings.TrimPrefix(text, "\ufeff"), " \t\r\n"), "{") {
			require.Equal(t, 2, code)
			return
		}
		content, err := os.ReadFile(path)
		require.NoError(t, err)
		lines := 0
		rest := string(content)
		for line := range strings.Lines(strings.TrimPrefix(text, "\ufeff")) {
			if strings.Trim(line, " \t,;\r\n") == "" {
				continue
			}
			if after, ok := strings.CutPrefix(rest, line); ok {
				rest = after
				continue
			}
			lines++
		}
		require.Empty(t, rest)
		require.Equal(t, lines, strings.Count(stdout, "\n"))
		require.Equal(t, lines > 0 && stderr == "" || len(content) == 0, code == 0)
	})
}
