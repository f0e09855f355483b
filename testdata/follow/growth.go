package follow

import (
	"fmt"
	"maps"
	"math"
	"regexp"
	"slices"
	"strconv"
)

// tuck marks the rows that were worked last.
func (w *worker) tuck(n []int) error {
	from := w.at - n[0]
	if from < 1 {
		return fmt.Errorf("a tuck of %d rows after %d: there is no row before it to catch it to", n[0], w.at)
	}
	w.Tucks[w.id] = append(w.Tucks[w.id], Tuck{from, n[0]})
	return w.level(w.counts, from, w.at)
}

// level holds that nothing is shaped from one row to another: only then can one be
// caught to the other, stitch to stitch.
func (w *worker) level(counts []int, from, to int) error {
	for row := from; row <= to; row++ {
		if counts[row-1] != counts[from-1] {
			return fmt.Errorf("rows %d to %d go from %d to %d stitches: they cannot be caught together", from, to, counts[from-1], counts[row-1])
		}
	}
	return nil
}

var turnedWords = regexp.MustCompile(`^Of this edge ([\d.]+) cm are turned (back|in) until they are needed\.( Turn them in before the front edges are worked, which end at the fold\.)?$`)

func (w *worker) turned([]int) error {
	m := turnedWords.FindStringSubmatch(w.line)
	if m == nil {
		return fmt.Errorf("what is turned of the edge cannot be read")
	}
	w.Turned[w.id] = decimal(m[1])
	if m[3] != "" {
		rows := int(math.Round(decimal(m[1]) * w.RibRows / 10))
		w.Held[w.id] = []Tuck{{w.at - rows, rows}}
	}
	return errRest
}

func (w *worker) marked(n []int) error {
	if n[0] != w.live {
		return fmt.Errorf("%d stitches are marked of %d", n[0], w.live)
	}
	w.Marked[w.id] = w.at
	return nil
}

// A growthSentence is one of how room is held or let down; its first group is the
// section.
type growthSentence struct {
	words *regexp.Regexp
	do    func(w *worker, id string, m []string) (length, cm string, err error)
}

var growthSentences = []growthSentence{
	{regexp.MustCompile(`^(.+): fold the tuck to the inside(?: under the waistband)?, (?:row|round) (\d+) on (?:row|round) (\d+), and catch their (\d+) sts together along the threads, one in every (\d+), with a running stitch in a thread of another colour, (?:not drawn tight|loosely, so that the waist still stretches); leave its ends long\. (\d+) (?:rows?|rounds?) lie in the fold, ([\d.]+) cm deep\. With it the (.+) is ([\d.]+) cm\. Take the first two threads out\.$`), (*worker).catch},
	{regexp.MustCompile(`^(.+), (?:row|round)s (\d+) to (\d+): cut the running stitch, pull it out, wash and lay flat: the (.+) is ([\d.]+) cm\.$`), (*worker).free},
	{regexp.MustCompile(`^(.+): turn the last ([\d.]+) cm (?:back to the outside|in and hem the edge down inside, one of its (\d+) sts in every \d+, loosely, in a thread of another colour; leave its ends long)\. So the (.+) is ([\d.]+) cm\.$`), (*worker).turn},
	{regexp.MustCompile(`^(.+): (?:turn it down|pull the hemming thread out, wash and lay flat): the (.+) is ([\d.]+) cm\.$`), (*worker).unturn},
	{regexp.MustCompile(`^(.+): for now it ends below (?:row|round) (\d+), and the (.+) is ([\d.]+) cm\. Keep the yarn for (\d+) (?:rows?|rounds?) more on (\d+) \w+, and the thread in (?:row|round) (\d+)\.$`), (*worker).wait},
	{regexp.MustCompile(`^(.+): undo what is below the thread, (?:take its|join yarn in the first of its) (\d+) [a-z]+(?: on the needle)?, work (\d+) (?:rows?|rounds?) more even, then the edge as before: the (.+) is ([\d.]+) cm\.$`), (*worker).workOn},
	{regexp.MustCompile(`^(.+): leave the hole of row (\d+) for later and button both straps by that of row (\d+): the (.+) is then ([\d.]+) cm; what is longer lies behind the waistband\.$`), (*worker).buttonShorter},
	{regexp.MustCompile(`^(.+): button both straps by the hole of row (\d+) in place of that of row (\d+): the (.+) is ([\d.]+) cm\.$`), (*worker).buttonLonger},
}

var timeWords = regexp.MustCompile(`^It is time when the .+ passes ([\d.]+) cm(?:, .*)?\.$`)

