package main

import (
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
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
			require.Equal(t, out, withoutEdition(t, text(t, r)), test.target)
			require.Contains(t, r.Header.Get("Growtuck-Edition"), "SHA-256")
			require.NotEmpty(t, r.Header.Get("Growtuck-Version"))
		}
	}
}

// withoutEdition takes the edition of the tables, which the API says and a command does
// not, out of an answer.
func withoutEdition(t *testing.T, answer string) string {
	t.Helper()
	first, rest, ok := strings.Cut(answer, ",\n")
	require.True(t, ok)
	require.Regexp(t, `^\{\n  "edition": "tables [0-9.]+ of [-0-9]+(, changed)?, SHA-256 [0-9a-f]{64}"$`, first)
	return "{\n" + rest
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
		answer := text(t, r)
		if test.status == http.StatusUnprocessableEntity { // a problem, with the findings that the command prints
			require.Equal(t, "application/problem+json", r.Header.Get("Content-Type"))
			var doc struct{ Findings json.RawMessage }
			require.NoError(t, json.Unmarshal([]byte(answer), &doc))
			require.JSONEq(t, out, string(doc.Findings), test.target)
			continue
		}
		require.Equal(t, out, answer, test.target)
	}
}

const choir = "name,sex,age,height,chest\nInes,f,9.25,141,61\nOtto,m,7,124,sixty\nAda,f,8.5,131,64\n"

// A list that is posted is sized as the commands size it, and what is left out is named.
func TestAPIReadsLists(t *testing.T) {
	h := pageHandler(t)
	type rejected struct {
		Line, Column int
		Reason       string
	}
	var batch struct {
		Children []json.RawMessage
		LeftOut  int `json:"left_out"`
		Rejected []rejected
	}
	answer := fetch(h, http.MethodPost, "/api/batch?garment=cardigan&fit=loose&ranges=true&want=chest,waist", choir)
	require.Equal(t, http.StatusOK, answer.StatusCode)
	require.NoError(t, json.NewDecoder(answer.Body).Decode(&batch))
	_, out, stderr := try(t, choir, "batch", "--garment", "cardigan", "--fit", "loose", "--ranges", "--want", "chest,waist", "--format", "json")
	lines := strings.Split(strings.TrimSpace(out), "\n")
	require.Len(t, batch.Children, len(lines))
	for i, line := range lines {
		require.JSONEq(t, line, string(batch.Children[i]))
	}
	require.Equal(t, 1, batch.LeftOut)
	require.Equal(t, 3, batch.Rejected[0].Line)
	require.Contains(t, stderr, batch.Rejected[0].Reason)
	require.NotContains(t, batch.Rejected[0].Reason, "sixty", "what was measured is in no message")

	var order struct {
		Sizes    []struct{ Size string }
		Rejected []rejected
		Each     []struct{ Name, Size string }
	}
	answer = fetch(h, http.MethodPost, "/api/order?sizes=6,8,10&by=chest&each=true", choir)
	require.Equal(t, http.StatusOK, answer.StatusCode)
	require.NoError(t, json.NewDecoder(answer.Body).Decode(&order))
	doc := planOf(t, strings.Replace(choir, "Otto,m,7,124,sixty\n", "", 1), "--sizes", "6,8,10", "--by", "chest")
	require.Len(t, order.Sizes, len(doc.Sizes))
	require.Equal(t, "Ines", order.Each[0].Name)
	require.Len(t, order.Rejected, 1)

	faults := []struct {
		target, body, param, words string
		status                     int
	}{
		{"/api/batch?fit=loose", choir, "fit", "needs a garment", http.StatusBadRequest},
		{"/api/batch?header=false", choir, "columns", "has no header", http.StatusBadRequest},
		{"/api/batch?rejects=out.csv", choir, "rejects", "unknown parameter", http.StatusBadRequest},
		{"/api/batch", "a,b\n1,2\n", "", "no column is a measurement", http.StatusUnprocessableEntity},
		{"/api/batch", "chest\n" + strings.Repeat("53\n", 10_001), "", "at most 10000 children", http.StatusUnprocessableEntity},
		{"/api/batch", "chest\n" + strings.Repeat("53\n", 400_000), "", "more than 1 MiB", http.StatusRequestEntityTooLarge},
		{"/api/order?sizes=6,20", choir, "sizes", "outside chart child", http.StatusBadRequest},
		{"/api/order?best=40", choir, "best", "only 13 to choose from", http.StatusBadRequest},
		{"/api/order?by=weight", choir, "by", "lengths and girths", http.StatusBadRequest},
		{"/api/order?cuts=2", choir, "by", "cuts uses one measurement", http.StatusBadRequest},
		{"/api/order", "height\nx\n", "", "no child to plan for", http.StatusUnprocessableEntity},
	}
	for _, test := range faults {
		answer := fetch(h, http.MethodPost, test.target, test.body)
		require.Equal(t, test.status, answer.StatusCode, test.target)
		p := problemIn(t, answer)
		require.Contains(t, p.Detail, test.words, test.target)
		if test.param != "" {
			require.Equal(t, test.param, p.Errors[0].Parameter, test.target)
		}
	}
}

