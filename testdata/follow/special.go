package follow

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// beginnings are the first rows of pieces that are taken up.
func (w *worker) beginnings() []beginning {
	if w.begins == nil {
		table := knitBeginnings
		if w.Craft == Crochet {
			table = crochetBeginnings
		}
		for _, t := range table {
			words := strings.ReplaceAll(pattern(w.stitch, w.turning, t.words), `\{tch\}`, fmt.Sprintf("(?:ch %d, )?", w.turning))
			w.begins = append(w.begins, beginning{regexp.MustCompile("^" + words + "$"), t.do})
		}
	}
	return w.begins
}

// A beginning is the first row of what is taken up, and what it gives.
type beginning struct {
	words *regexp.Regexp
	do    func(w *worker, n []int) (int, error)
}

type firstRow struct {
	words string
	do    func(w *worker, n []int) (int, error)
}

var crochetBeginnings = []firstRow{
	{"{n} {S} in a magic ring", just},
	{"with RS facing, join yarn at the neck; {tch}{S} {n} round it, in the other side of the foundation chain", (*worker).fromNeck},
	{"with RS facing, join yarn at the neck; {tch}{S} {n} round it, in the lower edge of the first row", (*worker).fromNeck},
	{"with RS facing, join yarn at a shoulder of the back; {tch}{S} {n} in the other side of its chain", (*worker).fromShoulder},
	{"with RS facing, join yarn at the underarm; {tch}{S} {n} evenly round the armhole", just},
	{"with RS facing, join yarn at the underarm; {tch}{S} {n} evenly along the sides of front and back", just},
	{"join yarn; {tch}{S} {n} in the sts left, {n} in the corner, {n} along the other side of the chain and {n} in the other corner", (*worker).thumbOf},
	{"join yarn in the middle of the ch at the underarm; {tch}{S} {n} along the other side of the ch, {S} {n} round the armhole, {S} {n} along the ch", (*worker).sleeve},
	{"join yarn in the middle of the bridge; {tch}{S} {n} along the bridge, {S} {n} of the body, {S} {n} along the bridge", (*worker).leg},
	{"on the {n} at the middle of the back {tch}{S} in each st", just},
	{"with RS facing, join yarn at the right front edge of the neck; {tch}{S} {n} in the other side of the foundation chain; place a marker at the middle of the back", (*worker).hood},
	{"with RS facing, join yarn at the right front edge of the neck; {tch}{S} {n} in the lower edge of the first row; place a marker at the middle of the back", (*worker).hood},
	{"from the middle of the front and in rows from here on, {tch}{S} {n}; place a marker at the middle of the back", (*worker).hoodOn},
}

var knitBeginnings = []firstRow{
	{"with RS facing, pick up and knit {n} round the neck", (*worker).fromNeck},
	{"with RS facing, pick up and knit {n} along a shoulder of the back", (*worker).fromShoulder},
	{"with RS facing, pick up and knit {n} round the armhole on double-pointed needles or for magic loop", just},
	{"with RS facing, pick up and knit {n} along the sides of front and back", just},
	{"with RS facing, from the underarm pick up and knit {n} along the sides of front and back, on double-pointed needles or for magic loop", just},
	{"k{n} from hold, pick up and knit {n} in the corner, {n} along their other side and {n} in the other corner", (*worker).thumbOf},
	{"from the middle of the underarm pick up and knit {n} along it, k{n} from hold, pick up and knit {n}", (*worker).sleeve},
	{"on double-pointed needles or for magic loop, from the middle of the underarm pick up and knit {n} along it, k{n} from hold, pick up and knit {n}", (*worker).sleeve},
	{"from the middle of the bridge k{n} of the bridge, k{n} of the body, k{n} of the bridge", (*worker).leg},
	{"from the middle of the bridge k{n} of the bridge (for the second leg pick up and knit them), k{n} of the body, k{n} of the bridge", (*worker).leg},
	{"on the {n} at the middle of the back work in St st", just},
	{"with RS facing, from the right front edge pick up and knit {n} round the neck; pm at the middle of the back", (*worker).hood},
	{"from the middle of the front and in rows from here on, k{n}; pm at the middle of the back", (*worker).hoodOn},
}

// beginning works a row that makes the first stitches of a piece.
func (w *worker) beginning(body string) (stitches int, ok bool, err error) {
	for _, b := range w.beginnings() {
		m := b.words.FindStringSubmatch(body)
		if m == nil {
			continue
		}
		w.markers = nil
		stitches, err := b.do(w, numbers(m[1:]))
		return stitches, true, err
	}
	return 0, false, nil
}

func numbers(groups []string) []int {
	var n []int
	for _, g := range groups {
		x, _ := strconv.Atoi(g)
		n = append(n, x)
	}
	return n
}

// several are rows that a sentence tells together, though they are not all alike.
type several struct {
	words *regexp.Regexp
	do    func(w *worker, n []int, rows int, m []string) error
}

