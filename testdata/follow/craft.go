package follow

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// stitchWords are what the fabric's stitch may be called, and the chains that begin a
// row of it, in US and in UK terms.
var stitchWords = map[string]map[string]int{
	"US": {"sc": 1, "hdc": 1, "dc": 2},
	"UK": {"dc": 1, "htr": 1, "tr": 2},
}

// readStitch reads the stitch in its terms.
func (w *worker) readStitch(stitch, terms string) bool {
	chains, ok := stitchWords[terms][stitch]
	w.stitch, w.turning = stitch, chains
	w.moves = moves(w.stitch, crochetMoves)
	return ok
}

// noun reports whether stitches are counted by a word.
func (w *worker) noun(s string) bool {
	if w.Craft == Knit {
		return s == "sts" || s == "st"
	}
	return s == w.stitch || s == "sts"
}

// ends takes the turn or the joining off the end of a row, and the turning chain
// off its beginning.
func (w *worker) ends(body string) (string, error) {
	if w.Craft == Knit {
		body = strings.TrimSuffix(body, "; join in the round, pm")
		return strings.TrimSuffix(body, "; join in the round"), nil
	}
	switch {
	case strings.HasSuffix(body, "; join, turn"):
		body = strings.TrimSuffix(body, "; join, turn")
	case strings.HasSuffix(body, "; join"):
		body = strings.TrimSuffix(body, "; join")
	case strings.HasSuffix(body, "; turn"):
		if w.rounds {
			return "", fmt.Errorf("a round is turned and not joined")
		}
		body = strings.TrimSuffix(body, "; turn")
	default:
		if !w.rounds {
			return "", fmt.Errorf("a row is not turned")
		}
	}
	chain, after, ok := strings.Cut(body, ", ")
	number, isChain := strings.CutPrefix(chain, "ch ")
	if n, err := strconv.Atoi(number); ok && isChain && err == nil {
		if n != w.turning {
			return "", fmt.Errorf("a turning chain of %d, not %d", n, w.turning)
		}
		return after, nil
	}
	return body, nil
}

// A said is a sentence that can be read, and what it does.
type said struct {
	words *regexp.Regexp
	do    func(w *worker, n []int) error
}

// says makes sentences from their words: {n} is a number, {S} the fabric's stitch.
func says(stitch string, chains int, table []sentence) []said {
	var all []said
	for _, t := range table {
		all = append(all, said{regexp.MustCompile("^" + pattern(stitch, chains, t.words)), t.do})
	}
	return all
}

type sentence struct {
	words string
	do    func(w *worker, n []int) error
}

// pattern is a regular expression for words with slots.
func pattern(stitch string, chains int, words string) string {
	p := regexp.QuoteMeta(words)
	for slot, as := range map[string]string{"n": `(\d+)`, "S": stitch, "x": `[\d.]+`, "sl st": "(?:sl st|ss)", "skip": "(?:skip|miss)", "line": "(?:row|round)", "rows": "(?:rows?|rounds?)", "sts": "(?:sts?|" + stitch + ")", "nth": `(?:\d+(?:st|nd|rd|th))`, "into": hookChain(chains)} {
		p = strings.ReplaceAll(p, `\{`+slot+`\}`, as)
	}
	return p
}

// hookChain is the chain that the first stitch is worked into: the one after those that
// turn.
func hookChain(turning int) string {
	return map[int]string{1: "2nd", 2: "3rd"}[turning] + " ch from the hook"
}

var ordinals = regexp.MustCompile(`\b(\d+)(st|nd|rd|th)\b`)

// ordinal checks the endings of ordinal numbers.
func ordinal(line string) error {
	for _, m := range ordinals.FindAllStringSubmatch(line, -1) {
		n, _ := strconv.Atoi(m[1])
		want := "th"
		if n%100 < 11 || n%100 > 13 {
			switch n % 10 {
			case 1:
				want = "st"
			case 2:
				want = "nd"
			case 3:
				want = "rd"
			}
		}
		if m[2] != want {
			return fmt.Errorf("%s is no number", m[0])
		}
	}
	return nil
}
