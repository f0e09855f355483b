package validate

import (
	"io/fs"
	"math"
	"regexp"
	"strings"
	"sync"

	"growtuck/data"
	"growtuck/sizing"
)

// checkUsed reports rows of the small tables that nothing needs.
func (ts *tableSet) checkUsed(s *bodySet) {
	cited := make(map[string]bool)
	for _, form := range ts.forms {
		if i := form.index("source"); i >= 0 {
			for _, line := range ts.rows[form.name] {
				cited[line.cells[i]] = true
			}
			for text := range form.columns[i].words { // of body.csv
				cited[text] = true
			}
		}
	}
	measured := make(map[string]bool)
	sized, filled := make(map[string]bool), make(map[string]bool)
	sizes := make(map[int]bool)
	for i := range s.records {
		k := s.records[i].key
		sizes[k.size()] = true
		measured[ts.t.Measurements[k.measurement()].ID] = true
		filled[ts.t.Charts[k.chart()].ID] = true
	}
	derived := make(map[string]bool)
	for _, d := range ts.t.Derivations {
		measured[d.Measurement] = true
		derived[d.Chart], filled[d.Chart] = true, true
	}
	made := make(map[string]bool)
	for _, p := range ts.t.Parts {
		made[p.Garment], measured[p.Measurement] = true, true
	}
	unused := func(table string, line int, subject string, found sizing.Fact) {
		at := rowAt{ts: ts, rule: "R46", table: table, line: line, subject: subject}
		at.to(sizing.NewFact("rows.remove-or-use", at.remove())).suspect("id", found, sizing.Fact{})
	}
	for _, r := range ts.t.Sources {
		if !cited[r.ID] {
			unused("sources.csv", r.Line, r.ID, sizing.NewFact("rows.source-uncited"))
		}
	}
	for _, r := range ts.t.Measurements {
		if !measured[r.ID] {
			unused("measurements.csv", r.Line, r.ID, sizing.NewFact("rows.measurement-unused"))
		}
	}
	for i, r := range ts.t.Sizes {
		sized[r.Chart] = true
		if !sizes[i] && !derived[r.Chart] {
			unused("sizes.csv", r.Line, r.Chart+" "+r.Size, sizing.NewFact("rows.size-empty"))
		}
	}
	for _, r := range ts.t.Charts {
		if !sized[r.ID] || !filled[r.ID] {
			unused("charts.csv", r.Line, r.ID, sizing.NewFact("rows.chart-empty"))
		}
	}
	for _, r := range ts.t.Garments {
		if !made[r.ID] {
			unused("garments.csv", r.Line, r.ID, sizing.NewFact("rows.garment-empty"))
		}
	}
	ts.checkGroups()
}

// checkGroups checks that each garment finds ease for most of its parts, which
// it does not if it is in a wrong group, and that opening and parts agree.
func (ts *tableSet) checkGroups() {
	eased := make(map[[2]string]bool)
	for _, e := range ts.t.Ease {
		eased[[2]string{e.Garment, e.Measurement}] = true
	}
	adjusted := make(map[[2]string]bool)
	for _, l := range ts.t.Lengths {
		adjusted[[2]string{l.Garment, l.Part}] = true
	}
	for _, g := range ts.t.Garments {
		opens := false
		for _, p := range ts.t.Parts {
			if p.Garment != g.ID {
				continue
			}
			opens = opens || p.Part == "front_opening"
			if !eased[[2]string{g.ID, p.Measurement}] && !eased[[2]string{g.Group, p.Measurement}] && !adjusted[[2]string{g.ID, p.Part}] && p.Measurement != "sock_height" {
				at := rowAt{ts: ts, rule: "R46", table: "parts.csv", line: p.Line, subject: g.ID + " " + p.Part}
				at.suspect("measurement", sizing.NewFact("rows.no-ease", g.ID, g.Group), sizing.NewFact("rows.ease-or-length"))
			}
		}
		if opens != (g.Opening == "front") {
			at := rowAt{ts: ts, rule: "R46", table: "garments.csv", line: g.Line, subject: g.ID}
			want := "none"
			if opens {
				want = "front"
			}
			at.to(doCell(at.set("opening", want))).suspect("opening", sizing.NewFact("rows.opening", g.Opening), sizing.NewFact("rows.opening-wanted"))
		}
	}
}

