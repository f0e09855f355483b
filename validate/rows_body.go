package validate

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"growtuck/data"
)

// Sexes, statistics and units, in the canonical order of rows.
var (
	bodySexes      = []string{"m", "f", "both"}
	bodyStatistics = []string{"given", "low", "high", "p5", "p25", "p50", "p75", "p95"}
	bodyUnits      = []string{"cm", "in", "kg"}
)

const (
	inGiven, inLow, inHigh           = 0, 1, 2
	inP5, inP25, inP50, inP75, inP95 = 3, 4, 5, 6, 7
	inCm, inInch, inKg               = 0, 1, 2
	inBoth                           = 2
)

// A bodyKey is the key of a body row, packed so that keys in order are rows in
// canonical order: chart 16 bits, size 24, sex 2, measurement 14, statistic 4,
// unit 2. Chart, size and measurement are places in their tables.
type bodyKey uint64

const (
	maxCharts       = 1 << 16
	maxSizes        = 1 << 24
	maxMeasurements = 1 << 14
)

func newBodyKey(chart, size, sex, measurement, statistic, unit int) bodyKey {
	return bodyKey(chart)<<46 | bodyKey(size)<<22 | bodyKey(sex)<<20 | bodyKey(measurement)<<6 | bodyKey(statistic)<<2 | bodyKey(unit)
}

func (k bodyKey) chart() int       { return int(k >> 46) }
func (k bodyKey) size() int        { return int(k >> 22 & (maxSizes - 1)) }
func (k bodyKey) sex() int         { return int(k >> 20 & 3) }
func (k bodyKey) measurement() int { return int(k >> 6 & (maxMeasurements - 1)) }
func (k bodyKey) statistic() int   { return int(k >> 2 & 15) }
func (k bodyKey) unit() int        { return int(k & 3) }

func (k bodyKey) withSize(size int) bodyKey { return k&^((maxSizes-1)<<22) | bodyKey(size)<<22 }
func (k bodyKey) withSex(sex int) bodyKey   { return k&^(3<<20) | bodyKey(sex)<<20 }
func (k bodyKey) withMeasurement(m int) bodyKey {
	return k&^((maxMeasurements-1)<<6) | bodyKey(m)<<6
}
func (k bodyKey) withStatistic(s int) bodyKey { return k&^(15<<2) | bodyKey(s)<<2 }
func (k bodyKey) withUnit(u int) bodyKey      { return k&^3 | bodyKey(u) }

// A bodyRecord is what is kept of a body row.
type bodyRecord struct {
	key   bodyKey
	value float64
	note  string
	line  int32
	fresh bool // in the file that is being checked, and new or changed
	mine  bool // in the file that is being checked
}

// cm is the value in cm, or in kg for a mass.
func (b *bodyRecord) cm() float64 {
	if b.key.unit() == inInch {
		return b.value * 2.54
	}
	return b.value
}

// A bodySet is all body rows: those of the file, over those of the tables as
// they stand.
type bodySet struct {
	*tableIndex
	file    string
	rep     *rowReport
	records []bodyRecord
	at      map[bodyKey]int32
	was     map[bodyKey]float64 // values that the file changes

	last      bodyKey // of the row before
	lastLine  int
	disorder  int
	disorderA int
	disorderB int
}

// Columns of a body row.
const (
	atChart = iota
	atSize
	atSex
	atMeasurement
	atStatistic
	atValue
	atUnit
	atSource
	atWhere
	atBasis
	atReview
	atNote
)

func newBodySet(ix *tableIndex, file string, rep *rowReport) *bodySet {
	return &bodySet{tableIndex: ix, file: file, rep: rep, at: make(map[bodyKey]int32), was: make(map[bodyKey]float64)}
}

// standing adds the rows of the tables as they stand, over which a proposal is
// laid.
func (s *bodySet) standing(rows []data.Body) {
	for _, b := range rows {
		size, ok := s.sizes[sizeName{b.Chart, b.Size}]
		chart, ok2 := s.charts[b.Chart]
		m, ok3 := s.measurements[b.Measurement]
		sex, stat, unit := slices.Index(bodySexes, b.Sex), slices.Index(bodyStatistics, b.Statistic), slices.Index(bodyUnits, b.Unit)
		if !ok || !ok2 || !ok3 || sex < 0 || stat < 0 || unit < 0 {
			continue // tables that have not passed their own check
		}
		k := newBodyKey(chart, size, sex, m, stat, unit)
		if _, dup := s.at[k]; !dup {
			s.at[k] = int32(len(s.records))
			s.records = append(s.records, bodyRecord{key: k, value: b.Value, note: b.Note, line: int32(b.Line)})
		}
	}
}

