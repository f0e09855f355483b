package follow

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// A Craft is what a pattern is worked in.
type Craft string

// The crafts.
const (
	Crochet Craft = "crochet"
	Knit    Craft = "knit"
)

// A worker has the work in hand.
type worker struct {
	Work
	stitch  string // of the fabric, as it is written; crochet
	turning int    // chains at the beginning of a row
	moves   []move
	said    []said
	begins  []beginning
	several []several

	live    int   // stitches on the work
	markers []int // places between them
	placed  []int // markers that are placed in this row

	held       []int // for sleeves
	neck       int   // stitches that the neck was begun on
	each       int   // stitches for each leg
	bridge     int
	halves     []int // two pieces that are worked one after the other
	back       int   // of a piece that waits for its front
	shoulder   int   // of a back that is begun at its shoulders
	hole       int   // stitches on hold for a thumb, and made over them
	holes      int   // for buttons
	holeSize   int
	closing    int     // stitches between the fronts below their opening
	face       bool    // the face of the hood has its edge
	foot       int     // stitches of a foot while its heel is worked
	sides      bool    // markers at both sides are placed with the next stitches
	lastRow    []piece // that was worked
	fromMiddle bool    // short rows go out from the middle of the back

	// Of the section:
	id, name               string
	line                   string
	at                     int   // rows worked
	counts                 []int // stitches after each
	rounds                 bool
	short                  shortRows
	promised, widened      [2]int // rows, and of them with increases
	shapedRows, lastShaped int
	wrong                  bool // its next row is a wrong-side row
}

var gaugeWords = regexp.MustCompile(`^(?i)(crochet|knit)(?: in ([a-z]+), (US|UK) terms)?, ([\d.]+) stitches and ([\d.]+) rows to (10 cm|4 in)(?:; ribbing, ([\d.]+) stitches and ([\d.]+) rows to (10 cm|4 in))?$`)

// readGauge reads what the pattern is worked in, and how many stitches and rows give
// so many centimetres.
func (w *worker) readGauge(s string) bool {
	m := gaugeWords.FindStringSubmatch(s)
	if m == nil {
		return false
	}
	w.Craft = Craft(strings.ToLower(m[1]))
	w.StitchesPer10Cm, w.RowsPer10Cm = per10Cm(m[4], m[6]), per10Cm(m[5], m[6])
	w.RibStitches, w.RibRows = w.StitchesPer10Cm, w.RowsPer10Cm
	if m[7] != "" {
		w.RibStitches, w.RibRows = per10Cm(m[7], m[9]), per10Cm(m[8], m[9])
	}
	if w.Craft == Knit {
		w.moves = moves("", knitMoves)
		return m[2] == ""
	}
	return w.readStitch(m[2], m[3])
}

func per10Cm(count, over string) float64 {
	n := decimal(count)
	if over == "4 in" {
		return n / 1.016
	}
	return n
}

func (w *worker) fault(format string, args ...any) {
	w.Faults = append(w.Faults, Fault{w.name, w.line, fmt.Sprintf(format, args...)})
}

// section works a section, and holds what its heading says against it.
func (w *worker) section(s Section) {
	w.id, w.name, w.line, w.at, w.counts, w.short = s.ID, s.Name, s.Name, 0, nil, shortRows{}
	w.lastRow, w.fromMiddle = nil, false
	w.promised, w.widened, w.shapedRows, w.lastShaped = [2]int{}, [2]int{}, 0, 0
	w.Begins[s.ID] = w.live
	before := w.live
	for _, line := range s.Lines {
		w.line = line
		if err := w.do(line); err != nil {
			w.fault("%v", err)
			w.live = s.To
			return // one slip is one fault
		}
	}
	w.line = fmt.Sprintf("%d → %d stitches, %d rows", s.From, s.To, s.Rows)
	if w.at != s.Rows {
		w.fault("%d rows are worked", w.at)
	}
	if w.promised[0] > 0 && w.promised != [2]int{w.at, w.shapedRows} {
		w.fault("%d rows with increases in %d are worked, %d in %d are said", w.shapedRows, w.at, w.promised[1], w.promised[0])
	}
	if w.widened[0] > 0 && (w.widened[1] != w.shapedRows || w.lastShaped > w.widened[0]) {
		w.fault("%d rows with increases up to row %d are worked, %d in %d are said", w.shapedRows, w.lastShaped, w.widened[1], w.widened[0])
	}
	if len(w.counts) > 0 {
		if to := w.counts[len(w.counts)-1]; to != s.To {
			w.fault("it ends on %d stitches", to)
		}
		if from := w.counts[0]; s.From != from && s.From != before && s.From != w.Begins[s.ID] {
			w.fault("it begins on %d stitches, from %d", from, before)
		}
	}
	w.Counts[s.ID] = w.counts
	if !w.rounds && alongFront(s.ID) {
		w.OpenRows += w.at
	} else if s.ID == "hem" {
		w.OpenHem = !w.rounds
	} else if s.ID == "back-neck" && w.at > 0 {
		w.OpenRows += w.at - w.Short[s.ID]
	}
	w.live = s.To
}

// alongFront reports sections whose turned rows end at the edges of an open front.
func alongFront(id string) bool {
	return id == "yoke" || id == "front" || strings.HasPrefix(id, "body") || strings.HasPrefix(id, "seat") && id != "seat-back"
}

// do follows a line: one sentence after the other.
func (w *worker) do(line string) error {
	if err := ordinal(line); err != nil {
		return err
	}
	rest := line
	for rest != "" {
		n, err := w.sentence(rest)
		if err != nil {
			return err
		}
		rest = strings.TrimPrefix(rest[n:], " ")
	}
	return nil
}

