package follow

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
)

var shapingHead = regexp.MustCompile(`^(Dec|Inc) (row|round)(?: \((RS|WS)\))?: ([^.]*)\. Work it in (?:row|round) (\d+)((?:, then every (?:(?:\d+(?:st|nd|rd|th)) )?(?:row|round) (?:once|twice|\d+ times?))*); work the other (?:rows|rounds) of (\d+)–(\d+) even — (\d+) ([a-z]+)\.`)
var shapingTimes = regexp.MustCompile(`, then every (?:(\d+)(?:st|nd|rd|th) )?(?:row|round) (once|twice|(\d+) times?)`)

// schedule works a row that shapes in some of the rows of a section, and the others
// even.
func (w *worker) schedule(m []string) error {
	w.rounds = m[2] == "round"
	at, _ := strconv.Atoi(m[5])
	shaped := []int{at}
	for _, t := range shapingTimes.FindAllStringSubmatch(m[6], -1) {
		every, times := 1, map[string]int{"once": 1, "twice": 2}[t[2]]
		if t[1] != "" {
			every, _ = strconv.Atoi(t[1])
		}
		if t[3] != "" {
			times, _ = strconv.Atoi(t[3])
		}
		for range times {
			at += every
			shaped = append(shaped, at)
		}
	}
	first, _ := strconv.Atoi(m[7])
	last, _ := strconv.Atoi(m[8])
	if first != w.at+1 || last < at {
		return fmt.Errorf("rows %d to %d, shaped up to %d, follow row %d", first, last, at, w.at)
	}
	if err := w.mirrored(m[4]); err != nil {
		return err
	}
	for w.at < last {
		if !slices.Contains(shaped, w.at+1) {
			w.worked(w.live)
			continue
		}
		if m[3] != "" && w.at > 0 && (m[3] == "WS") != w.wrong {
			return fmt.Errorf("row %d is no %s row", w.at+1, m[3])
		}
		before := w.live
		if err := w.row(m[4], m[3]); err != nil {
			return err
		}
		if (m[1] == "Dec") != (w.live < before) {
			return fmt.Errorf("a %s row from %d to %d stitches", m[1], before, w.live)
		}
	}
	return w.counted([]string{"", "", m[9], m[10], ""})
}