// growth holds room and lets it down again, and measures each length that is said.
func (w *worker) growth(p Pattern) {
	sections := make(map[string]string)
	for _, s := range p.Sections {
		sections[s.Name] = s.ID
	}
	w.name = "growth"
	if len(w.Faults) > 0 {
		return // what is not there cannot be folded
	}
	done := make(map[string]int)
	for _, line := range p.Growth {
		w.line = line
		if timeWords.MatchString(line) {
			continue
		}
		k := slices.IndexFunc(growthSentences, func(s growthSentence) bool { return s.words.MatchString(line) })
		if k < 0 {
			w.fault("it cannot be read")
			return
		}
		if k%2 == 1 && w.Worn == nil { // all is held, the first is let down
			w.Worn = w.Sizes()
		}
		m := growthSentences[k].words.FindStringSubmatch(line)
		id, known := sections[m[1]]
		if !known {
			w.fault("there is no section %q", m[1])
			return
		}
		length, cm, err := growthSentences[k].do(w, id, m)
		if err != nil {
			w.fault("%v", err)
			return
		}
		done[id] += 1 - 2*(k%2)
		if part, ok := p.Lengths[length]; !ok {
			w.fault("there is no length %q", length)
		} else if now := w.Sizes()[part]; math.Abs(now-decimal(cm)) > 0.06 {
			w.fault("the %s is said to be %s cm and is %.2f", length, cm, now)
		}
	}
	for id, n := range done {
		if n != 0 || len(w.Held[id]) > 0 {
			w.fault("%s: not all that is held is let down", id)
		}
	}
	marks := len(w.Turned) + len(w.Marked)
	for _, tucks := range w.Tucks {
		marks += len(tucks)
	}
	if marks > 0 && len(p.Growth) < 2*marks {
		w.fault("%d folds are marked, and only %d lines say what is done with them", marks, len(p.Growth))
	}
}

func count(s string) int {
	n, _ := strconv.Atoi(s)
	return n
}

func (w *worker) catch(id string, m []string) (string, string, error) {
	to, on, sts, rows := count(m[2]), count(m[3]), count(m[4]), count(m[6])
	t := Tuck{on, rows}
	switch counts := w.Counts[id]; {
	case to-on != rows || !slices.Contains(w.Tucks[id], t):
		return "", "", fmt.Errorf("no tuck of rows %d to %d is marked", on+1, to)
	case w.level(counts, on, to) != nil || counts[on-1] != sts:
		return "", "", fmt.Errorf("%d stitches are to be caught, %d are there", sts, counts[on-1])
	case count(m[5]) < 2 || count(m[5]) > sts:
		return "", "", fmt.Errorf("one in every %s of %d", m[5], sts)
	case math.Abs(decimal(m[7])-float64(rows)*5/w.RowsPer10Cm) > 0.051:
		return "", "", fmt.Errorf("%d rows are not folded %s cm deep", rows, m[7])
	}
	w.Held[id] = append(w.Held[id], t)
	return m[8], m[9], nil
}

func (w *worker) free(id string, m []string) (string, string, error) {
	t := Tuck{count(m[2]) - 1, count(m[3]) - count(m[2]) + 1}
	i := slices.Index(w.Held[id], t)
	if i < 0 {
		return "", "", fmt.Errorf("no tuck of rows %s to %s is held", m[2], m[3])
	}
	w.Held[id] = slices.Delete(w.Held[id], i, i+1)
	return m[4], m[5], nil
}

// turn folds rows of an edge away: as many as are that long.
func (w *worker) turn(id string, m []string) (string, string, error) {
	cm := decimal(m[2])
	per := w.RowsPer10Cm
	if ribbed[id] {
		per = w.RibRows
	}
	rows := int(math.Round(cm * per / 10))
	all := len(w.Counts[id])
	switch {
	case w.Turned[id] != cm:
		return "", "", fmt.Errorf("%g cm of the edge are to be turned, not %g", w.Turned[id], cm)
	case rows < 1 || rows >= all || math.Abs(float64(rows)*10/per-cm) > 0.051:
		return "", "", fmt.Errorf("%g cm are no whole rows of the %d there are", cm, all)
	case m[3] != "" && count(m[3]) != w.Counts[id][all-1]:
		return "", "", fmt.Errorf("%s stitches of an edge of %d", m[3], w.Counts[id][all-1])
	}
	w.Held[id] = []Tuck{{all - rows, rows}}
	return m[4], m[5], nil
}

func (w *worker) unturn(id string, m []string) (string, string, error) {
	if len(w.Held[id]) != 1 {
		return "", "", fmt.Errorf("nothing is turned")
	}
	w.Held[id] = nil
	return m[2], m[3], nil
}

func (w *worker) wait(id string, m []string) (string, string, error) {
	counts := w.Counts[id]
	if row := w.Marked[id]; row == 0 || row != count(m[2]) || row != count(m[7]) || row != len(counts) {
		return "", "", fmt.Errorf("row %s is not the last one and marked", m[2])
	}
	if n := counts[len(counts)-1]; n != count(m[6]) {
		return "", "", fmt.Errorf("%s stitches, of %d", m[6], n)
	}
	w.Held[id] = []Tuck{{len(counts), -count(m[5])}}
	return m[3], m[4], nil
}

func (w *worker) workOn(id string, m []string) (string, string, error) {
	rows, counts := count(m[3]), slices.Clone(w.Counts[id])
	if len(w.Held[id]) != 1 || w.Held[id][0].Rows != -rows {
		return "", "", fmt.Errorf("%d rows were not kept", rows)
	}
	n := counts[len(counts)-1]
	if n != count(m[2]) {
		return "", "", fmt.Errorf("%s stitches, of %d", m[2], n)
	}
	for range rows {
		counts = append(counts, n)
	}
	w.Held[id] = nil
	w.Counts = maps.Clone(w.Counts)
	w.Counts[id] = counts
	if !w.closed(id) {
		w.OpenRows += rows
	}
	return m[4], m[5], nil
}

// closed reports a section beside which no front is open.
func (w *worker) closed(id string) bool { return w.Edges.Rows == 0 || !alongFront(id) }

// rowsOf are the rows of a section without those that are held away.
func (w *Work) rowsOf(id string) int {
	n := len(w.Counts[id])
	for _, t := range w.Held[id] {
		n -= max(0, t.Rows)
	}
	return n
}