// severalRows works rows that are told together.
func (w *worker) severalRows(body string, rows int, side string) (bool, error) {
	if w.several == nil {
		for _, t := range []struct {
			words string
			do    func(w *worker, n []int, rows int, m []string) error
		}{
			{`{S} to the end of the row(?:, and foundation {S} on to all of the neck)?(?:; turn)?`, (*worker).toEnd},
			{`{S} to the end(?:, and foundation {S} on to all of the neck)?(?:; join, turn|; join)?`, (*worker).toEnd},
			{`work to the end(?: of the row)?, the double stitches as one`, (*worker).toEnd},
			{`(?:{S} the |k){n} back to the middle of the back(?:; join, turn|; join|; turn)?`, (*worker).toMiddle},
			{`(?:pm|place a marker) after half of the sts; in each {line} (.*)`, (*worker).tip},
			{`(?:pm|place a marker) after half of the sts; in each RS row (.*); purl the others`, (*worker).tipRS},
			{`.*; in the last {n} of them (.*?)(?: \(on WS rows purl and M1p\))?(?:; turn)?`, (*worker).armhole},
			{`.*; in every 2nd of the last {n} of them, on RS rows, (.*)`, (*worker).armhole2},
			{`.*; in every 2nd of the last {n} of them (.*?)(?:; turn)?`, (*worker).armhole2},
			{`.*, the first {n} even; then in every row (?:M1 inside the edge st at|inc in the 2nd st from) the neck edge, {n} times in all(?:; turn)?`, (*worker).neckline},
			{`.*, the first {n} even; then in every {nth} row(?:, on RS rows,)? (?:M1 inside the edge st at|inc in the 2nd st from) the neck edge(?:; turn)?`, (*worker).necklineNth},
			{`in each row leave {n} more unworked before the turn; {n} remain in the middle(?:; turn)?`, (*worker).leave},
			{`in each row leave {n} more unworked before the turn in {n} of the {n} pairs, {n} in the other {n}; {n} remain in the middle(?:; turn)?`, (*worker).leaveUneven},
			{`in each row work that many more before the turn, in the opposite order(?:, the double stitches as one)?(?:; turn)?`, (*worker).takeUp},
			{`with RS facing, (?:join yarn at a front edge; ch \d+, {S}|pick up and knit along each front edge) (.*?)(?:, and {n} along the ribbing)?(?:; turn)?`, (*worker).edge},
			{`with RS facing, (?:join yarn at the neck; ch \d+, {S}|along the face edge pick up and knit) {n} up one side(?: of the face edge)?(?:, {n} along the end of the panel)? and {n} down the other(?: side)?(?:; turn)?`, (*worker).faceEdge},
			{`behind one front edge (?:join yarn; ch \d+, {S}|pick up and knit) {n}(?:; turn)?`, (*worker).behind},
		} {
			words := t.words
			for slot, as := range map[string]string{"n": `(\d+)`, "S": w.stitch, "line": "(?:row|round)", "nth": `(\d+)(?:st|nd|rd|th)`} {
				words = strings.ReplaceAll(words, "{"+slot+"}", as)
			}
			w.several = append(w.several, several{regexp.MustCompile("^" + words + "$"), t.do})
		}
	}
	for _, s := range w.several {
		if m := s.words.FindStringSubmatch(body); m != nil {
			return true, s.do(w, numbers(m[1:]), rows, m[1:])
		}
	}
	return false, nil
}

// tip shapes every row at both sides.
func (w *worker) tip(_ []int, rows int, m []string) error {
	return w.tips(rows, m[0], func() bool { return true })
}

// tipRS shapes every right-side row.
func (w *worker) tipRS(_ []int, rows int, m []string) error {
	return w.tips(rows, m[0], func() bool { return !w.wrong })
}

func (w *worker) tips(rows int, words string, shapes func() bool) error {
	body, err := w.ends(words)
	if err != nil {
		return err
	}
	all, err := readRow(body)
	if err != nil {
		return err
	}
	for range rows {
		if !shapes() {
			w.worked(w.live)
			continue
		}
		w.markers = []int{w.live / 2}
		if w.rounds {
			w.markers = append(w.markers, w.live)
		}
		if err := w.through(all, ""); err != nil {
			return err
		}
	}
	w.markers = nil
	return nil
}

// armhole gains a stitch at each side in the last rows.
func (w *worker) armhole(n []int, rows int, m []string) error {
	return w.gainAtEnd(n[0], 1, rows, m[1])
}

func (w *worker) armhole2(n []int, rows int, m []string) error {
	return w.gainAtEnd(n[0], 2, rows, m[1])
}

