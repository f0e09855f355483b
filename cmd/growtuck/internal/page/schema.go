package page

import (
	"bytes"
	"encoding/json"
	"strings"
)

// SchemaNames are the commands whose JSON has a schema.
func SchemaNames() []string {
	var names []string
	for _, q := range questions(Engine{}) {
		if q.media == mediaJSON && q.name != "" {
			names = append(names, q.name)
		}
	}
	return names
}

// Schema is the JSON Schema of what a command prints as JSON; nil for one that has none.
func Schema(name string) []byte {
	for _, q := range questions(Engine{}) {
		if name == "" || q.name != name || q.media != mediaJSON {
			continue
		}
		d := describer{schemas: tree{}}
		schema := d.answer(q)
		schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
		schema["title"] = q.summary
		schema["$defs"] = d.schemas
		var out bytes.Buffer
		enc := json.NewEncoder(&out)
		enc.SetEscapeHTML(false)
		enc.SetIndent("", "  ")
		if err := enc.Encode(schema); err != nil {
			return nil // a tree of texts and lists is always written
		}
		return []byte(strings.ReplaceAll(out.String(), `"#/components/schemas/`, `"#/$defs/`))
	}
	return nil
}
