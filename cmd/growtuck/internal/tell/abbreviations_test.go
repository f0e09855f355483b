package tell

import (
	"bytes"
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"

	"growtuck/data"
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/testdata/proof"
	"growtuck/testdata/samples"
)

// plainWord reports a word that nobody looks up: it has a vowel, and neither a digit nor
// a capital within it.
func plainWord(word string) bool {
	if strings.Trim(word, "0123456789-") == "" || isOrdinal(word) || word == "st" || word == "sts" {
		return true
	}
	rest := []rune(word)[1:]
	return strings.ContainsAny(strings.ToLower(word), "aeiouy") && !slices.ContainsFunc(rest, func(r rune) bool { return unicode.IsDigit(r) || unicode.IsUpper(r) })
}

func isOrdinal(word string) bool {
	for _, end := range []string{"st", "nd", "rd", "th"} {
		if n, ok := strings.CutSuffix(word, end); ok && n != "" && strings.Trim(n, "0123456789") == "" {
			return true
		}
	}
	return false
}

func abbreviationsIn(text string, known []data.Abbreviation) []string {
	var found []string
	used := usedIn([]string{text})
	for _, a := range known {
		if used(a.Abbreviation) {
			found = append(found, a.Abbreviation)
		}
	}
	return found
}

// Every abbreviation of a pattern is in the trade standard's list and explained, and
// none is explained that it has not.
func TestAbbreviations(t *testing.T) {
	everyCrochet(t, func(t *testing.T, p *plan.Plan) {
		x := pattern{Style: Style{}.For(p.How), plan: p}
		chapters := x.chapters()
		glossary := make(map[string]bool)
		var steps []string
		for _, c := range chapters {
			for _, w := range c.Work {
				steps = append(steps, w.Text)
			}
			if c.ID == "abbreviations" {
				for _, item := range c.Items {
					name, _, _ := strings.Cut(item, ": ")
					glossary[name] = true
				}
			}
		}
		known := x.known()
		require.NotEmpty(t, known)
		for _, text := range steps {
			for _, found := range abbreviationsIn(text, known) {
				require.True(t, glossary[found], "%s is not explained: %s", found, text)
			}
			for _, word := range strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '-' }) {
				require.True(t, plainWord(word) || len(abbreviationsIn(word, known)) > 0 || word == "sl" || word == "St" || word == "cm" || word == "mm",
					"%q is no word and not in the list: %s", word, text)
			}
		}
		all := strings.Join(append(steps, x.construction().Items...), " ")
		for _, c := range chapters {
			if c.ID != "abbreviations" {
				all += " " + strings.Join(append(c.Items, c.After...), " ")
			}
		}
		for name := range glossary {
			require.Contains(t, abbreviationsIn(all, known), name, "explained and not used")
		}
	})
}

// everyCrochet is everyPlan, with crochet in all its ways; of all plans a part where not
// every case is asked for.
func everyCrochet(t *testing.T, f func(t *testing.T, p *plan.Plan)) {
	n, step := 0, 17
	if proof.Whole() {
		step = 1
	}
	everyPlan(t, func(t *testing.T, p *plan.Plan) {
		n++
		if n%step != 0 {
			return
		}
		f(t, p)
		if p.How.Craft != plan.Crochet {
			return
		}
		how := p.How
		how.Terms, how.Foundation = plan.UK, plan.Foundations[n/3%2]
		how.Rounds, how.Stitch = plan.AllRounds[n/2%3], plan.Stitches[n/4%3]
		other, err := plan.Make(p.Finished, how)
		require.NoError(t, err)
		f(t, other)
	})
}

// wordsOf are words of one craft alone.
var wordsOf = map[plan.Craft][]string{
	plan.Knit:    {"knit", "knits", "knitted", "knitting", "purl", "needle", "needles", "cast", "bind", "stockinette", "k2tog", "p2tog", "ssk", "M1L", "M1R", "kfb", "St st"},
	plan.Crochet: {"crochet", "crocheted", "hook", "hooks", "chain", "chains", "chained", "ch", "sc", "hdc", "dc", "sc2tog", "dc2tog", "tr", "htr", "sl st", "ss", "fasten", "BLO"},
}

// A plan of one craft has no word of the other, in whatever is shown of it.
func TestNoWordsOfTheOtherCraft(t *testing.T) {
	ref := samples.Reference(t)
	other := map[plan.Craft]plan.Craft{plan.Knit: plan.Crochet, plan.Crochet: plan.Knit}
	everyCrochet(t, func(t *testing.T, p *plan.Plan) {
		doc := Style{}.Plan(ref, sizing.Child{Sex: sizing.Both}, p, nil)
		var out bytes.Buffer
		require.NoError(t, doc.Write(&out, "table", 1000))
		for _, line := range strings.Split(strings.ReplaceAll(out.String(), "Tapestry needle", "Tapestry"), "\n") {
			words := " " + strings.Join(strings.FieldsFunc(line, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }), " ") + " "
			for _, w := range wordsOf[other[p.How.Craft]] {
				require.NotContains(t, words, " "+w+" ", line)
				require.NotContains(t, words, " "+Capital(w)+" ", line)
			}
		}
	})
}
