package data

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write datapackage.json")

// The descriptor follows the Data Package standard, version 2; the profile
// fields make readers of version 1 strict.
type packageJSON struct {
	Schema      string         `json:"$schema"`
	Profile     string         `json:"profile"`
	Name        string         `json:"name"`
	Title       string         `json:"title"`
	Version     string         `json:"version"`
	Description string         `json:"description"`
	Keywords    []string       `json:"keywords"`
	Licenses    []licenseJSON  `json:"licenses"`
	Sources     []sourceJSON   `json:"sources"`
	Resources   []resourceJSON `json:"resources"`
}

type licenseJSON struct {
	Name  string `json:"name"`
	Path  string `json:"path"`
	Title string `json:"title"`
}

type sourceJSON struct {
	Title   string `json:"title"`
	Version string `json:"version,omitempty"`
	Rights  string `json:"rights"`
	Credit  string `json:"credit"`
}

type resourceJSON struct {
	Name        string      `json:"name"`
	Path        string      `json:"path"`
	Type        string      `json:"type"`
	Profile     string      `json:"profile"`
	Title       string      `json:"title"`
	Description string      `json:"description"`
	Format      string      `json:"format"`
	MediaType   string      `json:"mediatype"`
	Encoding    string      `json:"encoding"`
	Bytes       int         `json:"bytes"`
	Hash        string      `json:"hash"`
	Dialect     dialectJSON `json:"dialect"`
	Schema      schemaJSON  `json:"schema"`
}

type dialectJSON struct {
	Delimiter      string `json:"delimiter"`
	LineTerminator string `json:"lineTerminator"`
	QuoteChar      string `json:"quoteChar"`
	DoubleQuote    bool   `json:"doubleQuote"`
	Header         bool   `json:"header"`
}

type schemaJSON struct {
	Fields        []fieldJSON      `json:"fields"`
	PrimaryKey    []string         `json:"primaryKey,omitempty"`
	UniqueKeys    [][]string       `json:"uniqueKeys,omitempty"`
	ForeignKeys   []foreignKeyJSON `json:"foreignKeys,omitempty"`
	MissingValues []string         `json:"missingValues"`
}

type fieldJSON struct {
	Name        string         `json:"name"`
	Type        string         `json:"type"`
	Description string         `json:"description"`
	Constraints map[string]any `json:"constraints,omitempty"`
}

type foreignKeyJSON struct {
	Fields    []string      `json:"fields"`
	Reference referenceJSON `json:"reference"`
}

type referenceJSON struct {
	Resource string   `json:"resource"`
	Fields   []string `json:"fields"`
}

func TestDataPackageIsCurrent(t *testing.T) {
	want := describe(t)
	if *update {
		require.NoError(t, os.WriteFile("datapackage.json", want, 0o644))
	}
	got, err := os.ReadFile("datapackage.json")
	require.NoError(t, err)
	if !bytes.Equal(want, got) {
		t.Fatalf("datapackage.json is stale at line %d; run go test ./data -run DataPackage -update", firstDifference(want, got))
	}
}

func firstDifference(a, b []byte) int {
	x, y := bytes.Split(a, []byte("\n")), bytes.Split(b, []byte("\n"))
	for i := range min(len(x), len(y)) {
		if !bytes.Equal(x[i], y[i]) {
			return i + 1
		}
	}
	return min(len(x), len(y)) + 1
}

// Every table is described, and nothing else.
func TestDataPackageCoversEveryTable(t *testing.T) {
	var described, found []string
	for _, doc := range Schemas() {
		described = append(described, doc.File)
		for _, names := range append([][]string{doc.Key}, refColumns(doc)...) {
			require.Subset(t, doc.Names(), names, doc.File)
		}
		for _, c := range doc.Columns {
			require.NotEmpty(t, c.Doc, "%s %s", doc.File, c.Name)
		}
	}
	entries, err := fs.ReadDir(os.DirFS("."), ".")
	require.NoError(t, err)
	for _, e := range entries {
		if strings.HasSuffix(e.Name(), ".csv") {
			found = append(found, e.Name())
		}
	}
	require.ElementsMatch(t, found, described)
}

