package plan

import (
	"fmt"
	"math"
	"strings"
	"time"
)

// A Pace says how fast the work goes, and when it should be ready. A zero field was
// not given.
type Pace struct {
	Per10Min  float64   // stitches in ten minutes, counted on the swatch
	HoursADay float64   // that there are for it
	From, By  time.Time // the first day, and the day it should be ready
}

// Day is how a day is written.
const Day = "2006-01-02"

// ParseDay reads a day: 2026-12-24.
func ParseDay(s string) (time.Time, error) {
	d, err := time.Parse(Day, strings.TrimSpace(s))
	if err != nil {
		return d, fmt.Errorf("day %.80q: want year, month and day, such as 2026-12-24", s)
	}
	return d, nil
}

// Check refuses a pace that nobody has, and days that are not in their order.
func (p Pace) Check() error {
	switch {
	case p.Per10Min != 0 && !(p.Per10Min >= 1 && p.Per10Min <= 2000):
		return fmt.Errorf("pace of %g stitches in 10 minutes: want 1 to 2000", p.Per10Min)
	case !(p.HoursADay >= 0 && p.HoursADay <= 24):
		return fmt.Errorf("%g hours a day: want above 0 to 24", p.HoursADay)
	case !p.By.IsZero() && p.By.Before(p.From):
		return fmt.Errorf("ready by %s, and begun on %s: the first day is after the last", p.By.Format(Day), p.From.Format(Day))
	}
	return nil
}

// A Time is how long work takes.
type Time struct {
	Stitches int
	Hours    float64
	Days     int       // at the hours a day; 0 where they are not known
	Ready    time.Time // the last of these days; zero where they or the first day are not known

	DaysLeft int     // from the first day to the one it should be ready, both counted; 0 where one is not known
	ADay     float64 // hours a day that it takes to be ready by then
}

// For is how long a number of stitches takes; nil where the pace is not known.
func (p Pace) For(stitches int) *Time {
	if p.Per10Min == 0 {
		return nil
	}
	t := &Time{Stitches: stitches, Hours: float64(stitches) / p.Per10Min / 6}
	if p.HoursADay > 0 {
		t.Days = max(1, int(math.Ceil(t.Hours/p.HoursADay-1e-9)))
		if !p.From.IsZero() {
			t.Ready = p.From.AddDate(0, 0, t.Days-1)
		}
	}
	if !p.By.IsZero() && !p.From.IsZero() {
		t.DaysLeft = int(p.By.Sub(p.From).Hours()/24) + 1
		t.ADay = t.Hours / float64(t.DaysLeft)
	}
	return t
}

// Late reports work that cannot be ready by the day: at the hours a day there are, or,
// where they are not known, at all.
func (t *Time) Late(p Pace) bool {
	if t.DaysLeft == 0 {
		return false
	}
	if t.Days > 0 {
		return t.Days > t.DaysLeft
	}
	return t.ADay > 24
}

// Stitches are those of the whole work.
func (p *Plan) Stitches() int {
	n := 0
	for _, s := range p.Sections {
		n += s.Stitches()
	}
	return n
}

// Stitches are those of all rows of all copies.
func (s *Section) Stitches() int { return s.worked(s.Rows()) * s.Copies }
