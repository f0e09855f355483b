package validate

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"sync"

	"growtuck/data"
	"growtuck/sizing"
)

// cell makes a finding about a cell of the file.
func (s *bodySet) cell(rule string, severity Severity, row *tableRow, column int) Finding {
	return Finding{Rule: rule, Severity: severity, File: s.file, Line: row.line, Column: row.column(column), Subject: bodyNames()[column]}
}

// refer looks up what a cell names. It returns -1, and reports it, if there is
// no such thing.
func (s *bodySet) refer(row *tableRow, column int, known map[string]int, table string) int {
	w := row.words[column]
	if w.id == 0 {
		w.id = -1
		if i, ok := known[w.text]; ok {
			w.id = i + 1
		}
	}
	if w.id > 0 {
		return w.id - 1
	}
	if len(w.faults) == 0 {
		f := s.cell("R07", Stop, row, column)
		f.Found, f.Expected, f.Fix = sizing.NewFact("rows.unknown", w.text, table), oneOfKnown(known), correctOrAdd()
		s.rep.add(f)
	}
	return -1
}

var bodyNames = sync.OnceValue(func() []string { return data.SchemaOf(bodyTable).Names() })

// oneOfKnown lists what there is, where that is not too much to read.
func oneOfKnown(known map[string]int) sizing.Fact {
	if len(known) > 50 {
		return sizing.Fact{}
	}
	names := make([]string, 0, len(known))
	for n := range known {
		names = append(names, n)
	}
	slices.SortFunc(names, func(a, b string) int { return known[a] - known[b] })
	return oneOf(names)
}

func correctOrAdd() sizing.Fact { return sizing.NewFact("rows.correct-or-add") }

func (s *bodySet) referSize(row *tableRow) int {
	chart, w := row.words[atChart].text, row.words[atSize]
	if s.size.chart == chart && s.size.size == w.text && s.sizeAt > 0 {
		return s.sizeAt - 1
	}
	size, ok := s.sizes[sizeName{chart, w.text}]
	if ok {
		s.size, s.sizeAt = sizeName{chart, w.text}, size+1
		return size
	}
	if len(w.faults) == 0 {
		var of []string
		for _, z := range s.t.Sizes {
			if z.Chart == chart && len(of) < 40 {
				of = append(of, z.Size)
			}
		}
		f := s.cell("R07", Stop, row, atSize)
		f.Found, f.Expected, f.Fix = sizing.NewFact("rows.unknown-size", chart, w.text), oneOf(of), correctOrAdd()
		s.rep.add(f)
	}
	return -1
}