// describe makes datapackage.json from the files, their schemas.
func describe(t *testing.T) []byte {
	tables, err := Load(os.DirFS("."))
	require.NoError(t, err)
	edition, err := EditionOf(os.DirFS("."), rowRules)
	require.NoError(t, err)
	p := packageJSON{
		Version: edition.Version,
		Schema:  "https://datapackage.org/profiles/2.0/datapackage.json",
		Profile: "tabular-data-package",
		Name:    "growtuck",
		Title:   "Children's body measurements by size",
		Description: "Reference tables of children's body measurements by size, the relations between them, and the ease " +
			"and lengths of garments made from them. Every value has its source; print a source's credit line wherever its rows are shown.",
		Keywords: []string{"body measurements", "children", "clothing", "crochet", "knitting", "size chart"},
		Licenses: []licenseJSON{{
			Name:  "CC0-1.0",
			Path:  "https://creativecommons.org/publicdomain/zero/1.0/",
			Title: "CC0 1.0 Universal, with the credit lines of the sources",
		}},
	}
	for _, s := range tables.Sources {
		p.Sources = append(p.Sources, sourceJSON{s.Title + ". " + s.Publisher, s.Edition, s.Rights, s.Credit})
	}
	for _, doc := range Schemas() {
		raw, err := os.ReadFile(doc.File)
		require.NoError(t, err)
		p.Resources = append(p.Resources, resourceJSON{
			Name: resource(doc.File), Path: doc.File, Type: "table", Profile: "tabular-data-resource",
			Title: doc.Title, Description: doc.About,
			Format: "csv", MediaType: "text/csv", Encoding: "utf-8",
			Bytes: len(raw), Hash: fmt.Sprintf("sha256:%x", sha256.Sum256(raw)),
			Dialect: dialectJSON{",", "\n", `"`, true, true},
			Schema:  describeSchema(t, doc),
		})
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	require.NoError(t, e.Encode(p))
	return b.Bytes()
}

func resource(file string) string { return strings.TrimSuffix(file, ".csv") }

func refColumns(s Schema) [][]string {
	var columns [][]string
	for _, ref := range s.Refs {
		columns = append(columns, ref.Columns)
	}
	return columns
}

// describeSchema makes a key of which some column may be empty a unique key,
// since a primary key's may not. A reference that need not be met has no
// counterpart.
func describeSchema(t *testing.T, doc Schema) schemaJSON {
	s := schemaJSON{PrimaryKey: doc.Key, MissingValues: []string{""}}
	for _, c := range doc.Columns {
		s.Fields = append(s.Fields, describeField(t, c))
		if slices.Contains(doc.Key, c.Name) && !c.Required {
			s.PrimaryKey, s.UniqueKeys = nil, [][]string{doc.Key}
		}
	}
	for _, ref := range doc.Refs {
		if ref.Or != "" {
			continue
		}
		to := resource(ref.File)
		if ref.File == doc.File {
			to = "" // itself, by the standard
		}
		s.ForeignKeys = append(s.ForeignKeys, foreignKeyJSON{ref.Columns, referenceJSON{to, SchemaOf(ref.File).Key}})
	}
	return s
}

// describeField turns a column's type and rule into the standard's types and
// constraints. Rules that join two columns have no counterpart there.
func describeField(t *testing.T, c Column) fieldJSON {
	f := fieldJSON{Name: c.Name, Type: "string", Description: c.Doc, Constraints: map[string]any{}}
	if c.Numeric {
		f.Type = "number"
	}
	if c.Required {
		f.Constraints["required"] = true
	}
	for rule := range strings.SplitSeq(c.Rule, ",") {
		name, param, _ := strings.Cut(rule, "=")
		switch name {
		case "id":
			f.Constraints["pattern"] = IDPattern
		case "places":
			place := "(" + strings.Join(AddedPlaces(), "|") + ")"
			f.Constraints["pattern"] = "^" + place + "( " + place + ")*$"
		case "oneof":
			f.Constraints["enum"] = c.Words()
		case "max":
			f.Constraints["maxLength"] = number(t, param)
		case "gte":
			f.Constraints["minimum"] = number(t, param)
		case "lte":
			f.Constraints["maximum"] = number(t, param)
		case "gt": // the inclusive bound too, for readers of version 1
			f.Constraints["minimum"], f.Constraints["exclusiveMinimum"] = number(t, param), number(t, param)
		case "lt":
			f.Constraints["maximum"], f.Constraints["exclusiveMaximum"] = number(t, param), number(t, param)
		case "", "required", "omitempty", "required_unless", "required_if", "gtfield", "gtefield":
		default:
			require.Fail(t, "no constraint", "of %s is known for the rule %q", f.Name, rule)
		}
	}
	return f
}

func number(t *testing.T, s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return v
}

// A second, obvious check of what the descriptor claims of the files.
func TestDataPackageHashesMatchTheEmbeddedFiles(t *testing.T) {
	if *update {
		t.Skip("the files embedded in this test are those of before the update")
	}
	raw, err := fs.ReadFile(Embedded(), "datapackage.json")
	require.NoError(t, err)
	var p packageJSON
	require.NoError(t, json.Unmarshal(raw, &p))
	require.Len(t, p.Resources, len(Schemas()))
	for _, r := range p.Resources {
		table, err := fs.ReadFile(Embedded(), filepath.ToSlash(r.Path))
		require.NoError(t, err)
		require.Equal(t, r.Bytes, len(table), r.Path)
		require.Equal(t, r.Hash, fmt.Sprintf("sha256:%x", sha256.Sum256(table)), r.Path)
		head, _, _ := strings.Cut(string(table), "\n")
		var names []string
		for _, f := range r.Schema.Fields {
			names = append(names, f.Name)
		}
		require.Equal(t, head, strings.Join(names, ","))
	}
}
