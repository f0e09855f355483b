package sizing

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// MostYears is the age of the oldest children. More is read as an age too, and is in
// doubt: months may be taken for years.
const MostYears = 20

const mostYearsRead = 12 * MostYears

// An ageUnit is what an age is written in.
type ageUnit struct {
	name     string
	perYear  float64
	smaller  string  // unit of what follows: 4y6
	smallest float64 // and how many of those are one
}

var ageUnits = map[string]*ageUnit{
	"years":  {"years", 1, "months", 12},
	"months": {"months", 12, "weeks", 5},
	"weeks":  {"weeks", 365.25 / 7, "days", 7},
	"days":   {"days", 365.25, "", 0},
}

var ageUnitNames = map[string]string{
	"y": "years", "yr": "years", "yrs": "years", "year": "years", "years": "years", "yo": "years", "y.o": "years",
	"years old": "years", "year old": "years", "year-old": "years", "years-old": "years", "yrs old": "years",
	"m": "months", "mo": "months", "mos": "months", "mth": "months", "mths": "months", "mon": "months", "month": "months", "months": "months", "months old": "months",
	"w": "weeks", "wk": "weeks", "wks": "weeks", "week": "weeks", "weeks": "weeks", "weeks old": "weeks",
	"d": "days", "day": "days", "days": "days",
}

func ageUnitNamed(word string) *ageUnit {
	return ageUnits[ageUnitNames[strings.TrimSuffix(strings.ToLower(word), ".")]]
}

// parseAge reads an age in years from 4.5, 4½, 4y6m, 4 yrs 6 mo, 4;6 or 30m. A number
// without a unit takes the one beside it, which may not be another one than the age
// names.
func parseAge(s, unit string) (float64, error) {
	beside := ageUnitNamed(unit)
	if unit != "" && beside == nil {
		return 0, fmt.Errorf("age unit %.80q is not years or months", unit)
	}
	years, named, err := readAge(s, beside)
	switch {
	case err != nil:
		meant := likeliest(s, func(t string) bool {
			years, _, err := readAge(t, beside)
			return err == nil && years > 0 && years <= MostYears
		})
		return 0, fmt.Errorf("age %w", &UnreadError{s, "an age", meant, "4.5, 4y6m or 30m"})
	case beside != nil && len(named) > 0 && !slices.Contains(named, beside.name):
		return 0, fmt.Errorf("age %w", &BesideError{s, named[0], beside.name})
	case !(years > 0):
		return 0, fmt.Errorf("age %.80q is not above 0", s)
	case years > mostYearsRead:
		return 0, fmt.Errorf("age %.80q is not between 0 and %d years", s, MostYears)
	}
	return years, nil
}

// readAge adds up what an age consists of, and names its units.
func readAge(s string, beside *ageUnit) (years float64, named []string, err error) {
	parts, negative, err := readFigures(s)
	if err != nil {
		return 0, nil, err
	}
	var before *ageUnit
	for i, p := range parts {
		u := ageUnitNamed(p.word)
		switch {
		case (p.word == ";" || p.word == ":") && len(parts) == 2 && parts[1].value == math.Trunc(parts[1].value):
			u = ageUnits["years"] // 4;6
		case p.word == "" && before != nil:
			u = ageUnits[before.smaller]
		case p.word == "" && beside != nil:
			u = beside
		case p.word == "":
			u = ageUnits["years"]
		}
		if u == nil || before != nil && (u.perYear <= before.perYear || before.smaller == u.name && p.value >= before.smallest || parts[i-1].value != math.Trunc(parts[i-1].value)) {
			return 0, nil, errNoNumber
		}
		if p.word != "" || before != nil {
			named = append(named, u.name)
		}
		years += p.value / u.perYear
		before = u
	}
	if negative {
		years = -years
	}
	return years, named, nil
}
