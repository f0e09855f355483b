package data

import (
	"errors"
	"fmt"
	"io/fs"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"time"
)

// changesFile is the change log of the tables. It holds their checksum, so it is
// not part of it.
const changesFile = "changes.csv"

// Change is a row of changes.csv: what an edition of the tables changed in one
// of them. Editions follow one another upwards; every row of an edition has its
// date and checksum. An edition's number rises in its first place where a table,
// column, chart, size, measurement, garment or part is taken away or renamed, or
// a figure means another thing; in its second where something is added, a figure
// of practice changes, or a reading moves by [MovedShown] or more; in its third
// else.
type Change struct {
	Line     int
	Edition  string   `csv:"edition" validate:"required" doc:"Number of the edition: its first place rises where something is taken away, its second where something is added, a figure of practice changes, or a reading moves by a quarter centimetre or more."`
	Date     string   `csv:"date" validate:"required" doc:"Day of the edition, such as 2026-11-25."`
	Checksum string   `csv:"sha256" validate:"required" doc:"SHA-256, in hexadecimal, of what sha256sum prints for all tables but this one in the order of their names."`
	Table    string   `csv:"table" validate:"required" doc:"File that changed, or all."`
	What     string   `csv:"what" validate:"required" doc:"What changed."`
	Why      string   `csv:"why" validate:"required" doc:"Why."`
	MovedCm  *float64 `csv:"moved_cm" validate:"omitempty,gte=0,lte=300" doc:"Largest move of a reading, in cm or kg; empty where none was compared."`
}

// MovedShown is the move of a reading, in cm or kg, from which it can show in
// what is printed: half of the half centimetre that lengths are given in.
const MovedShown = 0.25

// A Step is how much an edition differs from the one before: which place of
// its number rises.
type Step int

const (
	Patch Step = iota
	Minor
	Major
)

func (s Step) String() string { return [...]string{"patch", "minor", "major"}[s] }

// StepFor is the least step for an edition that removes or adds readings, or
// whose readings move by at most moved, in cm or kg.
func StepFor(gone, added int, movedCm float64) Step {
	switch {
	case gone > 0:
		return Major
	case added > 0 || movedCm >= MovedShown:
		return Minor
	}
	return Patch
}

var checksumForm = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[0-9a-f]{64}$`) })

func (r *record) change() Change {
	return Change{r.line(), r.text(), r.text(), r.text(), r.text(), r.text(), r.text(), r.optional()}
}

// Changes reads and checks changes.csv at the root of fsys, oldest first. There
// is at least one. All faults are returned together, each an [*Error].
func Changes(fsys fs.FS, rules RowRules) ([]Change, error) {
	var changes []Change
	l := loader{fsys: fsys, texts: make(map[string]string)}
	if err := readTable(l, changesFile, &changes, (*record).change); err != nil {
		return nil, err
	}
	if len(changes) == 0 {
		return nil, &Error{File: changesFile, Msg: "has no edition in it"}
	}
	c := newChecker(l.texts, rules)
	c.check(SchemaOf(changesFile), reflect.ValueOf(changes))
	for i, r := range changes {
		fail := func(column, format string, args ...any) {
			c.errs = append(c.errs, &Error{changesFile, r.Line, c.column(changesFile, r.Line, column), column + ": " + fmt.Sprintf(format, args...)})
		}
		numbers, ok := editionNumbers(r.Edition)
		if !ok {
			fail("edition", "%.80q is not an edition; want three numbers, such as 1.2.0", r.Edition)
			continue
		}
		if _, err := time.Parse(time.DateOnly, r.Date); err != nil {
			fail("date", "%.80q is not a date; want one such as 2026-11-25", r.Date)
		}
		if !checksumForm().MatchString(r.Checksum) {
			fail("sha256", "%.80q is not a checksum; want 64 digits of 0 to 9 and a to f", r.Checksum)
		}
		if i == 0 {
			continue
		}
		before := changes[i-1]
		if r.Edition == before.Edition {
			if r.Date != before.Date || r.Checksum != before.Checksum {
				fail("edition", "%s has another date or checksum on line %d", r.Edition, before.Line)
			}
			continue
		}
		last, ok := editionNumbers(before.Edition)
		step, follows := stepBetween(last, numbers)
		switch {
		case ok && !follows:
			fail("edition", "%s does not follow %s; want %s", r.Edition, before.Edition, nextEditions(last))
		case r.Date < before.Date:
			fail("date", "%s is before that of %s", r.Date, before.Edition)
		case ok && r.MovedCm != nil && step < StepFor(0, 0, *r.MovedCm):
			fail("moved_cm", "%g cm is a %s edition at least, not a %s one", *r.MovedCm, StepFor(0, 0, *r.MovedCm), step)
		}
	}
	return changes, errors.Join(c.errs...)
}

// editionNumbers reads "1.2.0".
func editionNumbers(s string) (n [3]int, ok bool) {
	parts := strings.Split(s, ".")
	if len(parts) != len(n) {
		return n, false
	}
	for i, p := range parts {
		v, err := strconv.ParseUint(p, 10, 16)
		if err != nil || strconv.FormatUint(v, 10) != p {
			return n, false
		}
		n[i] = int(v)
	}
	return n, true
}

// stepBetween tells which place rises by one; the places after it must be 0.
func stepBetween(a, b [3]int) (Step, bool) {
	for _, step := range []Step{Patch, Minor, Major} {
		if b == nextEdition(a, step) {
			return step, true
		}
	}
	return 0, false
}

func nextEdition(a [3]int, step Step) [3]int {
	switch step {
	case Major:
		return [3]int{a[0] + 1, 0, 0}
	case Minor:
		return [3]int{a[0], a[1] + 1, 0}
	}
	return [3]int{a[0], a[1], a[2] + 1}
}

func nextEditions(a [3]int) string {
	var all []string
	for _, step := range []Step{Patch, Minor, Major} {
		n := nextEdition(a, step)
		all = append(all, fmt.Sprintf("%d.%d.%d", n[0], n[1], n[2]))
	}
	return strings.Join(all, ", ")
}
