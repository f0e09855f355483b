package follow

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
)

// sameAgain is a row that is worked again and again: how often, how it grows, and
// what it comes to.
var sameAgain = regexp.MustCompile(`^The same in every (?:(\d+)(?:st|nd|rd|th) )?(?:row|round) to (\d+)(?: \(on the other side purl, and make the sts purlwise\))?(?:, (\d+) in all)?` +
	`(?:, with 1 st (more|fewer) between the (?:increases|decreases) each time(?:, and 1 more by turns at the (end and at the beginning|beginning and at the end))?)?` +
	`(?:; work the (?:rows|rounds) between even)?: (\d+) (more|fewer) each time — (\d+) ([a-z]+)\.`)

// repeats works the row before again.
func (w *worker) repeats(m []string) error {
	n := numbers(m[1:])
	every, last, times, change := max(1, n[0]), n[1], n[2], n[5]
	if w.lastRow == nil {
		return fmt.Errorf("there is no row to work again")
	}
	if times > 0 && last != w.at+every*(times-1) || times == 0 && every != 1 || last <= w.at {
		return fmt.Errorf("every %d rows from row %d to %d is not %d times", every, w.at, last, times)
	}
	body := flat(w.lastRow)
	for i := 1; w.at < last; i++ {
		for range every - 1 {
			w.worked(w.live)
		}
		if m[4] != "" {
			body = w.grown(body, m[4], m[5], i)
		}
		before := w.live
		wrong := w.wrong
		if every == 1 {
			w.wrong = false
		} else if wrong && w.Craft == Knit && !w.rounds {
			return fmt.Errorf("row %d is a wrong-side row", w.at+1)
		}
		if err := w.through(body, ""); err != nil {
			return fmt.Errorf("time %d: %w", i+1, err)
		}
		w.wrong = !wrong
		if (m[7] == "more") != (w.live > before) || w.live-before != change && before-w.live != change {
			return fmt.Errorf("%d %s each time, from %d to %d stitches", change, m[7], before, w.live)
		}
	}
	return w.counted([]string{"", "", m[8], m[9], ""})
}

// flat is a row without brackets.
func flat(all []piece) []piece {
	var out []piece
	for _, p := range all {
		if p.group == nil {
			out = append(out, p)
			continue
		}
		for range p.times {
			out = append(out, flat(p.group)...)
		}
	}
	return out
}

var somePlain = regexp.MustCompile(`^(k|p|[a-z]+ )(\d+)$`)

// grown is a row with a stitch more, or fewer, between its shapings. In turned rows
// what is before the first and after the last grows by turns.
func (w *worker) grown(row []piece, how, ends string, time int) []piece {
	// Plain stitches and shapings take turns; where none are plain there is nothing.
	word := "k"
	if w.Craft == Crochet {
		word = w.stitch + " "
	}
	var plain []int
	var shaped []piece
	count := 0
	for _, p := range row {
		if m := somePlain.FindStringSubmatch(p.text); m != nil {
			n, _ := strconv.Atoi(m[2])
			count += n
			continue
		}
		plain, shaped = append(plain, count), append(shaped, p)
		count = 0
	}
	plain = append(plain, count)
	by := map[string]int{"more": 1, "fewer": -1}[how]
	for i := range plain {
		first, end := i == 0, i == len(plain)-1
		atEnd := (ends == "end and at the beginning") == (time%2 == 1)
		switch {
		case !first && !end, first && w.rounds, first && !w.rounds && ends != "" && !atEnd, end && !w.rounds && ends != "" && atEnd:
			plain[i] += by
		}
	}
	var out []piece
	for i, n := range plain {
		if n > 0 {
			out = append(out, piece{text: word + strconv.Itoa(n), times: 1})
		}
		if i < len(shaped) {
			out = append(out, shaped[i])
		}
	}
	return slices.Clip(out)
}
