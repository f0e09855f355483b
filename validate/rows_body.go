package validate

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"growtuck/data"
	"growtuck/sizing"
)

// A bodyRecord is what is kept of a body row.
type bodyRecord struct {
	key   bodyKey
	value float64
	note  string
	count float64 // of children, 0 where it is not said
	line  int32
	fresh bool // in the file that is being checked, and new or changed
	stale bool // the value is not what it was, and the note still is
	mine  bool // in the file that is being checked
}

// cm is the value in cm, or in kg for a mass.
func (b *bodyRecord) cm() float64 {
	if b.key.unit() == inMm {
		return b.value / 10
	}
	return b.value * ownUnits[b.key.unit()]
}

// amount is the value in its unit, as an argument of a fact.
func (b *bodyRecord) amount() any { return b.amountOf(b.value) }

// fact is the value as it was found.
func (b *bodyRecord) fact() sizing.Fact { return sizing.NewFact("rows.value", b.amount()) }

// amountOf is a figure in the unit of the value.
func (b *bodyRecord) amountOf(v float64) any { return amount(v, bodyUnits[b.key.unit()]) }

// amount is a figure of a table in its unit, as an argument of a fact.
func amount(v float64, unit string) any {
	switch unit {
	case "cm":
		return sizing.Length(v)
	case "kg":
		return sizing.Weight(v)
	}
	return sizing.NewFact("amount", v, unit)
}

// A bodySet is all body rows: those of the file, over those of the tables in use.
type bodySet struct {
	*tableIndex
	file    string
	rep     *rowReport
	records []bodyRecord        // of the file as they are read; settled, all, in order
	current []bodyRecord        // of the tables now in use
	was     map[bodyKey]float64 // values that the file changes

	excess, expected []float64 // of the series being checked

	size      sizeName // of the row before, and one more than its place in the table
	sizeAt    int
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
	atCount
)

func newBodySet(ix *tableIndex, file string, rep *rowReport) *bodySet {
	return &bodySet{tableIndex: ix, file: file, rep: rep, was: make(map[bodyKey]float64)}
}

// standing adds the rows of the tables now in use, over which a proposal is
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
		r := bodyRecord{key: k, value: b.Value, note: b.Note, line: int32(b.Line)}
		if b.N != nil {
			r.count = *b.N
		}
		s.current = append(s.current, r)
	}
	sortRecords(s.current)
	s.current = slices.CompactFunc(s.current, func(a, b bodyRecord) bool { return a.key == b.key })
}

func sortRecords(records []bodyRecord) {
	order := func(a, b bodyRecord) int { return cmp.Compare(a.key, b.key) }
	if !slices.IsSortedFunc(records, order) {
		slices.SortStableFunc(records, order)
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
	s.checkCount(row, k)
	b := bodyRecord{key: k, value: row.words[atValue].number, count: row.words[atCount].number, line: int32(row.line), fresh: true, mine: true}
	if n := row.words[atNote].text; n != "" {
		b.note = strings.Clone(n)
	}
	s.records = append(s.records, b)
}

// settle puts the records of the file in order, reports keys that occur twice,
// and lays the records over those of the tables now in use.
func (s *bodySet) settle() {
	sortRecords(s.records)
	mine := s.records[:0]
	for _, b := range s.records {
		if n := len(mine); n > 0 && mine[n-1].key == b.key {
			s.reportTwice(&mine[n-1], &b)
			continue
		}
		mine = append(mine, b)
	}
	if len(s.current) == 0 {
		s.records = mine
		return
	}
	all := make([]bodyRecord, 0, len(mine)+len(s.current))
	i := 0
	for _, old := range s.current {
		for i < len(mine) && mine[i].key < old.key {
			all = append(all, mine[i])
			i++
		}
		if i == len(mine) || mine[i].key != old.key {
			all = append(all, old)
			continue
		}
		b := mine[i]
		i++
		if b.fresh = old.value != b.value; b.fresh {
			s.was[b.key] = old.value
			b.stale = old.note == b.note
			s.checkChange(&old, &b)
		}
		all = append(all, b)
	}
	s.records = append(all, mine[i:]...)
}

func (s *bodySet) reportTwice(first, b *bodyRecord) {
	f := s.finding("R06", Stop, b)
	f.Found, f.Fix = sizing.NewFact("rows.row-already", int(first.line), first.amount()), sizing.NewFact("rows.keep-published")
	if first.value == b.value {
		f.Fix = doCell(s.removal(b))
	}
	s.rep.add(f)
}

// enumID returns the place of a word in a list that its column is held to.
func enumID(w *tableWord, list []string) int {
	if w.id == 0 {
		w.id = slices.Index(list, w.text) + 1
	}
	return w.id - 1
}

// checkOrder notes rows that come before what they should follow.
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
	return Finding{Rule: "R08", Severity: Warn, File: file, Line: line, Found: sizing.NewFact("rows.belongs-before", before),
		Expected: sizing.NewFact("rows.order"), By: sizing.NewFact("rows.out-of-order", n), Fix: rewriteFix()}
}

// checkChange reports a value that was another one before.
func (s *bodySet) checkChange(old, b *bodyRecord) {
	by := b.cm() - old.cm()
	f := s.finding("R29", Warn, b)
	f.Found = sizing.NewFact("rows.changed", b.amount(), old.amount())
	f.By = sizing.NewFact("rows.change", b.amountOf(b.value-old.value))
	switch {
	case b.explains("R29"):
		f.Severity, f.Fix = Note, noteSays(b.note)
	case math.Abs(by) <= 0.5:
		f.Severity, f.Fix = Note, sizing.NewFact("rows.check-source")
	default:
		f.Fix = sizing.NewFact("rows.explain-change")
	}
	s.rep.add(f)
}

// explains reports whether the record's note names a rule, and is as new as the value.
func (b *bodyRecord) explains(rule string) bool {
	return !b.stale && slices.ContainsFunc(data.NoteParts(b.note), func(p data.NotePart) bool { return slices.Contains(p.Rules, rule) })
}

func noteSays(note string) sizing.Fact { return sizing.NewFact("rows.note-says", data.NoteText(note)) }

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

// find returns the record with a key, nil if there is none.
func (s *bodySet) find(k bodyKey) *bodyRecord { return s.search(0, len(s.records), k) }

// near is find for a key that is likely to be near record i.
func (s *bodySet) near(i int, k bodyKey) *bodyRecord {
	low, high := i, i+1
	if s.records[i].key < k {
		for step := 1; high < len(s.records) && s.records[high-1].key < k; step *= 2 {
			low, high = high, min(high+step, len(s.records))
		}
	} else {
		for step := 1; low > 0 && s.records[low].key > k; step *= 2 {
			low, high = max(low-step, 0), low+1
		}
	}
	return s.search(low, high, k)
}

// search looks in records low to high, not including high.
func (s *bodySet) search(low, high int, k bodyKey) *bodyRecord {
	for low < high {
		middle := int(uint(low+high) / 2)
		if s.records[middle].key < k {
			low = middle + 1
		} else {
			high = middle
		}
	}
	if low < len(s.records) && s.records[low].key == k {
		return &s.records[low]
	}
	return nil
}