// placeholder is what people write when they mean to come back.
var placeholder = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)^(to ?do|tbd|tbc|fixme|n/?a|none|nil|x+|\?+|-+|\.+|unknown|unreviewed|not reviewed|pending|later)\.?$`)
})

// webPage reports a place that is a page of the web, which is not the document.
func webPage(where string) bool {
	where = strings.ToLower(where)
	return strings.Contains(where, "http://") || strings.Contains(where, "https://") || strings.Contains(where, "www.")
}

// checkSaid checks that where and review say something, and that where is a place
// in a document.
func (s *bodySet) checkSaid(row *tableRow) {
	if w := row.words[atWhere]; w.web {
		f := s.cell("R10", Warn, row, atWhere)
		f.Found, f.Expected = sizing.NewFact("rows.web-page", w.text), sizing.NewFact("rows.where")
		s.rep.add(f)
	}
	for _, c := range []int{atWhere, atReview} {
		w := row.words[c]
		if !w.idle {
			continue
		}
		f := s.cell("R10", Warn, row, c)
		f.Found, f.Expected = sizing.NewFact("rows.placeholder", w.text), sizing.NewFact("rows.where")
		if c == atReview {
			f.Expected = sizing.NewFact("rows.review")
		}
		s.rep.add(f)
	}
}

// checkSource checks that basis and source agree.
func (s *bodySet) checkSource(row *tableRow) {
	source, basis := row.words[atSource], row.words[atBasis]
	if source.id <= 0 || len(basis.faults) > 0 {
		return
	}
	edition := s.t.Sources[source.id-1].Edition
	switch {
	case basis.text != "memory" && (edition == "" || edition == "none"):
		f := s.cell("R09", Stop, row, atBasis)
		f.Found, f.Expected = sizing.NewFact("rows.no-document", basis.text, source.text), sizing.NewFact("rows.document-or-memory")
		s.rep.add(f)
	case basis.text == "memory" && source.text != "memory" && row.words[atNote].text == "":
		f := s.cell("R09", Warn, row, atBasis)
		f.Found, f.Fix = sizing.NewFact("rows.remembered", source.text), sizing.NewFact("rows.read-or-note")
		s.rep.add(f)
	default:
		s.checkOwnSource(row)
	}
}

// checkOwnSource asks about a row of a published chart that has another source than
// the chart.
func (s *bodySet) checkOwnSource(row *tableRow) {
	i := row.words[atChart].id - 1
	if i < 0 || row.words[atBasis].text == "memory" || s.t.Charts[i].Source == row.words[atSource].text || (&bodyRecord{note: row.words[atNote].text}).explains("R09") {
		return
	}
	f := s.cell("R09", Warn, row, atSource)
	f.Found, f.Expected, f.Fix = sizing.NewFact("rows.other-source", row.words[atSource].text), sizing.NewFact("rows.source-of-chart", s.t.Charts[i].Source), noteFix("R09")
	s.rep.add(f)
}

// checkUnit checks that a mass is in kg, pounds or ounces and everything else in cm, mm
// or inches, and that it is no more than a body has.
func (s *bodySet) checkUnit(row *tableRow, measurement int) {
	if measurement < 0 || len(row.words[atUnit].faults) > 0 {
		return
	}
	m := &s.t.Measurements[measurement]
	unit := row.words[atUnit].text
	of := slices.Index(bodyUnits, unit)
	if (m.Kind == "mass") == (of >= inKg) {
		if most := math.Floor(mostOfBody / ownUnits[of]); len(row.words[atValue].faults) == 0 && row.words[atValue].number > most {
			row.sound = false
			f := s.cell("R05", Stop, row, atValue)
			f.Found, f.Expected = sizing.NewFact("rows.not-allowed", row.words[atValue].text), sizing.NewFact("rows.at-most", most)
			s.rep.add(f)
		}
		return
	}
	row.sound = false
	f := s.cell("R11", Stop, row, atUnit)
	f.Found, f.Expected = sizing.NewFact("rows.in-unit", m.Name, unit), sizing.NewFact("rows.units", bodyUnits[:inKg])
	if m.Kind == "mass" {
		f.Expected, f.Fix = sizing.NewFact("rows.units", bodyUnits[inKg:]), doCell(row.edit(row.form, s.file, atUnit, bodyUnits[inKg]))
	}
	s.rep.add(f)
}

// mostOfBody is the largest figure of a body, in cm or kg.
const mostOfBody = 300

// countWithin is a count of children as it was once written into the column where.
var countWithin = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`\bn ?= ?([0-9]+)`) })

// checkCount checks that the count of children is a whole number, in its column, and
// there where a statistic was worked out.
func (s *bodySet) checkCount(row *tableRow, k bodyKey) {
	n := row.words[atCount]
	if n.text != "" && n.number == math.Trunc(n.number) {
		return
	}
	f := s.cell("R10", Warn, row, atCount)
	within := countWithin().FindStringSubmatch(row.words[atWhere].text)
	switch {
	case n.number != math.Trunc(n.number):
		f.Rule, f.Found, f.Expected = "R12", sizing.NewFact("rows.children", n.number), sizing.NewFact("rows.whole-number")
	case n.text == "" && within != nil:
		f.Found, f.Fix = sizing.NewFact("rows.count-in-where", within[0]), doCell(row.edit(row.form, s.file, atCount, within[1]))
	case n.text == "" && k.statistic() > inHigh && row.words[atBasis].text == "computed":
		f.Found, f.Expected = sizing.NewFact("rows.no-count", bodyStatistics[k.statistic()]), sizing.NewFact("rows.count")
	default:
		return
	}
	s.rep.add(f)
}

// checkFraction checks that a value has the fractions a source prints.
func (s *bodySet) checkFraction(row *tableRow, k bodyKey) {
	w := row.words[atValue]
	_, places, _ := strings.Cut(w.text, ".")
	var expected sizing.Fact
	switch {
	case k.unit() == inInch && w.number*8 != math.Trunc(w.number*8):
		expected = sizing.NewFact("rows.eighths")
	case k.unit() != inInch && k.statistic() <= inHigh && len(places) > 2:
		expected = sizing.NewFact("rows.two-places")
	case len(places) > 4:
		expected = sizing.NewFact("rows.four-places")
	default:
		return
	}
	f := s.cell("R12", Warn, row, atValue)
	f.Found, f.Expected, f.Fix = sizing.NewFact("rows.written", w.text, bodyUnits[k.unit()]), expected, sizing.NewFact("rows.as-published")
	s.rep.add(f)
}
