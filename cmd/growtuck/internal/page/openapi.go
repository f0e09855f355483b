package page

import (
	"bytes"
	"encoding"
	"encoding/json"
	"net/http"
	"reflect"
	"strings"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/validate"
)

// A tree is a JSON object.
type tree = map[string]any

// description answers with the description of the API.
func (s *site) description(w http.ResponseWriter, r *http.Request) {
	writeAnswer(w, http.StatusOK, "application/json", s.openapi)
}

// describe describes the API by OpenAPI 3.1, from the questions and the types
// of their answers.
func (s *site) describe() ([]byte, error) {
	d := describer{schemas: tree{}}
	paths := tree{}
	for _, q := range s.questions {
		paths["/api/"+q.name] = tree{strings.ToLower(q.method): d.operation(q)}
	}
	paths["/api/openapi.json"] = tree{"get": tree{"operationId": "openapi", "summary": "This description",
		"responses": tree{"200": tree{"description": "OpenAPI 3.1", "content": tree{"application/json": tree{"schema": tree{"type": "object"}}}}}}}
	d.schema(reflect.TypeOf(faultDocument{}))
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	err := enc.Encode(tree{
		"openapi": "3.1.0",
		"info": tree{"title": "growtuck", "version": s.engine.Version.Program, "license": tree{"name": "MIT", "identifier": "MIT"},
			"description": "Children's body measurements by size, and garments to fit a child. Every answer is the document that the command of the same name prints with --format json. Nothing that is asked is kept."},
		"servers":    []any{tree{"url": "/"}},
		"paths":      paths,
		"components": tree{"schemas": d.schemas},
	})
	return out.Bytes(), err
}

type describer struct{ schemas tree }

func (d describer) operation(q question) tree {
	faults := tree{"application/json": tree{"schema": tree{"$ref": "#/components/schemas/faultDocument"}}}
	answers := tree{
		"400": tree{"description": "What was asked cannot be answered: which parameter, and why", "content": faults},
	}
	media, _, _ := strings.Cut(q.media, ";")
	content := tree{media: tree{"schema": d.answer(q.answer)}}
	answers["200"] = tree{"description": "The answer", "content": content}
	op := tree{"operationId": q.name, "summary": q.summary, "responses": answers}
	if q.body != "" {
		answers["413"] = tree{"description": "More was posted than is read", "content": faults}
		answers["422"] = tree{"description": "What was posted cannot be used; the findings say why", "content": content}
		op["requestBody"] = tree{"required": true, "description": q.body, "content": tree{
			"text/csv":                 tree{"schema": tree{"type": "string"}},
			"application/octet-stream": tree{"schema": tree{"type": "string", "format": "binary"}}}}
	}
	params := []any{}
	for _, f := range q.fields {
		schema := tree{"type": typeOf(f)}
		if f.Kind == ask.Number {
			schema["minimum"], schema["maximum"] = f.Low, f.High
		}
		if f.Kind == ask.Choice {
			schema["enum"] = f.Choices
		}
		if f.Many || f.Kind == ask.List {
			schema = tree{"type": "array", "items": schema}
		} else if v := defaultOf(f); v != nil {
			schema["default"] = v
		}
		params = append(params, tree{"name": f.Name, "in": "query", "description": strings.ReplaceAll(f.Help, "`", ""), "required": f.Required, "schema": schema})
	}
	op["parameters"] = params
	return op
}

func typeOf(f ask.Field) string {
	switch f.Kind {
	case ask.YesNo:
		return "boolean"
	case ask.Number:
		return "number"
	}
	return "string"
}

func defaultOf(f ask.Field) any {
	switch {
	case f.Kind == ask.YesNo:
		return false
	case f.Usual == "":
		return nil
	case f.Kind == ask.Number:
		return json.Number(f.Usual)
	}
	return f.Usual
}

func (d describer) answer(v any) tree {
	if v == nil {
		return tree{"type": "string"}
	}
	if several, ok := v.(oneOf); ok {
		var all []any
		for _, one := range several {
			all = append(all, d.schema(reflect.TypeOf(one)))
		}
		return tree{"oneOf": all}
	}
	return d.schema(reflect.TypeOf(v))
}

var (
	severity      = reflect.TypeFor[validate.Severity]()
	textMarshaler = reflect.TypeFor[encoding.TextMarshaler]()
)

// schema is the schema of a type; structs are referred to.
func (d describer) schema(t reflect.Type) tree {
	switch {
	case t == severity:
		return tree{"type": "string", "enum": []string{"note", "warn", "stop"}}
	case t.Implements(textMarshaler):
		return tree{"type": "string"}
	}
	switch t.Kind() {
	case reflect.Pointer:
		inner := d.schema(t.Elem())
		if kind, ok := inner["type"].(string); ok {
			inner["type"] = []string{kind, "null"}
			return inner
		}
		return tree{"oneOf": []any{inner, tree{"type": "null"}}}
	case reflect.Slice:
		return tree{"type": "array", "items": d.schema(t.Elem())}
	case reflect.String:
		return tree{"type": "string"}
	case reflect.Bool:
		return tree{"type": "boolean"}
	case reflect.Int:
		return tree{"type": "integer"}
	case reflect.Float64:
		return tree{"type": "number"}
	case reflect.Struct:
		d.object(t)
		return tree{"$ref": "#/components/schemas/" + schemaName(t)}
	}
	return tree{}
}

// schemaName names the schema of a struct.
func schemaName(t reflect.Type) string {
	name := t.Name()
	switch {
	case name == "Version":
		return "versionRecord"
	case t == reflect.TypeFor[tell.Finding]():
		return name
	}
	return strings.ToLower(name[:1]) + name[1:]
}

// object describes a struct under its name.
func (d describer) object(t reflect.Type) {
	if _, known := d.schemas[schemaName(t)]; known {
		return
	}
	properties, required := tree{}, []string{}
	o := tree{"type": "object", "properties": properties}
	d.schemas[schemaName(t)] = o
	d.fields(t, properties, &required)
	o["required"] = required
}

func (d describer) fields(t reflect.Type, properties tree, required *[]string) {
	for i := range t.NumField() {
		f := t.Field(i)
		if f.Anonymous {
			d.fields(f.Type, properties, required)
			continue
		}
		name, rest, _ := strings.Cut(f.Tag.Get("json"), ",")
		if name == "" || name == "-" {
			continue
		}
		p := d.schema(f.Type)
		p["description"] = f.Tag.Get("doc")
		properties[name] = p
		if !strings.Contains(rest, "omit") {
			*required = append(*required, name)
		}
	}
}
