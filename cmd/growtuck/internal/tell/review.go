package tell

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"

	"growtuck/validate"
)

// maxReviewed is how many rows of each table a review sheet shows.
const maxReviewed = 400

// ReviewSheet is a review of proposed rows in Markdown for its reader: each new or
// changed value beside its neighbours, the readings that would move, and the
// findings.
func ReviewSheet(r *validate.Review, findings []validate.Finding) []byte {
	var out bytes.Buffer
	out.Write(Review(r))
	fmt.Fprintf(&out, "\n## Findings: %d\n", len(findings))
	for i, f := range findings {
		if i == 0 {
			out.WriteString("\n")
		}
		fmt.Fprintf(&out, "- %s\n", Printable(Style{}.Line(f)))
	}
	return out.Bytes()
}

// Review is the sheet without the findings.
func Review(r *validate.Review) []byte {
	var out bytes.Buffer
	fmt.Fprintf(&out, "# Review of %s\n\n## New and changed values: %d\n\n", escape(r.File), len(r.Values))
	if n := len(r.Values); n > 0 {
		out.WriteString("The chart would have read: what lies between the other sizes without this row.\n\n")
		ReviewedValues(r.Values[:min(n, maxReviewed)]).markdown(&out)
		andMore(&out, n)
	}
	fmt.Fprintf(&out, "## Readings that move by more than %g cm (or kg): %d\n", validate.MovesFrom, len(r.Moves))
	if n := len(r.Moves); n > 0 {
		out.WriteString("\n")
		ReviewedMoves(r.Moves[:min(n, maxReviewed)]).markdown(&out)
		andMore(&out, n)
	}
	return append(bytes.TrimRight(out.Bytes(), "\n"), '\n')
}

// ReviewedValues shows new and changed values beside their neighbours in the chart.
func ReviewedValues(values []validate.ReviewedValue) Table {
	t := Table{Columns: []Column{{Head: "line", Right: true}, {Head: "chart"}, {Head: "size"}, {Head: "sex"}, {Head: "measurement"},
		{Head: "value", Right: true}, {Head: "was", Right: true}, {Head: "size below", Right: true}, {Head: "size above", Right: true},
		{Head: "the chart would have read", Right: true}, {Head: "off by", Right: true}}}
	for _, v := range values {
		name := v.Measurement
		if v.Statistic != "given" {
			name += " " + v.Statistic
		}
		t.Rows = append(t.Rows, newRow(strconv.Itoa(v.Line), v.Chart, v.Size, v.Sex, name, hundredths(v.Value)+" "+v.Unit, hundredths(v.Was),
			besideSize(v.BelowSize, v.Below), besideSize(v.AboveSize, v.Above), hundredths(v.Between), signedHundredths(v.Value-v.Between)))
	}
	return t
}

// ReviewedMoves shows the readings that would move.
func ReviewedMoves(moves []validate.ReviewedMove) Table {
	t := Table{Columns: []Column{{Head: "chart"}, {Head: "sex"}, {Head: "at", Right: true}, {Head: "measurement"},
		{Head: "before", Right: true}, {Head: "after", Right: true}, {Head: "moved", Right: true}}}
	for _, m := range moves {
		t.Rows = append(t.Rows, newRow(m.Chart, m.Sex, m.Place, m.Measurement,
			hundredths(m.Before), hundredths(m.After)+" "+m.Unit, signedHundredths(m.After-m.Before)))
	}
	return t
}

func andMore(out *bytes.Buffer, n int) {
	if n > maxReviewed {
		fmt.Fprintf(out, "and %d more\n\n", n-maxReviewed)
	}
}

func hundredths(v float64) string {
	if math.IsNaN(v) {
		return "–"
	}
	return strings.TrimSuffix(strings.TrimRight(strconv.FormatFloat(v, 'f', 2, 64), "0"), ".")
}

func signedHundredths(v float64) string {
	if math.IsNaN(v) {
		return "–"
	}
	return minus(fmt.Sprintf("%+.2f", v))
}

func besideSize(size string, v float64) string {
	if size == "" {
		return "–"
	}
	return size + ": " + hundredths(v)
}