// A list takes its time for the most children that are read, and no longer.
func TestAPIOrdersManyChildren(t *testing.T) {
	many := "height,chest\n" + strings.Repeat("110,53\n120,61\n131,64\n", 3300)
	r := fetch(pageHandler(t), http.MethodPost, "/api/order?best=6&halves=true", many)
	require.Equal(t, http.StatusOK, r.StatusCode)
	var doc struct{ Children int }
	require.NoError(t, json.NewDecoder(r.Body).Decode(&doc))
	require.Equal(t, 9900, doc.Children)
}

// What is exported are the files that growtuck export writes.
func TestAPIExports(t *testing.T) {
	h := pageHandler(t)
	dir := t.TempDir()
	for _, test := range []struct {
		query string
		args  []string
	}{
		{"garment=hat&size=6&craft=knit&gauge=20x28/10cm&unit=in", []string{"hat", "--size", "6", "--craft", "knit", "--gauge", "20x28/10cm", "--unit", "in"}},
		{"garment=cardigan&sizes=4,6&craft=knit&gauge=20x28/10cm", []string{"cardigan", "--sizes", "4,6", "--craft", "knit", "--gauge", "20x28/10cm"}},
	} {
		for api, file := range map[string]string{"plan.xlsx": "plan.xlsx", "pattern.html": "pattern.html"} {
			file = filepath.Join(dir, file)
			code, _, stderr := try(t, noChild, append([]string{"export", file, "--force"}, test.args...)...)
			require.Zero(t, code, stderr)
			want, err := os.ReadFile(file)
			require.NoError(t, err)
			r := fetch(h, http.MethodGet, "/api/export/"+api+"?"+test.query, "")
			require.Equal(t, http.StatusOK, r.StatusCode, api)
			require.True(t, string(want) == text(t, r), api)
		}
	}
	for _, name := range []string{"child.xlsx", "draft.xlsx"} {
		require.True(t, strings.HasPrefix(text(t, fetch(h, http.MethodGet, "/api/export/"+name, "")), "PK"), name)
	}
	r := fetch(h, http.MethodGet, "/api/export/finished.csv?garment=cardigan&sizes=4,6", "")
	require.Equal(t, http.StatusOK, r.StatusCode)
	rows, err := csv.NewReader(r.Body).ReadAll()
	require.NoError(t, err)
	require.Equal(t, []string{"4", "cardigan"}, rows[1][:2])
	require.Equal(t, "6", rows[len(rows)-1][0])
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
		{"/api/size?size=20", "size", "outside chart child"},
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
		// what the garment or the plan refuses is the fault of the value without which it does not
		{"/api/garment?garment=hat&size=4&extra=sleeve_length%3D2", "extra", `unknown part of hat "sleeve_length"`},
		{"/api/garment?garment=pullover&size=4&ease=chest%3D8&ease=sock%3D1", "ease", `"sock"`},
		{"/api/plan?garment=pullover&size=4&craft=knit&gauge=20x28/10cm&multiple=900n", "multiple", "want multiples"},
		{"/api/plan?garment=pullover&size=4&craft=knit&gauge=20x28/10cm&done=yoke%3D1000", "done", "rows done of yoke"},
		{"/api/plan?garment=pullover&size=4&craft=knit&gauge=20x28/10cm&done=yoke%3D10&longer=sock%3D2", "longer", `unknown section "sock"`},
		{"/api/plan?garment=cardigan&size=4&craft=knit&gauge=20x28/10cm&zippers=900", "zippers", "stocked zipper"},
		{"/api/profile?sex=f", "set", "no measurements to find"},
		{"/api/garment?garment=pullover&sex=m", "set", "nothing to estimate from"},
	}
	for _, test := range tests {
		r := fetch(h, http.MethodGet, test.target, "")
		require.Equal(t, http.StatusBadRequest, r.StatusCode, test.target)
		p := problemIn(t, r)
		require.NotEmpty(t, p.Errors, test.target)
		require.Equal(t, test.param, p.Errors[0].Parameter, test.target)
		require.Contains(t, p.Errors[0].Detail, test.words, test.target)
	}
	for _, test := range []struct {
		method, target, words, allow string
		status                       int
	}{
		{http.MethodGet, "/api/nothing", `unknown question "nothing"`, "", http.StatusNotFound},
		{http.MethodGet, "/api/garmet", `did you mean "garment"?`, "", http.StatusNotFound},
		{http.MethodPost, "/api/size?size=3", "takes GET, HEAD, not POST", "GET, HEAD", http.StatusMethodNotAllowed},
		{http.MethodGet, "/api/check", "takes POST, not GET", "POST", http.StatusMethodNotAllowed},
		{http.MethodDelete, "/api/size", "GET, HEAD or POST", "GET, HEAD, POST", http.StatusMethodNotAllowed},
	} {
		r := fetch(h, test.method, test.target, "")
		require.Equal(t, test.status, r.StatusCode, test.target)
		require.Equal(t, test.allow, r.Header.Get("Allow"), test.target)
		p := problemIn(t, r)
		require.Equal(t, "about:blank", p.Type)
		require.Contains(t, p.Detail, test.words)
	}
	require.Equal(t, http.StatusNotFound, fetch(h, http.MethodGet, "/nothing", "").StatusCode)
	require.Equal(t, "application/problem+json", fetch(h, http.MethodPost, "/api/check", "x", "Sec-Fetch-Site", "cross-site").Header.Get("Content-Type"))
}