var plainReading = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^([a-z][a-z0-9-]*)\.([a-z][a-z0-9_]*)(@[a-z0-9._-]+)?$`)
})

// checkFormulas works the derived columns out, and runs the rules of sense
// over what they give. Columns read from another chart unchanged have been
// checked there.
func (ts *tableSet) checkFormulas(fsys fs.FS) {
	t, err := data.Load(fsys)
	var ref *sizing.Reference
	if err == nil {
		ref, err = sizing.New(t)
	}
	if err != nil {
		f := Finding{Rule: "R40", Severity: Stop, File: "derivations.csv", Found: sizing.Text(err.Error())}
		if e, ok := err.(*data.Error); ok {
			f = ts.at("R40", Stop, e.File, e.Line, "formula")
			f.Found = sizing.Text(e.Msg)
		}
		ts.rep.add(f)
		return
	}
	type column struct{ chart, scale, measurement string }
	lines, byMeasure := make(map[column]int), make(map[column]bool)
	for _, d := range t.Derivations {
		m := plainReading().FindStringSubmatch(d.Formula)
		if d.Basis == "read" && (m == nil || m[2] != d.Measurement) {
			f := ts.at("R40", Warn, "derivations.csv", d.Line, "formula")
			f.Found, f.Expected = sizing.NewFact("rows.not-read", d.Formula, d.Measurement), sizing.NewFact("rows.read-or-derived", d.Measurement)
			ts.rep.add(f)
		}
		if m == nil || m[2] != d.Measurement || m[3] != "" || d.ReachCm != nil {
			lines[column{d.Chart, d.Scale, d.Measurement}] = d.Line
			if strings.Contains(d.Formula, "@") {
				byMeasure[column{d.Chart, d.Scale, d.Measurement}] = true
			}
		}
	}
	pairs, bands := ts.relatedPairs(), ts.ratioBands()
	for _, c := range ref.Charts() {
		for _, run := range c.Runs() {
			for _, z := range run.Sizes {
				place := sizing.Place{Run: run, Position: z.Position}
				ts.checkDerived(place, pairs, bands, func(m string) (int, bool) {
					at := column{c.ID, string(run.Scale), m}
					return lines[at], !byMeasure[at]
				})
			}
		}
	}
}

// checkDerived checks the measurements at a size that line gives a line for.
func (ts *tableSet) checkDerived(p sizing.Place, pairs map[int][]int, bands map[ratioOf][]ratioBand, line func(string) (line int, byHeight bool)) {
	value := func(m int) float64 { return p.Run.Value(ts.t.Measurements[m].ID, p.Position) }
	height, _ := p.Height()
	sex := map[sizing.Sex]int{sizing.Boy: 0, sizing.Girl: 1, sizing.Both: inBoth}[p.Run.Sex]
	for a, m := range ts.t.Measurements {
		v := value(a)
		at, byHeight := line(m.ID)
		if math.IsNaN(v) {
			continue
		}
		suspect := func(line int, found, expected sizing.Fact) {
			at := rowAt{ts, "R40", "derivations.csv", line, derivedName(p, m.ID), sizing.NewFact("rows.look-at-formula")}
			at.suspect("formula", found, expected)
		}
		for _, b := range pairs[a] {
			larger := value(b)
			other, _ := line(ts.t.Measurements[b].ID)
			by := max(at, other)
			if by > 0 && v >= larger {
				suspect(by, sizing.NewFact("rows.derived", sizing.Length(v)), sizing.NewFact("rows.below-derived", sizing.Length(larger), ts.t.Measurements[b].ID))
			}
		}
		if at == 0 || !byHeight { // children of another height have it
			continue
		}
		for _, band := range bands[ratioOf{sex, a}] {
			if r := v / height; height >= band.from && height < band.to && (r < band.low || r > band.high) {
				suspect(at, sizing.NewFact("rows.derived", v), sizing.NewFact("rows.derived-at-height", band.low*height, band.high*height, sizing.Length(height)))
			}
		}
	}
}

// derivedName says which measurement at which size is meant.
func derivedName(p sizing.Place, measurement string) string {
	words := []string{p.Run.Chart.ID, p.Label()}
	if p.Run.Sex != sizing.Both {
		words = append(words, string(p.Run.Sex))
	}
	return strings.Join(append(words, measurement), " ")
}
