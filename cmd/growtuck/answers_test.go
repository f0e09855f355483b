package main

import (
	"crypto/sha256"
	"encoding/csv"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/testdata/samples"
)

// An asked question has: its arguments, and a table on standard input.
type asked struct {
	args  []string
	stdin string
}

// texts are what may be said of fields that read a text of their own.
var texts = map[string][]string{
	"size": {"3m", "9m", "18m", "2", "3.5", "4", "5", "6", "8.5", "10", "12", "16"}, "widths": {"2", "4", "5.5", "8"}, "lengths": {"3", "6", "7.5", "10"},
	"gauge": {"12x16/10cm", "16x22/10cm", "20x28/10cm", "22x30/4in", "28x36/10cm", "14x11/10cm"}, "rib": {"24x30/10cm", "18x26/10cm"}, "before-washing": {"21x29/10cm"},
	"multiple": {"4n", "6n+2", "even", "odd"}, "stitch": {"sc", "hdc", "dc"}, "stretch": {"1.3", "1.6", "neck=1.4", "cuff=1.3"}, "extra": {"sleeve_length=2", "body_length=-1.5", "chest=3"},
	"ease": {"chest=9", "girths=7%", "hip=2in"}, "wear": {"5m"}, "grow": {"9m", "1y6m"}, "zippers": {"12,14,16", "5,7"}, "port": {"tummy,thigh", "chest"},
	"hold": {"tuck", "fold-cuff", "hem", "on-hold", "none", "sleeve=on-hold", "body=tuck"}, "add": {"ear=6cm", "pad:knee=8x10cm", "tail=15cm", "ball=5cm", "horn=7cm"},
	"stripes": {"4 red, 2 white", "6 blue"}, "colour": {"hood=red", "main=grey", "sleeve=blue"}, "pace": {"120"}, "done": {"yoke=12", "body=20", "sleeve=10", "leg=8"},
	"longer": {"body=-1.5cm", "sleeve=2", "leg=3"}, "wider": {"body=3cm", "sleeve=1"}, "ends": {"leg=at floor", "sleeve=3cm above wrist", "body=at hip"},
	"as-worked": {"sleeve=46 rows to 26 stitches"}, "used": {"120"}, "have": {"250"}, "weighed": {"start=300", "yoke=240"}, "knits-to": {"22"},
}

// together are fields that say nothing without others.
var together = map[string][]string{
	"pace": {"--hours-a-day=1.5"}, "longer": {"--done=yoke=12"}, "wider": {"--done=yoke=12"}, "ends": {"--done=yoke=12"}, "used": {"--done=yoke=12"}, "have": {"--done=yoke=12"},
	"knits-to": {"--yarn=50g 125m", "--swatch=10x10cm 4g"}, "colour": {"--yarn=50g 125m", "--swatch=10x10cm 4g"}, "margin": {"--yarn=50g 125m", "--swatch=10x10cm 4g"},
	"as-worked": {"--done=sleeve=46"}, "yarn": {"--swatch=10x10cm 4g"}, "swatch": {"--yarn=50g 125m"},
}

// drawPlan draws a garment, for a child or a size, with some of the fields of a plan.
func drawPlan(t *testing.T, r *rand.Rand) []string {
	t.Helper()
	garments := samples.Reference(t).Garments()
	args := []string{garments[r.IntN(len(garments))].ID}
	size := r.IntN(2) == 0
	if !size {
		args = append(args, drawChild(t, r).flags()...)
	}
	for _, f := range ask.PlanFields() {
		of := slices.Concat(f.Choices, texts[f.Name])
		switch {
		case f.Argument || f.Group == ask.Child, !f.AppliesTo(samples.Reference(t), args[0]):
			continue
		case f.Group == ask.Sizes && f.Name != "size", f.Name == "size" && !size:
			continue
		case f.Kind == ask.YesNo:
			of = []string{"true"}
		case f.Kind == ask.Number:
			of = []string{strconv.FormatFloat(f.Low+(f.High-f.Low)*r.Float64(), 'f', 1, 64)}
		}
		always := f.Name == "gauge" || f.Name == "size" || f.Name == "craft"
		if usual := f.Name == "fit" || f.Name == "layer" || f.Name == "yoke" || f.Name == "growth"; len(of) == 0 || !always && r.IntN(14) > 0 && (!usual || r.IntN(2) > 0) {
			continue
		}
		args = append(args, "--"+f.Name+"="+of[r.IntN(len(of))])
		for _, other := range together[f.Name] {
			if name, _, _ := strings.Cut(other, "="); !slices.ContainsFunc(args, func(a string) bool { return strings.HasPrefix(a, name+"=") }) {
				args = append(args, other)
			}
		}
	}
	return args
}

// drawRows draws rows of the body measurements that ship, some of them changed.
func drawRows(t *testing.T, r *rand.Rand) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "data", "body.csv"))
	require.NoError(t, err)
	rows, err := csv.NewReader(strings.NewReader(string(text))).ReadAll()
	require.NoError(t, err)
	from := 1 + r.IntN(len(rows)-40)
	out := [][]string{rows[0]}
	for _, row := range rows[from : from+30] {
		row = slices.Clone(row)
		v, err := strconv.ParseFloat(row[5], 64)
		if require.NoError(t, err); r.IntN(8) == 0 {
			row[5] = strconv.FormatFloat(v*[]float64{1.01, 1.04, 0.9, 10, 2.54, 1.3}[r.IntN(6)], 'f', 1, 64)
		}
		if r.IntN(40) == 0 {
			row[r.IntN(len(row))] = ""
		}
		out = append(out, row)
	}
	return written(t, out)
}

