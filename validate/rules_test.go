package validate_test

import (
	"flag"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/testdata/fixture"
	"growtuck/testdata/samples"
	"growtuck/validate"
)

var update = flag.Bool("update", false, "rewrite the golden files")

const draftFolder = "../testdata/drafts"

func options() validate.Options {
	return validate.Options{Open: func(path string) (io.ReadCloser, error) {
		return os.Open(filepath.Join(draftFolder, path))
	}}
}

// Each rule has a fixture testdata/rules/CODE.txt, as package fixture reads it:
// the rule is silent about the good draft and fires at the bad one. What is then
// told is held against the fixture where words are made.
func TestEveryRule(t *testing.T) {
	ref := samples.Reference(t)
	var codes []string
	for _, r := range validate.DraftRules() {
		if r.Code == "X01" || r.Code == "D06" || r.Code == "L01" {
			continue // TestExceptions, TestUnreadable, TestLikeliestSlips
		}
		codes = append(codes, r.Code+".txt")
		t.Run(r.Code, func(t *testing.T) {
			f, err := fixture.Read(filepath.Join("testdata", "rules", r.Code+".txt"), draftFolder)
			require.NoError(t, err, "every rule needs a good and a bad fixture")
			require.Empty(t, ofRule(check(t, ref, f.Good), r.Code), "must not fire")
			bad := ofRule(check(t, ref, f.Bad), r.Code)
			require.NotEmpty(t, bad, "must fire")
			require.LessOrEqual(t, validate.Worst(bad), r.Severity, "the rule list says the worst")
			for _, f := range bad {
				require.False(t, f.Found.IsZero())
				if f.Severity > validate.Note {
					require.False(t, f.Fix.IsZero(), "says what to change")
				}
			}
		})
	}
	found, err := filepath.Glob(filepath.Join("testdata", "rules", "*.txt"))
	require.NoError(t, err)
	for _, p := range found {
		require.Contains(t, codes, filepath.Base(p), "a fixture of no rule")
	}
}

// Rule codes are sorted within their groups and given once.
func TestRuleList(t *testing.T) {
	seen := make(map[string]bool)
	for _, r := range validate.DraftRules() {
		require.Regexp(t, `^[DFGLOSUPCX]\d\d$`, r.Code)
		require.False(t, seen[r.Code], r.Code)
		seen[r.Code] = true
		require.NotEmpty(t, r.Title)
		require.NotEmpty(t, r.Group)
		require.NotEmpty(t, r.Severity.String())
	}
}

// check checks a draft by every rule, without advice on which to follow.
func check(t testing.TB, ref *sizing.Reference, text string) []validate.Finding {
	t.Helper()
	d, err := validate.ReadDraft(ref, strings.NewReader(text), "draft.csv", options().Open)
	require.NoError(t, err)
	findings, err := d.Check(ref)
	require.NoError(t, err)
	return findings
}

func ofRule(findings []validate.Finding, code string) []validate.Finding {
	return slices.DeleteFunc(slices.Clone(findings), func(f validate.Finding) bool { return f.Rule != code })
}
