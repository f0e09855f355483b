package main

import (
	"encoding/json"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Every schema is JSON whose references lead somewhere; that of the findings has their
// fields.
func TestSchemas(t *testing.T) {
	_, names, _ := try(t, noChild, "schema")
	require.Contains(t, names, "plan\n")
	for _, name := range strings.Fields(names) {
		code, text, stderr := try(t, noChild, "schema", name)
		require.Zero(t, code, stderr)
		var schema struct {
			Schema string                     `json:"$schema"`
			Defs   map[string]json.RawMessage `json:"$defs"`
		}
		require.NoError(t, json.Unmarshal([]byte(text), &schema), name)
		require.Equal(t, "https://json-schema.org/draft/2020-12/schema", schema.Schema)
		for _, ref := range regexp.MustCompile(`"\$ref": "([^"]*)"`).FindAllStringSubmatch(text, -1) {
			to, ok := strings.CutPrefix(ref[1], "#/$defs/")
			require.True(t, ok, ref[1])
			require.Contains(t, schema.Defs, to, name)
		}
	}
	_, text, _ := try(t, noChild, "schema", "check")
	for _, field := range []string{"rule", "severity", "found", "fix", "edits", "line", "from", "to"} {
		require.Contains(t, text, `"`+field+`"`)
	}
	code, _, stderr := try(t, noChild, "schema", "nosuch")
	require.Equal(t, exitUsage, code)
	require.Contains(t, stderr, "known are size, ")
}