var rowHead = regexp.MustCompile(`^(Row|Round)(s?) (\d+)(?:–(\d+))?(?: \((RS|WS)\))?(, of each half)?: `)
var countEnd = regexp.MustCompile(`^(.*?) — (\d+) ([a-z]+)(?:: (\d+) ([a-z]+) and the ch)?\.`)

// errRest says that a sentence was the rest of its line.
var errRest = errors.New("the rest of the line")

// sentence follows what a text begins with, and says how long it is.
func (w *worker) sentence(text string) (int, error) {
	for _, s := range w.sentences() {
		if m := s.words.FindStringSubmatch(text); m != nil {
			var numbers []int
			for _, g := range m[1:] {
				n, _ := strconv.Atoi(g)
				numbers = append(numbers, n)
			}
			err := s.do(w, numbers)
			if errors.Is(err, errRest) {
				return len(text), nil
			}
			return len(m[0]), err
		}
	}
	if m := rowHead.FindStringSubmatch(text); m != nil {
		n, err := w.rows(m, text[len(m[0]):])
		return len(m[0]) + n, err
	}
	if after, ok := strings.CutPrefix(text, buttonHead); ok {
		n, err := w.buttonholes(after)
		return len(buttonHead) + n, err
	}
	if m := sameAgain.FindStringSubmatch(text); m != nil {
		return len(m[0]), w.repeats(m)
	}
	if m := shapingHead.FindStringSubmatch(text); m != nil {
		return len(m[0]), w.schedule(m)
	}
	return 0, fmt.Errorf("it cannot be read: %q", text)
}

// rows works the row, or rows, that a sentence names.
func (w *worker) rows(head []string, text string) (int, error) {
	end := countEnd.FindStringSubmatch(text)
	if end == nil {
		return 0, fmt.Errorf("it has no count: %q", text)
	}
	first, last, err := w.named(head)
	if err != nil {
		return 0, err
	}
	if strings.Contains(end[1], ", the heel included") {
		w.live = w.foot
	}
	if done, err := w.severalRows(end[1], last-first+1, head[5]); done || err != nil {
		if err == nil {
			err = w.counted(end)
		}
		return len(end[0]), err
	}
	for range last - first + 1 {
		if err := w.row(end[1], head[5]); err != nil {
			return 0, err
		}
	}
	return len(end[0]), w.counted(end)
}

// named are the rows that a sentence names, which follow those before.
func (w *worker) named(head []string) (first, last int, err error) {
	w.rounds = head[1] == "Round"
	first, _ = strconv.Atoi(head[3])
	last = first
	if head[4] != "" {
		last, _ = strconv.Atoi(head[4])
	}
	switch {
	case first != w.at+1:
		return 0, 0, fmt.Errorf("row %d follows row %d", first, w.at)
	case last < first || (head[2] == "s") != (head[4] != ""):
		return 0, 0, fmt.Errorf("rows %d to %d", first, last)
	}
	return first, last, nil
}

// counted holds a count that is said against the stitches there are.
func (w *worker) counted(end []string) error {
	n, _ := strconv.Atoi(end[2])
	if n != w.live {
		return fmt.Errorf("%d stitches are said, %d are there", n, w.live)
	}
	if !w.noun(end[3]) {
		return fmt.Errorf("%d %s: not the stitch that it is worked in", n, end[3])
	}
	if end[4] != "" {
		worked, _ := strconv.Atoi(end[4])
		made := 0
		for _, u := range w.Underarms {
			made += u
		}
		if worked+made != n {
			return fmt.Errorf("%d worked and %d chains are not %d", worked, made, n)
		}
	}
	return nil
}

// row works one row by its words.
func (w *worker) row(body, side string) error {
	body, err := w.ends(body)
	if err != nil {
		return err
	}
	if begun, ok, err := w.beginning(body); ok {
		if err == nil {
			w.wrong = side == "WS"
			w.worked(begun)
		}
		return err
	}
	all, err := readRow(body)
	if err != nil {
		return err
	}
	w.lastRow = all
	return w.through(all, side)
}

// through works pieces from one end of the stitches to the other.
func (w *worker) through(all []piece, side string) error {
	r := row{w: w, have: w.live, markers: w.markers, flat: !w.rounds}
	r.wrong = w.Craft == Knit && !w.rounds && (side == "WS" || side == "" && w.wrong)
	if side != "" && !w.rounds && w.at > 0 && (side == "WS") != w.wrong {
		return fmt.Errorf("a %s row follows a %s row", side, side)
	}
	if !w.rounds {
		w.wrong = side == "WS" || side == "" && w.wrong
	}
	r.rib = len(all) == 1 && all[0].times == 0 && all[0].group != nil
	w.placed = nil
	if err := r.do(all); err != nil {
		return err
	}
	if err := r.finish(); err != nil {
		return err
	}
	w.markers = r.moved
	if len(w.placed) > 0 {
		w.markers = w.placed
	}
	w.worked(r.made)
	return nil
}

// worked counts a row.
func (w *worker) worked(stitches int) {
	if w.at > 0 && stitches > w.live || w.at == 0 && stitches > w.live && w.promised[0] > 0 {
		w.shapedRows++
		w.lastShaped = w.at + 1
	}
	w.live = stitches
	w.at++
	w.counts = append(w.counts, stitches)
	w.wrong = !w.wrong
}

// mirrored checks a row that shapes at both ends: as many plain stitches before as
// after.
func (w *worker) mirrored(body string) error {
	body, err := w.ends(body)
	if err != nil || !strings.Contains(body, "to the last") {
		return err
	}
	all, err := readRow(body)
	if err != nil {
		return err
	}
	if first, last := all[0].text, all[len(all)-1].text; first != last {
		return fmt.Errorf("%q at one end, %q at the other", first, last)
	}
	return nil
}
