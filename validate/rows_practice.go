package validate

import (
	"io/fs"
	"slices"
	"strings"

	"growtuck/data"
	"growtuck/sizing"
)

// practiceBasis is the basis of a figure by its source.
var practiceBasis = map[string]string{"common-practice": "common practice", "memory": "memory", "growtuck": "judgement"}

// farFromBuiltin is how many times the built-in figure another may be, or be
// of it: inches for centimetres are farther.
const farFromBuiltin = 2

// checkPractice checks that the figures of practice are those the program
// uses, all of them, in the units in which it reads them and near those built
// in, and that the lower end of a range is below the upper.
func (ts *tableSet) checkPractice(built fs.FS) error {
	builtin, err := data.Load(built, data.PracticeFile)
	if err != nil {
		return err
	}
	at := func(p data.Practice, column string, found, expected sizing.Fact) {
		rowAt{ts: ts, rule: "R48", table: data.PracticeFile, line: p.Line, subject: p.ID}.suspect(column, found, expected)
	}
	rows := ts.t.Practice
	byID := placesOf(rows, func(p data.Practice) string { return p.ID })
	used := placesOf(builtin.Practice, func(p data.Practice) string { return p.ID })
	for _, p := range rows {
		if i, ok := used[p.ID]; ok {
			switch b := builtin.Practice[i]; {
			case b.Unit != p.Unit:
				at(p, "unit", sizing.NewFact("rows.unit", p.Unit), sizing.NewFact("rows.unit-read", b.Unit))
			case p.Value < b.Value/farFromBuiltin || p.Value > b.Value*farFromBuiltin:
				at(p, "value", value(p.Value, p.Unit), sizing.NewFact("rows.near-builtin", b.Value))
			}
		} else if !listed(builtin.Practice, p.ID) {
			at(p, "id", sizing.NewFact("rows.practice-unused"), sizing.NewFact("rows.practice-used"))
		}
		if b, ok := practiceBasis[p.Source]; ok && p.Basis != b {
			at(p, "basis", sizing.NewFact("rows.basis-of-source", p.Basis, p.Source), sizing.NewFact("rows.basis", b))
		}
		if low, ok := strings.CutSuffix(p.ID, "_low"); ok {
			if high, ok := byID[low+"_high"]; ok && rows[high].Unit == p.Unit && rows[high].Value <= p.Value {
				at(p, "value", sizing.NewFact("rows.value", p.Value), sizing.NewFact("rows.below-that", rows[high].Value, low+"_high"))
			}
		}
	}
	for _, b := range builtin.Practice {
		if _, ok := byID[b.ID]; !ok && !listed(builtin.Practice, b.ID) {
			at(data.Practice{ID: b.ID}, "id", sizing.NewFact("rows.no-row"), sizing.NewFact("rows.builtin-used", amount(b.Value, b.Unit)))
		}
	}
	return nil
}

// listed reports whether an id is of a list, such as stocked_zipper_5, of which
// there may be more or fewer rows.
func listed(rows []data.Practice, id string) bool {
	i := strings.LastIndexByte(id, '_')
	if i < 0 || strings.Trim(id[i+1:], "0123456789") != "" {
		return false
	}
	return slices.ContainsFunc(rows, func(p data.Practice) bool {
		n, ok := strings.CutPrefix(p.ID, id[:i+1])
		return ok && strings.Trim(n, "0123456789") == ""
	})
}
