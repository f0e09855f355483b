package ask

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"growtuck/sizing"
)

// mostMonths is the longest growth room, and how far ahead a garment is made.
const mostMonths = 24

// measuredOn is the day from which the child grows: that of measuring, or today.
func (r *Request) measuredOn() (time.Time, error) {
	if r.Child.Measured.IsZero() {
		if err := r.ref.Set(&r.Child, "measured", time.Now().Format(sizing.Day), ""); err != nil {
			return time.Time{}, err
		}
	}
	return r.Child.Measured, nil
}

// monthsTo is the time from measuring to a date, or as it was said.
func (r *Request) monthsTo(text string, end bool) (float64, error) {
	if months, err := sizing.ParseMonths(text); err == nil && !end {
		return months, nil
	}
	day, err := sizing.ParseDate(text, end)
	if err != nil {
		if end {
			return 0, err
		}
		return 0, fmt.Errorf("%q is neither a date nor a time; want 2027-10, 2027-10-15 or 5m", text)
	}
	from, err := r.measuredOn()
	if err != nil {
		return 0, err
	}
	sameMonth := len(strings.TrimSpace(text)) == len("2006-01") && day.Year() == from.Year() && day.Month() == from.Month()
	if day.Before(from) && !sameMonth {
		return 0, fmt.Errorf("%s is before %s, when the child was measured", day.Format(sizing.Day), from.Format(sizing.Day))
	}
	return max(sizing.MonthsBetween(from, day), 0), nil
}

// setWear reads when the garment is first worn.
func (r *Request) setWear(texts []string) error {
	months, err := r.monthsTo(texts[0], false)
	if err == nil && months > mostMonths {
		err = fmt.Errorf("%g months ahead; want at most %d", months, mostMonths)
	}
	if err == nil {
		r.Spec.Wear = months
	}
	return err
}

// setUntil reads until when there is growth room.
func (r *Request) setUntil(texts []string) error {
	months, err := r.monthsTo(texts[0], true)
	if err != nil {
		return err
	}
	switch room := months - r.Spec.Wear; {
	case room < 0:
		return errors.New("until is before the garment is first worn")
	default:
		return r.setRoom(room)
	}
}

// setGrow reads for how long there is growth room.
func (r *Request) setGrow(texts []string) error {
	months, err := sizing.ParseMonths(texts[0])
	if err != nil {
		return err
	}
	return r.setRoom(months)
}

func (r *Request) setRoom(months float64) error {
	if months > mostMonths {
		return fmt.Errorf("growth room for %.3g months; want at most %d: what fits longer hangs too large now", months, mostMonths)
	}
	r.Spec.Seasons = neat(months / 6)
	return nil
}
