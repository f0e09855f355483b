package page

import (
	"encoding"
	"encoding/json"
	"fmt"
	"net/http"
	"reflect"
	"strings"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/validate"
)

// A tree is a JSON object.
type tree = map[string]any

// description answers with the description of the API. It is made when it is first
// asked for: its examples are answers.
func (s *site) description(w http.ResponseWriter, r *http.Request) {
	out, err := s.openapi()
	if err != nil {
		panic(err) // a slip in an example; guard says so
	}
	s.version(w)
	writeAnswer(w, http.StatusOK, mediaJSON, out)
}

// describe describes the API by OpenAPI 3.1, from the questions and the types
// of their answers.
func (s *site) describe() ([]byte, error) {
	d := describer{site: s, schemas: tree{}}
	paths := tree{}
	for _, q := range s.questions {
		op, err := d.operation(q)
		if err != nil {
			return nil, err
		}
		paths["/api/"+q.name] = tree{strings.ToLower(q.method): op}
	}
	paths["/api/openapi.json"] = tree{"get": tree{"operationId": "openapi", "summary": "This description",
		"responses": tree{"200": tree{"description": "OpenAPI 3.1", "headers": versionHeaders, "content": tree{mediaJSON: tree{"schema": tree{"type": "object"}}}}}}}
	d.schema(reflect.TypeOf(problem{}))
	return document(tree{
		"openapi": "3.1.0",
		"info": tree{"title": "growtuck", "version": apiVersion, "license": tree{"name": "MIT", "identifier": "MIT"},
			"description": "Children's body measurements by size, and garments to fit a child. Answers are the documents that the commands of the same names print with --format json, with the edition of the tables. Nothing that is asked is kept."},
		"servers": []any{tree{"url": "/"}},
		"paths":   paths,
		"components": tree{"schemas": d.schemas, "headers": tree{
			programHeader: tree{"description": "version of the program", "schema": tree{"type": "string"}},
			editionHeader: tree{"description": "edition of the tables, with its checksum", "schema": tree{"type": "string"}},
		}},
	})
}

// versionHeaders are the headers of every answer.
var versionHeaders = tree{
	programHeader: tree{"$ref": "#/components/headers/" + programHeader},
	editionHeader: tree{"$ref": "#/components/headers/" + editionHeader},
}

type describer struct {
	site    *site
	schemas tree
}

func (d describer) operation(q question) (tree, error) {
	failed := func(description string) tree {
		return tree{"description": description, "headers": versionHeaders, "content": tree{mediaProblem: tree{"schema": tree{"$ref": "#/components/schemas/problem"}}}}
	}
	media, _, _ := strings.Cut(q.media, ";")
	content := tree{"schema": d.answer(q)}
	example, err := d.site.exampleAnswer(q)
	if err != nil {
		return nil, err
	}
	if example != nil {
		content["example"] = example
	}
	answers := tree{
		"200": tree{"description": "The answer", "headers": versionHeaders, "content": tree{media: content}},
		"400": failed("What was asked cannot be followed: which parameter, and why"),
		"422": failed("What was asked has no result, or what was posted cannot be used: why"),
	}
	op := tree{"operationId": operationID(q.name), "summary": q.summary, "responses": answers}
	if q.body != "" {
		answers["413"] = failed("More was posted than is read")
		posted := tree{"text/csv": tree{"schema": tree{"type": "string"}, "example": q.example.body}}
		if q.list {
			posted["application/x-ndjson"] = tree{"schema": tree{"type": "string"}}
		} else {
			posted["application/octet-stream"] = tree{"schema": tree{}}
		}
		op["requestBody"] = tree{"required": true, "description": fmt.Sprintf("%s; at most %d MiB", q.body, q.most()>>20), "content": posted}
	}
	params := []any{}
	for _, f := range q.fields {
		params = append(params, d.parameter(f, q.example.params[f.Name]))
	}
	op["parameters"] = params
	return op, nil
}

// operationID is the name of an operation: one that can be that of a function.
func operationID(name string) string {
	if name == "" {
		return "index"
	}
	return strings.NewReplacer("/", "_", ".", "_").Replace(name)
}

func (d describer) parameter(f ask.Field, example []string) tree {
	schema := tree{"type": typeOf(f)}
	if f.Kind == ask.Number {
		schema["minimum"], schema["maximum"] = f.Low, f.High
	}
	if f.Kind == ask.Choice {
		schema["enum"] = f.Choices
	} else if f.Known != nil {
		schema["enum"] = f.Known(d.site.engine.Reference)
	}
	list := f.Many || f.Kind == ask.List
	if list {
		schema = tree{"type": "array", "items": schema}
	}
	if v := defaultOf(f); v != nil {
		schema["default"] = v
	}
	help := strings.ReplaceAll(f.Help, "`", "")
	if f.Listed != "" {
		help += "; /api/" + f.Listed + " lists them"
	}
	p := tree{"name": f.Name, "in": "query", "description": help, "required": f.Required, "schema": schema}
	switch {
	case len(example) > 0 && list:
		p["example"] = example
	case len(example) > 0 && f.Kind != ask.Text && f.Kind != ask.Choice && f.Kind != ask.Gauge:
		p["example"] = json.RawMessage(example[0]) // a number, true or false
	case len(example) > 0:
		p["example"] = example[0]
	}
	return p
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
		return f.Usual == "true"
	case f.Usual == "":
		return nil
	case f.Kind == ask.List:
		return strings.Split(f.Usual, ",")
	case f.Kind == ask.Number:
		return json.Number(f.Usual)
	}
	return f.Usual
}

// answer is the schema of an answer: an object has the edition of the tables too.
func (d describer) answer(q question) tree {
	all := oneOf{q.answer}
	switch v := q.answer.(type) {
	case nil:
		if !strings.HasPrefix(q.media, "text/") && q.media != mediaSVG {
			return tree{} // bytes
		}
		return tree{"type": "string"}
	case oneOf:
		all = v
	}
	var schemas []any
	for _, one := range all {
		t := reflect.TypeOf(one)
		schemas = append(schemas, d.schema(t))
		if t.Kind() == reflect.Struct {
			o := d.schemas[schemaName(t)].(tree)
			o["properties"].(tree)["edition"] = tree{"type": "string", "description": "the edition of the tables that the answer rests on, with its checksum"}
			o["required"] = append(o["required"].([]string), "edition")
		}
	}
	if len(schemas) > 1 {
		return tree{"oneOf": schemas}
	}
	return schemas[0].(tree)
}

var (
	severity      = reflect.TypeFor[validate.Severity]()
	textMarshaler = reflect.TypeFor[encoding.TextMarshaler]()
)

// schema is the schema of a type; structs are referred to.
func (d describer) schema(t reflect.Type) tree {
	switch {
	case t == reflect.TypeFor[json.RawMessage]():
		return tree{"type": "object"}
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
	case reflect.Map:
		return tree{"type": "object", "additionalProperties": d.schema(t.Elem())}
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
