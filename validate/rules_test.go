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
	"growtuck/validate"
)

var update = flag.Bool("update", false, "rewrite the golden files")

const draftFolder = "../testdata/drafts"

func reference(t testing.TB) *sizing.Reference {
	t.Helper()
	ref, err := sizing.Default()
	require.NoError(t, err)
	return ref
}

func options() validate.Options {
	return validate.Options{Open: func(path string) (io.ReadCloser, error) {
		return os.Open(filepath.Join(draftFolder, path))
	}}
}

// Each rule has a fixture testdata/rules/CODE.txt: a base draft, edits to it
// with which the rule must stay silent (good) and others with which it must
// fire (bad), and what it then says. An edit is a row that takes the place of
// the base's row for the same field, part and kind of unit; -field,part takes
// rows out; !bom and !crlf change the file's form.
func TestEveryRule(t *testing.T) {
	ref := reference(t)
	var codes []string
	for _, r := range validate.DraftRules() {
		if r.Code == "X01" || r.Code == "D06" {
			continue // TestExceptions, TestUnreadable
		}
		codes = append(codes, r.Code+".txt")
		t.Run(r.Code, func(t *testing.T) {
			path := filepath.Join("testdata", "rules", r.Code+".txt")
			text, err := os.ReadFile(path)
			require.NoError(t, err, "every rule needs a good and a bad fixture")
			fixture := string(text)
			base := section(t, fixture, "base")
			if name := strings.TrimSpace(base); !strings.Contains(name, "\n") {
				draft, err := os.ReadFile(filepath.Join(draftFolder, name))
				require.NoError(t, err)
				base = string(draft)
			}
			good := ofRule(check(t, ref, edit(base, section(t, fixture, "good"))), r.Code)
			require.Empty(t, good, "must not fire")

			bad := ofRule(check(t, ref, edit(base, section(t, fixture, "bad"))), r.Code)
			require.NotEmpty(t, bad, "must fire")
			var b strings.Builder
			for _, f := range bad {
				b.WriteString(f.String() + "\n")
			}
			if *update {
				before, _, _ := strings.Cut(fixture, "-- finding --\n")
				fixture = before + "-- finding --\n" + b.String()
				require.NoError(t, os.WriteFile(path, []byte(fixture), 0o666))
			}
			require.Equal(t, section(t, fixture, "finding"), b.String())
			require.LessOrEqual(t, validate.Worst(bad), r.Severity, "the rule list says the worst")
			for _, f := range bad {
				require.NotEmpty(t, f.Found.String())
				if f.Severity > validate.Note {
					require.NotEmpty(t, f.Fix.String(), "says what to change")
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
		require.Regexp(t, `^[DFGOSUPCX]\d\d$`, r.Code)
		require.False(t, seen[r.Code], r.Code)
		seen[r.Code] = true
		require.NotEmpty(t, r.Title)
		require.NotEmpty(t, r.Group)
		require.NotEmpty(t, r.Severity.String())
	}
}

// section returns what stands under the line -- name -- of a fixture.
func section(t *testing.T, fixture, name string) string {
	t.Helper()
	_, after, ok := strings.Cut("\n"+fixture, "\n-- "+name+" --\n")
	require.True(t, ok, "no section %s", name)
	if i := strings.Index("\n"+after, "\n-- "); i >= 0 {
		after = after[:i]
	}
	return after
}

func check(t testing.TB, ref *sizing.Reference, text string) []validate.Finding {
	t.Helper()
	findings, err := validate.CheckDraft(ref, strings.NewReader(text), "draft.csv", options())
	require.NoError(t, err)
	return findings
}

func ofRule(findings []validate.Finding, code string) []validate.Finding {
	return slices.DeleteFunc(slices.Clone(findings), func(f validate.Finding) bool { return f.Rule != code })
}

// rowKey tells which row of a draft an edit is about.
func rowKey(line string) string {
	cells := strings.Split(line, ",")
	key := cells[0]
	if len(cells) > 1 {
		key += "," + cells[1]
	}
	if len(cells) > 3 && cells[0] == "finished" && (cells[3] == "stitches" || cells[3] == "rows") {
		key += ",counted"
	}
	return key
}

func edit(draft, edits string) string {
	lines := strings.Split(strings.TrimRight(draft, "\n"), "\n")
	bom, end := "", "\n"
	for _, e := range strings.Split(strings.TrimSpace(edits), "\n") {
		switch {
		case e == "":
		case e == "!bom":
			bom = "\ufeff"
		case e == "!crlf":
			end = "\r\n"
		case strings.HasPrefix(e, "-"):
			lines = slices.DeleteFunc(lines, func(l string) bool { return l == e[1:] || strings.HasPrefix(l, e[1:]+",") })
		case strings.HasPrefix(e, "+"):
			lines = append(lines, e[1:])
		default:
			i := slices.IndexFunc(lines, func(l string) bool { return rowKey(l) == rowKey(e) })
			if i < 0 {
				lines = append(lines, e)
			} else {
				lines[i] = e
			}
		}
	}
	return bom + strings.Join(lines, end) + end
}
