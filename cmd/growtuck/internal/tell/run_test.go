package tell

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
	"growtuck/testdata/samples"
)

// bracket finds values in bracket form.
var bracket = regexp.MustCompile(`[0-9.–]+(?:st|nd|rd|th)? \([0-9.–stndrh, ]+\)`)

// Brackets have a count for each size that they are about.
func TestRunOfSizes(t *testing.T) {
	for _, g := range samples.Reference(t).Garments() {
		for _, how := range []plan.How{singleCrochet, doubleCrochet, stocking} {
			for _, k := range plan.Constructions {
				how.Construction = k
				t.Run(g.ID+" "+string(how.Craft)+" "+string(k), func(t *testing.T) {
					run := samples.FinishedRun(t, samples.Sizes, samples.Spec(g.ID))
					graded, err := plan.Grade(samples.Sizes, run, how)
					require.NoError(t, err)
					for _, s := range (Style{}).For(graded.Plans[0].How).Run(graded).Sections {
						require.NotEmpty(t, s.Steps, s.ID)
						for _, l := range s.Steps {
							require.NotContains(t, l.Text, "{")
							require.NotRegexp(t, `[ (]`+absent, l.Text, "no number is missing in brackets")
							for _, b := range bracket.FindAllString(l.Text, -1) {
								values := sizesOf(b)
								if l.Sizes == "" {
									require.Len(t, values, len(samples.Sizes), l.Text)
								} else {
									require.Len(t, values, len(sizesOf(l.Sizes)), l.Text)
								}
							}
						}
					}
				})
			}
		}
	}
}

// sizesOf are the values of "2 (4, 6)", or of a single one.
func sizesOf(s string) []string {
	return strings.FieldsFunc(s, func(r rune) bool { return strings.ContainsRune(" (,)", r) })
}

// The counts in brackets are those of the plans.
func TestBracketsAreThePlans(t *testing.T) {
	graded, err := plan.Grade(samples.Sizes, samples.FinishedRun(t, samples.Sizes, samples.Spec("cardigan")), singleCrochet)
	require.NoError(t, err)
	for _, s := range (Style{}).Run(graded).Sections {
		values := sizesOf(s.Rows)
		for i, p := range graded.Plans {
			section, ok := p.Section(s.ID)
			require.True(t, ok)
			v := values[0]
			if len(values) > 1 {
				v = values[i]
			}
			require.Equal(t, v, strconv.Itoa(section.Rows()), s.ID)
		}
	}
	for i := 1; i < len(graded.Plans); i++ {
		small, _ := graded.Plans[i-1].Part("chest")
		large, _ := graded.Plans[i].Part("chest")
		require.Greater(t, large.Count, small.Count)
	}
}

// A repeat as wide as the step between sizes cannot tell them apart, and the
// notes say so.
func TestRunNamesSizesThatComeOutAlike(t *testing.T) {
	how := singleCrochet
	how.Multiple = stitch.Multiple{Repeat: 24}
	labels := []string{"4", "5", "6"}
	graded, err := plan.Grade(labels, samples.FinishedRun(t, labels, samples.Spec("vest")), how)
	require.NoError(t, err)
	notes := strings.Join(Style{}.Run(graded).Notes, "\n")
	for i := 1; i < len(labels); i++ {
		a, _ := graded.Plans[i-1].Part("chest")
		b, _ := graded.Plans[i].Part("chest")
		said := strings.Contains(notes, "Size "+labels[i]+" has the chest of size "+labels[i-1])
		require.Equal(t, a.Count == b.Count, said)
	}
	require.Contains(t, notes, "has the chest of size")
}

func TestBrackets(t *testing.T) {
	require.Equal(t, "S (M, L)", Brackets([]string{"S", "M", "L"}))
	require.Equal(t, "48", Brackets([]string{"48"}))
	require.Empty(t, Brackets(nil))
}
