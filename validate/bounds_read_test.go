package validate

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/data"
	"growtuck/sizing"
)

// childTables are the files that a case may name as its child.
var childTables = map[string]string{
	"girl.csv":   "measurement,value,unit\nsex,f,\nage,5,years\nheight,110,cm\nchest,57,cm\n",
	"nobody.csv": "measurement,value,unit\nage,5,years\n",
	"broken.csv": "measurement,value,unit\nheight,x,cm\nchest,y,cm\n",
}

// readOf is what is read of a draft: its faults; or its rows from line 6, as lengths in cm,
// counts and numbers, where they are of a case; and, of "who", who wears it and how.
func readOf(t *testing.T, ref *sizing.Reference, w workedCase) []string {
	t.Helper()
	d, err := ReadDraft(ref, strings.NewReader(w.draft()), "", func(path string) (io.ReadCloser, error) {
		text, ok := childTables[path]
		if !ok {
			return nil, errors.New("no such file")
		}
		return io.NopCloser(strings.NewReader(text)), nil
	})
	if err != nil {
		var faults []string
		for _, f := range problems(err) {
			var at *data.Error
			require.ErrorAs(t, f, &at)
			require.GreaterOrEqual(t, min(at.Line, at.Column), 0)
			faults = append(faults, strings.TrimSpace(strings.TrimPrefix(f.Error(), ":")))
		}
		return faults
	}
	if w.rule == "who" {
		s := d.Spec
		who := fmt.Sprintf("%s, of %.4g years", d.Child.Sex, d.ages)
		if !d.ageFrom.IsZero() {
			who += " " + d.ageFrom.String()
		}
		for _, m := range []string{"chest", "arm_to_underarm"} {
			r, _ := d.Body.Get(m)
			who += fmt.Sprintf(", %s %.4g", m, r.Value)
		}
		return []string{who, fmt.Sprintf("%s %s, gauge %.5g %.5g, seasons %g, first worn %g, nappy %t, options %v, extra %v, ease %v",
			s.Fit, s.Layer, d.Gauge.StitchesPer10Cm, d.Gauge.RowsPer10Cm, s.Seasons, s.Wear, s.Nappy, s.Options, s.Extra, s.Ease)}
	}
	var rows []string
	for _, e := range d.Entries() {
		own := slices.ContainsFunc(w.rows, func(row string) bool { return strings.HasPrefix(row, "body,"+e.Part+",") })
		if e.Line >= 6 && (e.Field != "body" || own) {
			text := fmt.Sprintf("%d:%d %s %s %q %s", e.Line, e.columns[valueCell], e.Field, e.Part, e.Value, e.Unit)
			if e.Cm != 0 {
				text += fmt.Sprintf(", %.5g cm", e.Cm)
			}
			if e.Count != 0 {
				text += fmt.Sprintf(", %d counted", e.Count)
			}
			if e.Number != 0 {
				text += fmt.Sprintf(", number %.5g", e.Number)
			}
			rows = append(rows, strings.TrimSpace(text))
		}
	}
	return rows
}

// TestReadAtItsBounds holds what is read of a draft, and which faults it has, against what is
// worked out by hand.
func TestReadAtItsBounds(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	for _, w := range workedCases(t, "reading.txt") {
		require.Equal(t, w.want, readOf(t, ref, w), "line %d: %s %s %s", w.line, w.rule, w.garment, strings.Join(w.rows, "; "))
	}
}
