package sizing

import (
	"fmt"
	"math"
	"strings"
	"time"
)

// Day is how days are written.
const Day = "2006-01-02"

// ParseDate reads a day, 2027-10-15, or a month, 2027-10: its first day, or the last
// where the end of a time is asked for.
func ParseDate(s string, end bool) (time.Time, error) {
	s = strings.TrimSpace(s)
	if d, err := time.Parse(Day, s); err == nil {
		return d, nil
	}
	d, err := time.Parse("2006-01", s)
	if err != nil {
		return d, fmt.Errorf("%q is not a date; want a day or a month, such as 2027-10-15 or 2027-10", s)
	}
	if end {
		d = d.AddDate(0, 1, -1)
	}
	return d, nil
}

// daysPerMonth is the mean length of a month.
const daysPerMonth = 365.25 / 12

// MonthsBetween is the time from one day to another in months, to a hundredth.
func MonthsBetween(from, to time.Time) float64 {
	return math.Round(to.Sub(from).Hours()/24/daysPerMonth*100) / 100
}

// AfterMonths is the day so many months after another.
func AfterMonths(from time.Time, months float64) time.Time {
	return from.AddDate(0, 0, int(math.Round(months*daysPerMonth)))
}

// ParseMonths reads a time: 9m, 18 months, 1y, 1y6m or 1.5 years.
func ParseMonths(s string) (float64, error) {
	years, named, err := readAge(s, nil)
	if err != nil || len(named) == 0 || !(years > 0) {
		return 0, fmt.Errorf("%q is not a time; write 9m, 18 months or 1y6m", s)
	}
	return math.Round(years*1200) / 100, nil
}

// setDates takes the age from the day of birth and the day of measuring.
func (c *Child) setDates() error {
	if c.Born.IsZero() || c.Measured.IsZero() {
		return nil
	}
	if c.Measured.Before(c.Born) {
		return fmt.Errorf("measured on %s, before the child was born on %s", c.Measured.Format(Day), c.Born.Format(Day))
	}
	c.AgeYears = c.Measured.Sub(c.Born).Hours() / 24 / 365.25
	if c.AgeYears > MostYears {
		return fmt.Errorf("born on %s, and measured more than %d years later, on %s", c.Born.Format(Day), MostYears, c.Measured.Format(Day))
	}
	return nil
}
