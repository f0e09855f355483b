package validate_test

import (
	"fmt"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/testdata/fixture"
	"growtuck/testdata/samples"
	"growtuck/validate"
)

// Each remedy of each rule, followed in the draft that the rule is shown with, leaves
// nothing of the finding. Where counts must add up, it is exact: a stitch before it and a
// stitch past it are wrong.
func TestRemediesAreExact(t *testing.T) {
	ref := samples.Reference(t)
	paths, err := filepath.Glob(filepath.Join("testdata", "rules", "*.txt"))
	require.NoError(t, err)
	cleared, exact := 0, 0
	for _, path := range paths {
		code := strings.TrimSuffix(filepath.Base(path), ".txt")
		f, err := fixture.Read(path, draftFolder)
		require.NoError(t, err)
		for _, found := range ofRule(check(t, ref, f.Bad), code) {
			for _, e := range found.Edits() {
				var to func(more int) string // stitches or rows, or tenths of a cm, past the remedy
				switch value := e.To.(type) {
				case int:
					to = func(more int) string { return strconv.Itoa(value + more) }
				case sizing.Length:
					if e.Unit == "in" {
						value /= sizing.CmPerInch
					}
					to = func(more int) string { return strconv.FormatFloat(float64(value)+float64(more)/10, 'f', 3, 64) }
				default:
					continue
				}
				what := fmt.Sprintf("%s: %s %s,%s from %v to ", code, found.Subject, e.Field, e.Part, e.From)
				left, rows := withValue(f.Bad, e, to(0))
				if rows == 0 || code == "G05" { // a row to add; a zipper is in lengths that shops have
					continue
				}
				require.False(t, stands(t, ref, left, found), what+to(0))
				cleared++
				if code[0] != 'S' || code == "S07" || code == "S15" {
					continue
				}
				exact++
				for _, more := range []int{-1, 1} {
					off, _ := withValue(f.Bad, e, to(more))
					require.True(t, stands(t, ref, off, found), what+to(more))
				}
			}
		}
	}
	require.Greater(t, cleared, 35)
	require.Greater(t, exact, 10)
}

// withValue puts a value into the row that an edit is of.
func withValue(draft string, e validate.Edit, value string) (text string, rows int) {
	lines := strings.Split(draft, "\n")
	for i, line := range lines {
		cells := strings.Split(line, ",")
		if !strings.HasPrefix(line, e.Field+","+e.Part+",") || e.Unit != "" && cells[3] != e.Unit {
			continue
		}
		cells[2] = value
		lines[i] = strings.Join(cells, ",")
		rows++
	}
	return strings.Join(lines, "\n"), rows
}

// stands reports whether as bad a thing of the same rule is said of the same part.
func stands(t *testing.T, ref *sizing.Reference, draft string, of validate.Finding) bool {
	t.Helper()
	for _, f := range ofRule(check(t, ref, draft), of.Rule) {
		if f.Subject == of.Subject && f.Severity >= of.Severity {
			return true
		}
	}
	return false
}