// A problem is an answer as RFC 9457 has it.
type problem struct {
	Type, Title, Detail, Edition string
	Status                       int
	Errors                       []struct{ Parameter, Key, Detail string }
}

// problemIn reads a problem, and that it is one: its members, its type's description.
func problemIn(t *testing.T, r *http.Response) (p problem) {
	t.Helper()
	require.Equal(t, "application/problem+json", r.Header.Get("Content-Type"))
	require.NoError(t, json.NewDecoder(r.Body).Decode(&p))
	require.Equal(t, r.StatusCode, p.Status)
	require.NotEmpty(t, p.Title)
	require.NotEmpty(t, p.Detail)
	require.Contains(t, p.Edition, "SHA-256")
	if p.Type != "about:blank" {
		id, ok := strings.CutPrefix(p.Type, "/api/#")
		require.True(t, ok, p.Type)
		require.Contains(t, text(t, fetch(pageHandler(t), http.MethodGet, "/api/", "")), `"id": "`+id+`"`)
	}
	return p
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

	require.Len(t, paths, 34)
	ids := make(map[any]bool)
	for path, methods := range paths {
		for method, op := range methods.(map[string]any) {
			op := op.(map[string]any)
			require.NotEmpty(t, op["summary"], path)
			require.Regexp(t, "^[a-z_]+$", op["operationId"])
			require.False(t, ids[op["operationId"]], "%s is there twice", op["operationId"])
			ids[op["operationId"]] = true
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
	require.NoError(t, resolve(doc, doc))
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

// resolve follows every reference of the description.
func resolve(doc map[string]any, v any) error {
	switch x := v.(type) {
	case []any:
		for _, one := range x {
			if err := resolve(doc, one); err != nil {
				return err
			}
		}
	case map[string]any:
		if ref, ok := x["$ref"].(string); ok {
			at := any(doc)
			for _, name := range strings.Split(strings.TrimPrefix(ref, "#/"), "/") {
				in, _ := at.(map[string]any)
				at = in[name]
			}
			if at == nil {
				return errors.New(ref + " is not there")
			}
		}
		for _, one := range x {
			if err := resolve(doc, one); err != nil {
				return err
			}
		}
	}
	return nil
}

// Each question in the description has an example. Sent as it stands there it gets the
// answer that stands there, which is what the description says of answers.
func TestOpenAPIExamples(t *testing.T) {
	h := pageHandler(t)
	var doc map[string]any
	require.NoError(t, json.NewDecoder(fetch(h, http.MethodGet, "/api/openapi.json", "").Body).Decode(&doc))
	schemas := doc["components"].(map[string]any)["schemas"].(map[string]any)
	compared := 0
	for path, methods := range doc["paths"].(map[string]any) {
		if path == "/api/openapi.json" {
			continue
		}
		for method, op := range methods.(map[string]any) {
			op := op.(map[string]any)
			query := url.Values{}
			for _, p := range op["parameters"].([]any) {
				p := p.(map[string]any)
				switch x := p["example"].(type) {
				case nil:
					require.False(t, p["required"].(bool), "%s: %s has no example", path, p["name"])
				case []any:
					for _, one := range x {
						query.Add(p["name"].(string), one.(string))
					}
				default:
					query.Set(p["name"].(string), fmt.Sprint(x))
				}
			}
			body := ""
			if posted, ok := op["requestBody"].(map[string]any); ok {
				body = posted["content"].(map[string]any)["text/csv"].(map[string]any)["example"].(string)
			}
			r := fetch(h, strings.ToUpper(method), path+"?"+query.Encode(), body)
			require.Equal(t, http.StatusOK, r.StatusCode, "%s: %s", path, query)
			media, _, _ := strings.Cut(r.Header.Get("Content-Type"), ";")
			content, ok := op["responses"].(map[string]any)["200"].(map[string]any)["content"].(map[string]any)[media].(map[string]any)
			require.True(t, ok, "%s answers with %s", path, media)
			answer := text(t, r)
			require.NotEmpty(t, answer)
			switch {
			case strings.HasPrefix(answer, "PK"), media == "image/png": // bytes: there is no example
				continue
			case media == "application/json":
				var got any
				require.NoError(t, json.Unmarshal([]byte(answer), &got))
				require.Equal(t, content["example"], got, path)
				require.NoError(t, fits(schemas, content["schema"].(map[string]any), got), path)
			default:
				require.Equal(t, content["example"], answer, path)
			}
			compared++
		}
	}
	require.Greater(t, compared, 20)
}

// The index names every question with an example that has an answer.
func TestAPIIndex(t *testing.T) {
	h := pageHandler(t)
	var doc struct {
		API, Edition, Description string
		Questions                 []struct{ Method, Path, Summary, Example string }
	}
	require.NoError(t, json.NewDecoder(fetch(h, http.MethodGet, "/api/", "").Body).Decode(&doc))
	require.NotEmpty(t, doc.API)
	require.Contains(t, doc.Edition, "SHA-256")
	require.Equal(t, http.StatusOK, fetch(h, http.MethodGet, doc.Description, "").StatusCode)
	for _, q := range doc.Questions {
		require.NotEmpty(t, q.Summary)
		if q.Method == http.MethodGet {
			require.Equal(t, http.StatusOK, fetch(h, http.MethodGet, q.Example, "").StatusCode, q.Example)
		}
	}
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
	if of, ok := schema["additionalProperties"].(map[string]any); ok {
		for name, one := range v.(map[string]any) {
			if err := fits(schemas, of, one); err != nil {
				return errors.New(name + ": " + err.Error())
			}
		}
		return nil
	}
	if _, described := schema["properties"]; !described && schema["type"] == "object" {
		return nil // any object
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
