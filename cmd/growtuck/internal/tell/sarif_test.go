package tell

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// A log has what the schema of SARIF 2.1.0 (OASIS, 27 March 2020) requires: of the
// log version and runs, of a run its tool, of that driver and name, of a result a
// message, of a fix artifactChanges, of those artifactLocation and replacements, of
// these a deletedRegion; a level is none, note, warning or error; lines begin at 1.
func TestSARIFHasWhatItsSchemaRequires(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(draftFolder, "cardigan-slips.csv"))
	require.NoError(t, err)
	findings := checkDraft(t, string(text), "my drafts/cardigan-slips.csv", false)
	var out bytes.Buffer
	require.NoError(t, Style{}.WriteSARIF(&out, findings))
	var log map[string]any
	require.NoError(t, json.Unmarshal(out.Bytes(), &log))
	require.Equal(t, "2.1.0", log["version"])
	run := log["runs"].([]any)[0].(map[string]any)
	driver := run["tool"].(map[string]any)["driver"].(map[string]any)
	require.Equal(t, "growtuck", driver["name"])
	rules := map[string]bool{}
	for _, r := range driver["rules"].([]any) {
		rules[r.(map[string]any)["id"].(string)] = true
	}
	results := run["results"].([]any)
	require.Len(t, results, len(findings))
	fixes := 0
	for _, r := range results {
		result := r.(map[string]any)
		require.NotEmpty(t, result["message"].(map[string]any)["text"])
		require.Contains(t, []string{"note", "warning", "error"}, result["level"])
		require.True(t, rules[result["ruleId"].(string)], result["ruleId"])
		place := result["locations"].([]any)[0].(map[string]any)["physicalLocation"].(map[string]any)
		require.Equal(t, "my%20drafts/cardigan-slips.csv", place["artifactLocation"].(map[string]any)["uri"])
		if region, ok := place["region"].(map[string]any); ok {
			require.GreaterOrEqual(t, region["startLine"], 1.0)
		}
		for _, fix := range items(result["fixes"]) {
			for _, change := range items(fix.(map[string]any)["artifactChanges"]) {
				require.NotEmpty(t, change.(map[string]any)["artifactLocation"])
				for _, r := range items(change.(map[string]any)["replacements"]) {
					require.NotEmpty(t, r.(map[string]any)["deletedRegion"])
					fixes++
				}
			}
		}
	}
	require.Positive(t, fixes)

	out.Reset()
	require.NoError(t, Style{}.WriteSARIF(&out, nil))
	require.Contains(t, out.String(), `"results": []`)
}

func items(v any) []any {
	l, _ := v.([]any)
	return l
}

// The table has a row for each finding, and JSON comes back as what it was.
func TestFindingsAsTableAndJSON(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(draftFolder, "cardigan-slips.csv"))
	require.NoError(t, err)
	findings := checkDraft(t, string(text), "cardigan-slips.csv", false)
	var out bytes.Buffer
	require.NoError(t, Style{}.WriteFindingsCSV(&out, findings))
	rows, err := csv.NewReader(&out).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, len(findings)+1)
	require.Equal(t, "L01", rows[1][0])

	out.Reset()
	require.NoError(t, Style{}.WriteFindingsJSON(&out, findings))
	var back []Finding
	require.NoError(t, json.Unmarshal(out.Bytes(), &back))
	require.Equal(t, Style{}.Findings(findings), back)
}
