package validate_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/testdata/samples"
	"growtuck/validate"
)

func TestExceptions(t *testing.T) {
	ref := samples.Reference(t)
	text, err := os.ReadFile(filepath.Join(draftFolder, "cardigan-slips.csv"))
	require.NoError(t, err)
	run := func(exceptions ...validate.Exception) []validate.Finding {
		opts := options()
		opts.Exceptions = exceptions
		found, err := validate.CheckDraft(ref, strings.NewReader(string(text)), "drafts/cardigan-slips.csv", opts)
		require.NoError(t, err)
		return found
	}
	all := run()
	require.Len(t, ofRule(all, "S04"), 1)

	meant := validate.Exception{Rule: "S04", File: "cardigan-slips.csv", Subject: "front_left", Reason: "double-breasted"}
	require.Len(t, run(meant), len(all)-1, "a known finding is left out")
	require.Empty(t, ofRule(run(meant), "S04"))

	stale := validate.Exception{Rule: "S04", File: "cardigan-slips.csv", Subject: "sleeve_left", Reason: "was once so"}
	found := ofRule(run(stale), "X01")
	require.Len(t, found, 1, "one that does not fire is a finding")
	require.Equal(t, validate.Warn, found[0].Severity)
	require.Equal(t, sizing.NewFact("exception.unused-about", "S04", "sleeve_left", "was once so"), found[0].Found)

	other := stale
	other.File = "pram-suit.csv"
	require.Equal(t, all, run(other), "one for another draft does nothing")
	partial := meant
	partial.File = "slips.csv"
	require.Equal(t, all, run(partial), "part of a name is not the name")
}

func TestReadExceptions(t *testing.T) {
	list, err := validate.ReadExceptions(strings.NewReader("rule,file,subject,reason\nS04,cardigan.csv,front_left,double-breasted\n"), "known.csv")
	require.NoError(t, err)
	require.Equal(t, []validate.Exception{{Line: 2, Rule: "S04", File: "cardigan.csv", Subject: "front_left", Reason: "double-breasted"}}, list)

	for in, want := range map[string]string{
		"": "known.csv: is empty; want a header rule,file,subject,reason",
		"rule,file,subject,reason\nS99,a.csv,,so\n":   `known.csv:2: no rule "S99"`,
		"rule,file,subject,reason\nS04,,,so\n":        "known.csv:2: names no file",
		"rule,file,subject,reason\nS04,a.csv,x, \n":   "known.csv:2: has no reason",
		"rule,file,subject,reason\nS04,a.csv,x\n":     "known.csv:2:1: has 3 of at least 4 cells",
		"rule,file,subject,reason\nS04,\"a.csv,x,y\n": "known.csv:",
	} {
		_, err := validate.ReadExceptions(strings.NewReader(in), "known.csv")
		require.ErrorContains(t, err, want, in)
	}
}
