package tell

import (
	"encoding/csv"
	"fmt"
	"io"
	"reflect"
	"strings"
)

// writeCSV writes a slice of structs as CSV. The columns are the fields' JSON
// names, so that CSV and JSON use the same names; an embedded struct's fields are
// columns in its place. Lists are joined by "; ".
func writeCSV(w io.Writer, rows any) error {
	v := reflect.ValueOf(rows)
	out := csv.NewWriter(w)
	if err := out.Write(fieldNames(v.Type().Elem())); err != nil {
		return err
	}
	for i := range v.Len() {
		if err := out.Write(fieldTexts(v.Index(i))); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

func fieldNames(t reflect.Type) []string {
	var names []string
	for i := range t.NumField() {
		if f := t.Field(i); f.Anonymous {
			names = append(names, fieldNames(f.Type)...)
		} else {
			name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
			names = append(names, name)
		}
	}
	return names
}

func fieldTexts(v reflect.Value) []string {
	var texts []string
	for i := range v.NumField() {
		if v.Type().Field(i).Anonymous {
			texts = append(texts, fieldTexts(v.Field(i))...)
		} else {
			texts = append(texts, fieldText(v.Field(i).Interface()))
		}
	}
	return texts
}

func fieldText(v any) string {
	switch v := v.(type) {
	case string:
		return Inert(v)
	case []string:
		return Inert(strings.Join(v, "; "))
	case *Figure:
		if v == nil {
			return ""
		}
		return v.String()
	}
	return fmt.Sprint(v) // numbers and truth values
}

// Inert keeps a spreadsheet from taking the text of a cell for a formula.
func Inert(s string) string {
	if s != "" && strings.ContainsRune("=+-@\t\r\n", rune(s[0])) {
		return "'" + s
	}
	return s
}
