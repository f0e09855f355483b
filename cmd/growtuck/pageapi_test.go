package main

import (
	"encoding/json"
	"errors"
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/page"
)

// pageHandler is the page over the built-in tables.
func pageHandler(t testing.TB) http.Handler {
	t.Helper()
	a := &app{stdin: strings.NewReader(""), stdout: io.Discard, stderr: io.Discard, format: "table", unit: "cm"}
	engine, err := a.pageEngine()
	require.NoError(t, err)
	h, err := page.New(engine, page.Options{Loopback: true, Log: func(msg string) { t.Error("the page said:", msg) }})
	require.NoError(t, err)
	return h
}

// fetch asks the page as a browser on this machine does.
func fetch(h http.Handler, method, target, body string, headers ...string) *http.Response {
	r := httptest.NewRequest(method, target, strings.NewReader(body))
	r.Host = "127.0.0.1:8474"
	for i := 0; i+1 < len(headers); i += 2 {
		r.Header.Set(headers[i], headers[i+1])
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w.Result()
}

func text(t testing.TB, r *http.Response) string {
	t.Helper()
	b, err := io.ReadAll(r.Body)
	require.NoError(t, err)
	return string(b)
}

const suitQuery = "garment=one-piece-hooded&set=height%3D89.5&set=chest%3D50.5cm&set=inside_leg%3D35&sex=m&age=22m"

// The API answers with the very documents that the commands print.
func TestAPIAnswersAsCommands(t *testing.T) {
	h := pageHandler(t)
	suit := []string{"one-piece-hooded", "--set", "height=89.5", "--set", "chest=50.5cm", "--set", "inside_leg=35", "--sex", "m", "--age", "22m"}
	tests := []struct {
		target string
		args   []string
	}{
		{"/api/size?size=3", []string{"size", "3"}},
		{"/api/size?size=3&size=5.5&size=18m&sex=f&linear=true", []string{"size", "3", "5.5", "18m", "--sex", "f", "--linear"}},
		{"/api/size?size=104cm&chart=measured&only=chest,waist", []string{"size", "104cm", "--chart", "measured", "--only", "chest,waist"}},
		{"/api/profile?set=chest%3D53&set=arm_length%3D37", []string{"profile", "--set", "chest=53", "--set", "arm_length=37"}},
		{"/api/blend?set=height%3D110&set=chest%3D20+3/4+in&age=4", []string{"blend", "--set", "height=110", "--set", "chest=20 3/4 in", "--age", "4"}},
		{"/api/blend?widths=2&lengths=5&sex=m", []string{"blend", "--widths", "2", "--lengths", "5", "--sex", "m"}},
		{"/api/garments", []string{"garment"}},
		{"/api/garment?layer=winter&growth=1&option=fold-back-cuffs&extra=sleeve_length%3D2&" + suitQuery,
			append([]string{"garment"}, append(suit, "--layer", "winter", "--growth", "1", "--option", "fold-back-cuffs", "--extra", "sleeve_length=2")...)},
		{"/api/plan?layer=winter&craft=crochet&gauge=16x18/10cm&yarn=50g+125m&swatch=10x10cm+4g&stretch=cuff%3D1.3&" + suitQuery,
			append([]string{"plan"}, append(suit, "--layer", "winter", "--craft", "crochet", "--gauge", "16x18/10cm", "--yarn", "50g 125m", "--swatch", "10x10cm 4g", "--stretch", "cuff=1.3")...)},
		{"/api/plan?garment=cardigan&sizes=2,4,6&craft=knit&gauge=20x28/4in", []string{"plan", "cardigan", "--sizes", "2,4,6", "--craft", "knit", "--gauge", "20x28/4in"}},
		{"/api/plan?garment=pullover&size=4&craft=knit&gauge=20x28/10cm&done=yoke%3D10", []string{"plan", "pullover", "--size", "4", "--craft", "knit", "--gauge", "20x28/10cm", "--done", "yoke=10"}},
		{"/api/charts", []string{"charts"}},
		{"/api/measurements", []string{"measurements"}},
		{"/api/sources", []string{"sources"}},
		{"/api/rules", []string{"rules"}},
		{"/api/version", []string{"version"}},
	}
	for range 2 { // a question that was asked before answers as a new one
		for _, test := range tests {
			r := fetch(h, http.MethodGet, test.target, "")
			code, out, stderr := try(t, noChild, append(test.args, "--format", "json")...)
			require.Zero(t, code, stderr)
			require.Equal(t, http.StatusOK, r.StatusCode, test.target)
			require.Equal(t, "application/json", r.Header.Get("Content-Type"))
			require.Equal(t, out, text(t, r), test.target)
		}
	}
}

// What is posted is checked as the commands check standard input.
func TestAPIChecksAsCommands(t *testing.T) {
	h := pageHandler(t)
	_, draft, _ := try(t, noChild, "plan", "pullover", "--size", "4", "--craft", "knit", "--gauge", "20x28/10cm", "--draft")
	rows := "chart,size,sex,measurement,statistic,value,unit,source,where,basis,review,note\ncraft,4,both,chest,given,68,cm,craft-2018,p. 1,published,one reader,\n"
	tests := []struct {
		target, body string
		status       int
		args         []string
	}{
		{"/api/check", draft, http.StatusOK, []string{"check", "-", "--format", "json"}},
		{"/api/check", strings.Replace(draft, "field", "feild", 1), http.StatusUnprocessableEntity, []string{"check", "-", "--format", "json"}},
		{"/api/rows", rows, http.StatusOK, []string{"rows", "-", "--format", "json"}},
		{"/api/rows", "a,b\n1,2\n", http.StatusUnprocessableEntity, []string{"rows", "-", "--format", "json"}},
		{"/api/review", rows, http.StatusOK, []string{"rows", "-", "--review"}},
	}
	for _, test := range tests {
		r := fetch(h, http.MethodPost, test.target, test.body)
		_, out, _ := try(t, test.body, test.args...)
		require.Equal(t, test.status, r.StatusCode, test.target)
		require.Equal(t, out, text(t, r), test.target)
	}
}

// A draft that names a file has none opened for it.
func TestAPIOpensNoFile(t *testing.T) {
	h := pageHandler(t)
	draft := "field,part,value,unit,note\ngarment,,hat,,\nchild,,../../testdata/children/ines.csv,,\n"
	r := fetch(h, http.MethodPost, "/api/check", draft)
	require.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
	require.NotContains(t, text(t, r), "141")

	for _, target := range []string{"/api/plan?craft=knit&gauge=20x28/10cm&garment=testdata/children/ines.csv", "/api/garment?garment=../../testdata/children/ines.csv", "/api/blend?tables=.", "/api/plan?garment=hat&draft=true"} {
		require.Equal(t, http.StatusBadRequest, fetch(h, http.MethodGet, target, "").StatusCode, target)
	}
}

func TestAPIDraws(t *testing.T) {
	r := fetch(pageHandler(t), http.MethodGet, "/api/draw?garment=pullover&size=5.5&unit=in", "")
	_, out, _ := try(t, noChild, "draw", "-", "pullover", "--size", "5.5", "--unit", "in")
	require.Equal(t, "image/svg+xml", r.Header.Get("Content-Type"))
	require.Equal(t, out, text(t, r))
}

// A short address must not ask for hours of work.
func TestAPIBoundsLists(t *testing.T) {
	h := pageHandler(t)
	for _, target := range []string{"/api/size?" + strings.Repeat("size=4&", 101), "/api/plan?garment=hat&craft=knit&gauge=20x28/10cm&sizes=" + strings.Repeat("4,", 101) + "4", "/api/blend?set=height%3D104&only=" + strings.Repeat("chest,", 101)} {
		r := fetch(h, http.MethodGet, target, "")
		require.Equal(t, http.StatusBadRequest, r.StatusCode)
		require.Contains(t, text(t, r), "values; want at most 100")
	}
	require.Equal(t, http.StatusOK, fetch(h, http.MethodGet, "/api/size?"+strings.Repeat("size=4&", 24), "").StatusCode)
}

func TestAPIFaults(t *testing.T) {
	h := pageHandler(t)
	tests := []struct {
		target, param, words string
	}{
		{"/api/size", "size", "size is missing"},
		{"/api/size?size=99", "size", "outside chart child"},
		{"/api/size?size=4&colour=red", "colour", "unknown parameter"},
		{"/api/size?size=4&linear=perhaps", "linear", "true or false"},
		{"/api/garment?garment=hat&size=4&growth=lots", "growth", "want a number from 0 to 4"},
		{"/api/garment?garment=hat&garment=socks&size=4", "garment", "given 2 times"},
		{"/api/garment?garment=hat&size=4&fit=loose&fit=close", "fit", "given 2 times"},
		{"/api/garment?garment=pulover&size=4", "garment", `did you mean "pullover"?`},
		{"/api/blend?set=chest", "set", "want a measurement and its value"},
		{"/api/plan?garment=hat&size=4&craft=knit", "gauge", "no gauge given"},
		{"/api/draw?garment=hat&size=4&unit=ell", "unit", `unknown unit "ell"`},
		{"/api/size?size=%zz", "", "cannot be read"},
	}
	for _, test := range tests {
		r := fetch(h, http.MethodGet, test.target, "")
		require.Equal(t, http.StatusBadRequest, r.StatusCode, test.target)
		var doc struct {
			Errors []struct{ Parameter, Message string }
		}
		require.NoError(t, json.NewDecoder(r.Body).Decode(&doc), test.target)
		require.NotEmpty(t, doc.Errors, test.target)
		require.Equal(t, test.param, doc.Errors[0].Parameter, test.target)
		require.Contains(t, doc.Errors[0].Message, test.words, test.target)
	}
	require.Equal(t, http.StatusNotFound, fetch(h, http.MethodGet, "/api/nothing", "").StatusCode)
	require.Equal(t, http.StatusMethodNotAllowed, fetch(h, http.MethodPost, "/api/size?size=3", "").StatusCode)
	require.Equal(t, http.StatusMethodNotAllowed, fetch(h, http.MethodGet, "/api/check", "").StatusCode)
}

// The description names every question, parameter and field, and none that is
// not there: answers have the fields that it says, and no others.
func TestOpenAPI(t *testing.T) {
	h := pageHandler(t)
	var doc map[string]any
	require.NoError(t, json.NewDecoder(fetch(h, http.MethodGet, "/api/openapi.json", "").Body).Decode(&doc))
	require.Equal(t, "3.1.0", doc["openapi"])
	paths := doc["paths"].(map[string]any)
	schemas := doc["components"].(map[string]any)["schemas"].(map[string]any)

	require.Len(t, paths, 17)
	for path, methods := range paths {
		for method, op := range methods.(map[string]any) {
			op := op.(map[string]any)
			require.NotEmpty(t, op["summary"], path)
			params, _ := op["parameters"].([]any)
			for _, p := range params {
				p := p.(map[string]any)
				require.NotEmpty(t, p["description"], "%s: %s", path, p["name"])
				// each is taken: what is wrong with its value, if anything, is no unknown name
				r := fetch(h, strings.ToUpper(method), path+"?"+url.Values{p["name"].(string): {"1"}}.Encode(), "")
				require.NotContains(t, text(t, r), "unknown parameter", "%s: %s", path, p["name"])
			}
		}
	}
	for name, s := range schemas {
		for field, p := range s.(map[string]any)["properties"].(map[string]any) {
			require.NotEmpty(t, p.(map[string]any)["description"], "%s.%s is not described", name, field)
		}
	}

	plan := "craft=crochet&gauge=16x18/10cm&yarn=50g+125m&swatch=10x10cm+4g&"
	for _, target := range []string{
		"size?size=3&size=18m", "size?size=toddler&chart=craft-head", "profile?set=chest%3D53&set=height%3D110", "blend?set=height%3D110", "garments", "garment?" + suitQuery,
		"plan?" + plan + suitQuery, "plan?garment=hat&sizes=2,4&" + plan, "plan?garment=pullover&size=4&done=yoke%3D10&" + plan, "charts", "measurements", "sources", "rules", "version",
	} {
		r := fetch(h, http.MethodGet, "/api/"+target, "")
		require.Equal(t, http.StatusOK, r.StatusCode, target)
		name, _, _ := strings.Cut(target, "?")
		op := paths["/api/"+name].(map[string]any)["get"].(map[string]any)
		var answer any
		require.NoError(t, json.NewDecoder(r.Body).Decode(&answer))
		schema := op["responses"].(map[string]any)["200"].(map[string]any)["content"].(map[string]any)["application/json"].(map[string]any)["schema"].(map[string]any)
		require.NoError(t, fits(schemas, schema, answer), target)
	}
	r := fetch(h, http.MethodPost, "/api/rows", "chart,size,sex,measurement,statistic,value,unit,source,where,basis,review,note\ncraft,4,both,chest,given,68,cm,craft-2018,p. 1,published,one reader,\n")
	var findings any
	require.NoError(t, json.NewDecoder(r.Body).Decode(&findings))
	require.NotEmpty(t, findings)
	require.NoError(t, fits(schemas, map[string]any{"type": "array", "items": map[string]any{"$ref": "#/components/schemas/Finding"}}, findings))
}

// fits checks a value against a schema as far as the description uses schemas;
// fields that the schema does not have are faults too.
func fits(schemas, schema map[string]any, v any) error {
	if ref, ok := schema["$ref"].(string); ok {
		s, ok := schemas[strings.TrimPrefix(ref, "#/components/schemas/")].(map[string]any)
		if !ok {
			return errors.New(ref + " is not there")
		}
		return fits(schemas, s, v)
	}
	if several, ok := schema["oneOf"].([]any); ok {
		var last error
		n := 0
		for _, s := range several {
			if err := fits(schemas, s.(map[string]any), v); err != nil {
				last = err
			} else {
				n++
			}
		}
		if n != 1 {
			return errors.New("not one of several: " + last.Error())
		}
		return nil
	}
	var types []string
	switch x := schema["type"].(type) {
	case string:
		types = []string{x}
	case []any:
		for _, k := range x {
			types = append(types, k.(string))
		}
	}
	is := ""
	switch x := v.(type) {
	case nil:
		is = "null"
	case string:
		is = "string"
	case bool:
		is = "boolean"
	case float64:
		is = "number"
		if slices.Contains(types, "integer") && x == float64(int(x)) {
			is = "integer"
		}
	case []any:
		is = "array"
		for _, one := range x {
			if err := fits(schemas, schema["items"].(map[string]any), one); err != nil {
				return err
			}
		}
	case map[string]any:
		is = "object"
		properties, _ := schema["properties"].(map[string]any)
		for name, one := range x {
			p, ok := properties[name].(map[string]any)
			if !ok {
				return errors.New(name + " is not described")
			}
			if err := fits(schemas, p, one); err != nil {
				return errors.New(name + ": " + err.Error())
			}
		}
		required, _ := schema["required"].([]any)
		for _, name := range required {
			if _, ok := x[name.(string)]; !ok {
				return errors.New(name.(string) + " is missing")
			}
		}
	}
	if !slices.Contains(types, is) {
		return errors.New(is + " is none of " + strings.Join(types, ", "))
	}
	return nil
}

func BenchmarkAPIPlan(b *testing.B) {
	h := pageHandler(b)
	for b.Loop() {
		r := fetch(h, http.MethodGet, "/api/plan?craft=crochet&gauge=16x18/10cm&"+suitQuery, "")
		if r.StatusCode != http.StatusOK {
			b.Fatal(r.Status)
		}
	}
}
