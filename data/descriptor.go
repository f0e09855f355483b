package data

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"io/fs"
	"slices"
	"strconv"
	"strings"
)

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

// describe makes datapackage.json from the tables at the root of fsys and their
// schemas, for an edition with a log of changes.
func describe(fsys fs.FS, version string, changes []byte) ([]byte, error) {
	tables, err := Load(fsys)
	if err != nil {
		return nil, err
	}
	p := packageJSON{
		Version: version,
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
		raw, err := fs.ReadFile(fsys, doc.File)
		if err != nil {
			return nil, err
		}
		if doc.File == changesFile {
			raw = changes
		}
		p.Resources = append(p.Resources, resourceJSON{
			Name: resource(doc.File), Path: doc.File, Type: "table", Profile: "tabular-data-resource",
			Title: doc.Title, Description: doc.About,
			Format: "csv", MediaType: "text/csv", Encoding: "utf-8",
			Bytes: len(raw), Hash: fmt.Sprintf("sha256:%x", sha256.Sum256(raw)),
			Dialect: dialectJSON{",", "\n", `"`, true, true},
			Schema:  describeSchema(doc),
		})
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err = e.Encode(p)
	return b.Bytes(), err
}

func resource(file string) string { return strings.TrimSuffix(file, ".csv") }

// describeSchema makes a key of which some column may be empty a unique key,
// since a primary key's may not. A reference that need not be met has no
// counterpart.
func describeSchema(doc Schema) schemaJSON {
	s := schemaJSON{PrimaryKey: doc.Key, MissingValues: []string{""}}
	for _, c := range doc.Columns {
		s.Fields = append(s.Fields, describeField(c))
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
func describeField(c Column) fieldJSON {
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
			f.Constraints["maxLength"] = bound(param)
		case "gte":
			f.Constraints["minimum"] = bound(param)
		case "lte":
			f.Constraints["maximum"] = bound(param)
		case "gt": // the inclusive bound too, for readers of version 1
			f.Constraints["minimum"], f.Constraints["exclusiveMinimum"] = bound(param), bound(param)
		case "lt":
			f.Constraints["maximum"], f.Constraints["exclusiveMaximum"] = bound(param), bound(param)
		}
	}
	return f
}

// bound is the figure of a rule in a struct tag.
func bound(s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		panic(err) // of a struct tag of ours
	}
	return v
}
