package tell

import (
	"strconv"
	"strings"

	"growtuck/sizing"
)

// ChildLine says who the child is, or "" where nothing is known.
func ChildLine(c sizing.Child) string {
	var parts []string
	if c.Name != "" {
		parts = append(parts, c.Name)
	}
	switch c.Sex {
	case sizing.Boy:
		parts = append(parts, "boy")
	case sizing.Girl:
		parts = append(parts, "girl")
	}
	if c.AgeYears > 0 {
		parts = append(parts, ageWords(int(c.AgeYears*12+0.5)))
	}
	return strings.Join(parts, ", ")
}

// ageWords is an age in full months: "9 months", "4 years", "1 year 1 month".
func ageWords(months int) string {
	years, rest := counted(strconv.Itoa(months/12), float64(months/12), "years"), counted(strconv.Itoa(months%12), float64(months%12), "months")
	switch {
	case months < 12:
		return rest
	case months%12 == 0:
		return years
	}
	return years + " " + rest
}

// A childRecord is a child as JSON shows it.
type childRecord struct {
	Name string   `json:"name" doc:"name of the child; empty where it is not given"`
	Sex  string   `json:"sex" doc:"m, f or both"`
	Age  *float64 `json:"age_years" doc:"age in years; null where it is not known"`
}

func newChildRecord(c sizing.Child) childRecord {
	r := childRecord{Name: c.Name, Sex: string(c.Sex)}
	if c.AgeYears > 0 {
		r.Age = &c.AgeYears
	}
	return r
}