func written(t *testing.T, rows [][]string) string {
	t.Helper()
	b := &strings.Builder{}
	require.NoError(t, csv.NewWriter(b).WriteAll(rows))
	return b.String()
}

// slipped is the draft of a plan with one or two of its figures changed.
func slipped(t *testing.T, r *rand.Rand, plan []string) (draft string, ok bool) {
	t.Helper()
	code, out, _ := try(t, noChild, append([]string{"plan", "--draft"}, plan...)...)
	if code != 0 {
		return "", false
	}
	rows, err := csv.NewReader(strings.NewReader(out)).ReadAll()
	require.NoError(t, err)
	for range r.IntN(3) {
		row := rows[1+r.IntN(len(rows)-1)]
		if v, err := strconv.ParseFloat(row[2], 64); err == nil {
			row[2] = strconv.FormatFloat(v*[]float64{0.5, 0.9, 1.05, 1.2, 2, 10}[r.IntN(6)]+float64(r.IntN(3)-1), 'f', 0, 64)
		}
	}
	return written(t, rows), true
}

// drawQuestion draws one for any of the commands that compute.
func drawQuestion(t *testing.T, r *rand.Rand) asked {
	t.Helper()
	format := "--format=" + []string{"table", "markdown", "json", "csv"}[r.IntN(4)]
	one := func(of []string) string { return of[r.IntN(len(of))] }
	switch r.IntN(16) {
	case 0:
		return asked{args: []string{"size", one(texts["size"]), "--all", format, "--chart=" + one([]string{"child", "craft", "stature"}), "--sex=" + one([]string{"m", "f"})}}
	case 1:
		return asked{args: append([]string{"blend", "--all", "--why", format}, drawChild(t, r).flags()...)}
	case 2:
		return asked{args: append([]string{"blend", "--widths=" + one(texts["widths"]), "--lengths=" + one(texts["lengths"]), format}, drawChild(t, r).flags()...)}
	case 3:
		return asked{args: append([]string{one([]string{"grow", "profile"}), format}, drawChild(t, r).flags()...)}
	case 4:
		list := &strings.Builder{}
		list.WriteString("name,sex,age,height,chest,waist,hip,arm_length\n")
		for i := range 8 {
			c := drawChild(t, r)
			fmt.Fprintf(list, "c%d,%s,%s,%s,%s,%s,%s,%s\n", i, c.sex, c.age, c.own["height"], c.own["chest"], c.own["waist"], c.own["hip"], c.own["arm_length"])
		}
		return asked{stdin: list.String(), args: [][]string{{"order", "-", "--sizes", "4"}, {"order", "-"}, {"batch", "--ranges"}}[r.IntN(3)]}
	case 5, 6:
		return asked{args: []string{"rows", "-", "--fail-on=note"}, stdin: drawRows(t, r)}
	case 7, 8, 9:
		for {
			if draft, ok := slipped(t, r, drawPlan(t, r)); ok {
				return asked{args: []string{"check", "-", "--fail-on=note", "--format=" + one([]string{"text", "json"})}, stdin: draft}
			}
		}
	case 10:
		return asked{args: append([]string{"wears", drawPlan(t, r)[0], "--finished=chest=" + strconv.Itoa(56+r.IntN(40)), format}, drawChild(t, r).flags()...)}
	}
	return asked{args: append([]string{"plan", format}, drawPlan(t, r)...)}
}

var answersTo = flag.String("answers", "", "with -run AnswersAreSteady: write the digests of 1,500 answers to this `file`")

// The same question has the same answer, in every byte, whatever was asked before. Two
// builds whose digests are the same answer alike: go run ./.ci/mutate goes by it.
func TestAnswersAreSteady(t *testing.T) {
	n := drawn(60, 1500)
	if *answersTo != "" {
		n = 1500
	}
	r := rand.New(rand.NewPCG(19, 7))
	digests := &strings.Builder{}
	codes := make(map[int]int)
	var questions []asked
	var answers []string
	for range n {
		q := drawQuestion(t, r)
		code, out, stderr := try(t, q.stdin, q.args...)
		codes[code]++
		questions, answers = append(questions, q), append(answers, fmt.Sprint(code, out, stderr))
		fmt.Fprintf(digests, "%x %s\n", sha256.Sum256([]byte(answers[len(answers)-1])), strings.Join(q.args, " "))
	}
	t.Log(codes)
	require.Greater(t, codes[0], n/3)
	if *answersTo != "" {
		require.NoError(t, os.WriteFile(*answersTo, []byte(digests.String()), 0o600))
		return
	}
	for i, q := range slices.Backward(questions) {
		code, out, stderr := try(t, q.stdin, q.args...)
		require.Equal(t, answers[i], fmt.Sprint(code, out, stderr), "%q", q.args)
	}
}