// add takes a row of the file in.
func (s *bodySet) add(row *tableRow) {
	s.checkSaid(row)
	chart := s.refer(row, atChart, s.charts, "charts.csv")
	measurement := s.refer(row, atMeasurement, s.measurements, "measurements.csv")
	s.refer(row, atSource, s.sources, "sources.csv")
	size := -1
	if chart >= 0 {
		size = s.referSize(row)
	}
	s.checkSource(row)
	s.checkUnit(row, measurement)
	if !row.sound || chart < 0 || measurement < 0 || size < 0 {
		return
	}
	k := newBodyKey(chart, size, enumID(row.words[atSex], bodySexes), measurement,
		enumID(row.words[atStatistic], bodyStatistics), enumID(row.words[atUnit], bodyUnits))
	s.checkOrder(row, k)
	s.checkFraction(row, k)
	b := bodyRecord{key: k, value: row.words[atValue].number, line: int32(row.line), fresh: true, mine: true}
	if n := row.words[atNote].text; n != "" {
		b.note = strings.Clone(n)
	}
	i, known := s.at[k]
	switch {
	case !known:
		s.at[k] = int32(len(s.records))
		s.records = append(s.records, b)
	case s.records[i].mine:
		f := s.finding("R06", Stop, &b)
		f.Found = fmt.Sprintf("the row is already on line %d, with %s", s.records[i].line, s.show(&s.records[i]))
		if s.records[i].value == b.value {
			f.Fix = "take one away"
		} else {
			f.Fix = "keep the one that the source has"
		}
		s.rep.add(f)
	default:
		old := s.records[i]
		b.fresh = old.value != b.value
		s.records[i] = b
		if b.fresh {
			s.was[k] = old.value
			s.checkChange(&old, &s.records[i])
		}
	}
}

// enumID returns the place of a word in a list that its column is held to.
func enumID(w *tableWord, list []string) int {
	if w.id == 0 {
		w.id = slices.Index(list, w.text) + 1
	}
	return w.id - 1
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
		s.rep.add(Finding{Rule: "R07", Severity: Stop, File: s.file, Line: row.line, Column: row.column(column), Subject: bodyNames[column],
			Found: fmt.Sprintf("%q is not in %s", w.text, table), Expected: oneOfKnown(known), Fix: "correct it, or add it there first"})
	}
	return -1
}

var bodyNames = []string{"chart", "size", "sex", "measurement", "statistic", "value", "unit", "source", "where", "basis", "review", "note"}

func oneOfKnown(known map[string]int) string {
	if len(known) > 50 {
		return ""
	}
	names := make([]string, 0, len(known))
	for n := range known {
		names = append(names, n)
	}
	slices.SortFunc(names, func(a, b string) int { return known[a] - known[b] })
	return "one of " + strings.Join(names, ", ")
}

func (s *bodySet) referSize(row *tableRow) int {
	w := row.words[atSize]
	size, ok := s.sizes[sizeName{row.words[atChart].text, w.text}]
	if ok {
		return size
	}
	if len(w.faults) == 0 {
		var of []string
		for _, z := range s.t.Sizes {
			if z.Chart == row.words[atChart].text {
				of = append(of, z.Size)
			}
		}
		s.rep.add(Finding{Rule: "R07", Severity: Stop, File: s.file, Line: row.line, Column: row.column(atSize), Subject: "size",
			Found:    fmt.Sprintf("chart %s has no size %q in sizes.csv", row.words[atChart].text, w.text),
			Expected: "one of " + strings.Join(of[:min(len(of), 40)], ", "), Fix: "correct it, or add it there first"})
	}
	return -1
}

// placeholder is what people write when they mean to come back.
var placeholder = regexp.MustCompile(`(?i)^(to ?do|tbd|tbc|fixme|n/?a|none|nil|x+|\?+|-+|\.+|unknown|unreviewed|not reviewed|pending|later)\.?$`)

