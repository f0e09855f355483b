package tell

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/testdata/fixture"
	"growtuck/testdata/samples"
	"growtuck/validate"
)

const (
	validateFolder = "../../../../validate"
	draftFolder    = "../../../../testdata/drafts"
)

// checkDraft checks a draft; alone: each rule for itself.
func checkDraft(t *testing.T, text, name string, alone bool) []validate.Finding {
	open := func(path string) (io.ReadCloser, error) { return os.Open(filepath.Join(draftFolder, path)) }
	findings, err := validate.CheckDraft(samples.Reference(t), strings.NewReader(text), name, validate.Options{Open: open})
	require.NoError(t, err)
	if alone {
		draft, err := validate.ReadDraft(samples.Reference(t), strings.NewReader(text), name, open)
		require.NoError(t, err)
		findings, err = draft.Check(samples.Reference(t))
		require.NoError(t, err)
	}
	for _, f := range findings {
		for _, x := range []sizing.Fact{f.Found, f.Expected, f.By, f.Fix} {
			requireWords(t, x)
		}
	}
	return findings
}

// requireWords requires words for a fact and those in it.
func requireWords(t *testing.T, f sizing.Fact) {
	if f.IsZero() {
		return
	}
	_, ok := Style{}.template(f.ID)
	require.True(t, ok, "no words for %s", f.ID)
	for _, a := range f.Args {
		switch a := a.(type) {
		case sizing.Fact:
			requireWords(t, a)
		case []sizing.Fact:
			for _, x := range a {
				requireWords(t, x)
			}
		}
	}
}

func lines(t *testing.T, s Style, findings []validate.Finding) string {
	var b strings.Builder
	require.NoError(t, s.WriteFindings(&b, findings))
	return b.String()
}

// What is told of each rule's bad draft is in its fixture.
func TestEveryRuleInWords(t *testing.T) {
	paths, err := filepath.Glob(filepath.Join(validateFolder, "testdata", "rules", "*.txt"))
	require.NoError(t, err)
	require.NotEmpty(t, paths)
	for _, path := range paths {
		code := strings.TrimSuffix(filepath.Base(path), ".txt")
		t.Run(code, func(t *testing.T) {
			f, err := fixture.Read(path, draftFolder)
			require.NoError(t, err)
			var bad []validate.Finding
			for _, found := range checkDraft(t, f.Bad, "draft.csv", true) {
				if found.Rule == code {
					bad = append(bad, found)
				}
			}
			told := lines(t, Style{}, bad)
			if *update {
				require.NoError(t, f.Update(told))
				return
			}
			require.Equal(t, f.Findings, told)
		})
	}
}

func TestSamplesInWords(t *testing.T) {
	for _, name := range []string{"pram-suit", "pullover", "trousers", "pram-suit-lengthened", "cardigan-lengthened", "cardigan-slips"} {
		text, err := os.ReadFile(filepath.Join(draftFolder, name+".csv"))
		require.NoError(t, err)
		told := lines(t, Style{}, checkDraft(t, string(text), name+".csv", false))
		golden(t, filepath.Join("samples", name+".txt"), told)
	}
}

func TestFindingInUnitsAndPlaces(t *testing.T) {
	widen := validate.Edit{Field: "finished", Part: "cuff", From: 36, To: 40, Unit: "stitches"}
	f := validate.Finding{Rule: "G02", Severity: validate.Warn, File: "draft.csv", Line: 7, Column: 3, Subject: "cuff",
		Found: sizing.NewFact("edge.at-rest", sizing.Length(13)), Expected: sizing.NewFact("over.hand", sizing.Length(15.24)),
		By: sizing.NewFact("by.short", sizing.Length(2.24)), Fix: sizing.NewFact("fix.measure-stretch", "cuff", widen), Source: "a-source"}
	require.Equal(t, []validate.Edit{widen}, f.Edits())
	require.Equal(t, "draft.csv:7:3: warn G02: cuff: 13 cm at rest; expected 15.2 cm round the hand with its thumb folded in (2.2 cm short); "+
		"measure on the swatch how far it stretches and enter it in a row stretch,cuff; otherwise add 4 stitches: 36 → 40", Style{}.Line(f))
	require.Equal(t, Finding{Rule: "G02", Severity: validate.Warn, File: "draft.csv", Line: 7, Column: 3, Subject: "cuff",
		Found: "13 cm (5.1 in) at rest", Expected: "15.2 cm (6 in) round the hand with its thumb folded in", By: "2.2 cm (0.9 in) short",
		Fix:    "measure on the swatch how far it stretches and enter it at " + PageStretch + ", for example cuff=1.3; otherwise add 4 stitches: 36 → 40, by " + PageExtras,
		Source: "a-source"}, Style{Unit: "in", Place: Page}.Finding(f))

	var b strings.Builder
	f.File = "a:b,c.csv"
	require.NoError(t, Style{}.WriteAnnotations(&b, []validate.Finding{f}))
	require.True(t, strings.HasPrefix(b.String(), "::warning file=a%3Ab%2Cc.csv,line=7,col=3,title=G02::cuff: 13 cm at rest;"), b.String())
}