func (w *worker) gainAtEnd(last, every, rows int, words string) error {
	words = strings.TrimPrefix(words, fmt.Sprintf("ch %d, ", w.turning))
	all, err := readRow(words)
	if err != nil {
		return err
	}
	if last > rows || last%every != 0 {
		return fmt.Errorf("every %d of the last %d of %d rows", every, last, rows)
	}
	for i := range rows {
		wrong := w.wrong
		if i < rows-last || every == 2 && wrong {
			w.worked(w.live)
			continue
		}
		w.wrong = false // on wrong-side rows the same is purled
		if err := w.through(all, ""); err != nil {
			return err
		}
		w.wrong = !wrong
	}
	return nil
}

// neckline gains a stitch at the neck edge in every row after the first.
func (w *worker) neckline(n []int, rows int, _ []string) error {
	return w.gainAtNeck(n[0], 1, n[1], rows)
}

func (w *worker) necklineNth(n []int, rows int, _ []string) error {
	return w.gainAtNeck(n[0], n[1], -1, rows)
}

func (w *worker) gainAtNeck(even, every, times, rows int) error {
	done := w.at // the first row is worked: stitches were picked up in it
	if times >= 0 && done+rows != even+times*every {
		return fmt.Errorf("%d rows, %d of them even and %d with an increase", done+rows, even, times)
	}
	for range rows {
		to := w.live
		if past := w.at + 1 - even; past > 0 && past%every == 0 {
			to++
		}
		w.worked(to)
	}
	return nil
}

// edge is picked up along the rows of a front.
func (w *worker) edge(n []int, rows int, m []string) error {
	picked, err := w.pickUp(m[0])
	if err != nil {
		return err
	}
	rib := n[1]
	w.Edges = Edges{Stitches: picked + rib, Rows: rows, Picked: picked, AlongRib: rib}
	return w.edges(picked+rib, rows)
}

var (
	pickEvenly = regexp.MustCompile(`^(\d+) evenly over (\d+) rows?$`)
	pickEach   = regexp.MustCompile(`^1 in each row$`)
	pickGroups = regexp.MustCompile(`^((?:\d+ in \d+ rows(?:, then )?)+)( each time|, and so on): (\d+)$`)
	pickGroup  = regexp.MustCompile(`(\d+) in (\d+) rows`)
)

// pickUp counts the stitches that are picked up along the rows of a front that is
// open.
func (w *worker) pickUp(s string) (int, error) {
	if pickEach.MatchString(s) {
		return w.OpenRows, nil
	}
	if m := pickEvenly.FindStringSubmatch(s); m != nil {
		n := numbers(m[1:])
		if n[1] != w.OpenRows {
			return 0, fmt.Errorf("%d rows of a front that is open for %d", n[1], w.OpenRows)
		}
		return n[0], nil
	}
	m := pickGroups.FindStringSubmatch(s)
	if m == nil {
		return 0, fmt.Errorf("how stitches are picked up cannot be read: %q", s)
	}
	groups := pickGroup.FindAllStringSubmatch(m[1], -1)
	if (len(groups) == 1) != (m[2] == " each time") {
		return 0, fmt.Errorf("so many groups are not %q", m[2])
	}
	said, _ := strconv.Atoi(m[3])
	left, picked := w.OpenRows, 0
	for i := 0; left > 0; i++ {
		g := numbers(groups[i%len(groups)][1:])
		if g[0] != g[1]-1 {
			return 0, fmt.Errorf("%d in %d rows", g[0], g[1])
		}
		if left < g[1] {
			picked += left
			break
		}
		left, picked = left-g[1], picked+g[0]
	}
	if said < picked-1 || said > picked+1 {
		return 0, fmt.Errorf("%d are said, they are %d along %d rows", said, picked, w.OpenRows)
	}
	return said, nil
}

func (w *worker) edges(stitches, rows int) error {
	for range rows {
		w.worked(stitches)
	}
	return nil
}

// faceEdge goes up one side of a hood and down the other.
func (w *worker) faceEdge(n []int, rows int, _ []string) error {
	if n[0] != n[2] {
		return fmt.Errorf("%d up one side and %d down the other", n[0], n[2])
	}
	side := float64(len(w.Counts["hood"])+len(w.Counts["hood-crown"])) * w.StitchesPer10Cm / w.RowsPer10Cm
	if off := float64(n[0]) - side; off > 1+side/12 || off < -1-side/12 {
		return fmt.Errorf("%d along a side that is as long as %.1f stitches", n[0], side)
	}
	if n[1] > 0 && n[1] != w.lastOf("hood-panel") {
		return fmt.Errorf("%d along the end of a panel of %d", n[1], w.lastOf("hood-panel"))
	}
	w.face = true
	return w.edges(n[0]+n[1]+n[2], rows)
}

func (w *Work) lastOf(id string) int {
	c := w.Counts[id]
	if len(c) == 0 {
		return 0
	}
	return c[len(c)-1]
}

func (w *worker) behind(n []int, rows int, _ []string) error {
	if n[0] != w.Edges.Stitches {
		return fmt.Errorf("%d stitches behind an edge of %d", n[0], w.Edges.Stitches)
	}
	return w.edges(n[0], rows)
}