// checkSaid checks that where and review say something.
func (s *bodySet) checkSaid(row *tableRow) {
	for _, c := range []int{atWhere, atReview} {
		w := row.words[c]
		if !w.idle {
			continue
		}
		f := Finding{Rule: "R10", Severity: Warn, File: s.file, Line: row.line, Column: row.column(c), Subject: bodyNames[c],
			Found: fmt.Sprintf("%q says nothing", w.text), Expected: "page, table or count of children"}
		if c == atReview {
			f.Expected = "how the value was confirmed: who read the source twice, or what agrees with it"
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
	f := Finding{Rule: "R09", Severity: Stop, File: s.file, Line: row.line, Column: row.column(atBasis), Subject: "basis"}
	switch {
	case basis.text != "memory" && (edition == "" || edition == "none"):
		f.Found = fmt.Sprintf("%s, but source %s is no document: it has no edition", basis.text, source.text)
		f.Expected = "a source that can be read, or basis memory"
	case basis.text == "memory" && source.text != "memory" && row.words[atNote].text == "":
		f.Severity, f.Found = Warn, fmt.Sprintf("memory, but source %s is a document", source.text)
		f.Fix = "read the value there, or say in note why it was not"
	default:
		return
	}
	s.rep.add(f)
}

// checkUnit checks that a mass is in kg and everything else in cm or inches.
func (s *bodySet) checkUnit(row *tableRow, measurement int) {
	if measurement < 0 || len(row.words[atUnit].faults) > 0 {
		return
	}
	m := &s.t.Measurements[measurement]
	unit := row.words[atUnit].text
	if (m.Kind == "mass") == (unit == "kg") {
		return
	}
	want := "cm or in"
	if m.Kind == "mass" {
		want = "kg"
	}
	row.sound = false
	s.rep.add(Finding{Rule: "R11", Severity: Stop, File: s.file, Line: row.line, Column: row.column(atUnit), Subject: "unit",
		Found: fmt.Sprintf("%s in %s", m.Name, unit), Expected: want})
}

// checkOrder notes rows that stand before what they should follow.
func (s *bodySet) checkOrder(row *tableRow, k bodyKey) {
	if s.lastLine > 0 && k < s.last {
		if s.disorder == 0 {
			s.disorderA, s.disorderB = s.lastLine, row.line
		}
		s.disorder++
	}
	s.last, s.lastLine = k, row.line
}

// reportOrder reports rows out of order, once for the file.
func (s *bodySet) reportOrder() {
	if s.disorder > 0 {
		s.rep.add(orderFinding(s.file, s.disorderA, s.disorderB, s.disorder))
	}
}

func orderFinding(file string, before, line, n int) Finding {
	return Finding{Rule: "R08", Severity: Warn, File: file, Line: line, Found: fmt.Sprintf("the row should stand before line %d", before),
		Expected: "rows in the order of the tables they name", By: fmt.Sprintf("%d rows out of order in all", n), Fix: rewriteFix}
}

// checkChange reports a value that was another one before.
func (s *bodySet) checkChange(old, b *bodyRecord) {
	by := b.cm() - old.cm()
	f := s.finding("R29", Warn, b)
	f.Found, f.Expected, f.By = s.show(b)+"; it was "+s.show(old), "", fmt.Sprintf("%+.4g %s", b.value-old.value, bodyUnits[b.key.unit()])
	switch {
	case b.note != "":
		f.Severity, f.Fix = Note, "the note says: "+b.note
	case math.Abs(by) <= 0.5:
		f.Severity, f.Fix = Note, "make sure that the source has it"
	default:
		f.Fix = "say in note what was wrong before"
	}
	s.rep.add(f)
}

// show prints a record's value as its row has it.
func (s *bodySet) show(b *bodyRecord) string {
	return strconv.FormatFloat(b.value, 'g', -1, 64) + " " + bodyUnits[b.key.unit()]
}

// name says which row a key is: "craft 4 chest", with sex and statistic where
// they are not the plain ones.
func (s *bodySet) name(k bodyKey) string {
	z := &s.t.Sizes[k.size()]
	words := []string{z.Chart, z.Size}
	if k.sex() != inBoth {
		words = append(words, bodySexes[k.sex()])
	}
	words = append(words, s.t.Measurements[k.measurement()].ID)
	if k.statistic() != inGiven {
		words = append(words, bodyStatistics[k.statistic()])
	}
	return strings.Join(words, " ")
}

func (s *bodySet) finding(rule string, severity Severity, b *bodyRecord) Finding {
	f := Finding{Rule: rule, Severity: severity, File: bodyTable, Line: int(b.line), Subject: s.name(b.key)}
	if b.mine {
		f.File = s.file
	}
	return f
}

// near returns the record with a key, which is likely to stand beside record i.
func (s *bodySet) near(i int, k bodyKey) *bodyRecord {
	for j := max(i-2, 0); j <= min(i+2, len(s.records)-1); j++ {
		if s.records[j].key == k {
			return &s.records[j]
		}
	}
	return s.find(k)
}

// find returns the record with a key, nil if there is none.
func (s *bodySet) find(k bodyKey) *bodyRecord {
	if i, ok := s.at[k]; ok {
		return &s.records[i]
	}
	return nil
}

// checkFraction checks that a value has the fractions a source prints.
func (s *bodySet) checkFraction(row *tableRow, k bodyKey) {
	w := row.words[atValue]
	_, places, _ := strings.Cut(w.text, ".")
	f := Finding{Rule: "R12", Severity: Warn, File: s.file, Line: row.line, Column: row.column(atValue), Subject: "value", Fix: "write the value as published"}
	switch {
	case k.unit() == inInch && w.number*8 != math.Trunc(w.number*8):
		f.Found, f.Expected = w.text+" in", "eighths of an inch, as 9.75 or 9.125"
	case k.unit() != inInch && k.statistic() <= inHigh && len(places) > 2:
		f.Found, f.Expected = w.text+" "+bodyUnits[k.unit()], "at most two places"
	case len(places) > 4:
		f.Found, f.Expected = w.text+" "+bodyUnits[k.unit()], "at most four places"
	default:
		return
	}
	s.rep.add(f)
}
