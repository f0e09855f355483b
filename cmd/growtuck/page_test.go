package main

import (
	"bytes"
	"encoding/json"
	"html"
	"html/template"
	"io"
	"mime/multipart"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/data"
	"growtuck/sizing"
	"growtuck/testdata/proof"
	"growtuck/validate"
)

// makerQuery is a baby who was measured, and a pram suit over winter clothes.
const makerQuery = "sex=m&age=22m&height=89.5&chest=50.5&hip=51%2C5&arm_length=28.5&inside_leg=13+3%2F4+in" +
	"&garment=one-piece-hooded&layer=winter&growth=1&stitches=16&rows=18&yarn=50g+125m&swatch=10x10cm+4g"

func TestPageForMaker(t *testing.T) {
	r := fetch(pageHandler(t), http.MethodGet, "/?"+makerQuery, "")
	require.Equal(t, http.StatusOK, r.StatusCode)
	html := text(t, r)
	for _, want := range []string{
		`value="89.5"`, `value="51,5"`, `value="13 3/4 in"`, // as typed
		"Boy, 1 year 10 months", "measured on the child", "about eight of ten US children", // where numbers come from
		"One-piece suit with a hood, classic fit over winter clothes, growth room for half a year", ">64.0</button>",
		"<svg", "drawn to scale", "98 stitches", "Back of the neck", " balls of 50 g / 125 m: ",
		"C07", "harness of a car seat", "local law and licensed practice decide",
		"files/plan.xlsx?", "What you type stays here", "Craft Yarn Council&#39;s www.YarnStandards.com",
	} {
		requireHas(t, html, want)
	}
	requireSound(t, html)
}

func TestPageForDesigner(t *testing.T) {
	h := pageHandler(t)
	html := text(t, fetch(h, http.MethodGet, "/sizes?sizes=3,4,5,6&garment=cardigan&craft=knit&stitches=20&rows=28", ""))
	for _, want := range []string{">5</th>", ">66.0</button>", "Cardigan, classic fit", "stitches</td>", "The pattern in all sizes", "Growth along chart child: chest girth from 53.0 to 82.5 cm", "between, child, between 4 and 6"} {
		requireHas(t, html, want)
	}
	requireSound(t, html)
	html = text(t, fetch(h, http.MethodGet, "/sizes?chart=measured&sizes=104cm,110cm&sex=f&tape=in&curve=foot_length", ""))
	requireHas(t, html, "Growth along chart measured: foot length from")
	requireSound(t, html)
	html = text(t, fetch(h, http.MethodGet, "/sizes?sizes=3,20,x", ""))
	requireHas(t, html, "outside chart child")
	requireHas(t, html, `unknown size of chart child &#34;x&#34;`)
	requireSound(t, html)
}

const badRows = "chart,size,sex,measurement,statistic,value,unit,source,where,basis,review,note\n" +
	"craft,4,both,chest,given,68,cm,craft-2018,made up,published,one reader,<script>alert(1)</script>\n" +
	"craft,4,both,hipp,given,60,cm,craft-2018,made up,published,one reader,\n"

func TestPageForContributor(t *testing.T) {
	h := pageHandler(t)
	requireSound(t, text(t, fetch(h, http.MethodGet, "/rows", "")))
	form := []string{"Content-Type", "application/x-www-form-urlencoded"}
	r := fetch(h, http.MethodPost, "/rows", url.Values{"rows": {badRows}}.Encode(), form...)
	require.Equal(t, http.StatusOK, r.StatusCode)
	html := text(t, r)
	for _, want := range []string{"R22", "68 cm and 23 in", "R07", "hipp", "pasted:3:14", "Review sheet", "2: 53", "6: 63.5", "&lt;script&gt;"} {
		requireHas(t, html, want)
	}
	requireSound(t, html)

	row := `measured-infants,12-15m,both,knee_height,p50,25,cm,cpsc-1977,"infant summary table, 12–15 months",published,read from the NIST distribution,`
	html = text(t, fetch(h, http.MethodPost, "/rows", url.Values{"rows": {strings.SplitAfter(badRows, "\n")[0] + row + "\n"}}.Encode(), form...))
	requireHas(t, html, "measured-infants 12-15m knee_height p50: 25 cm") // by ids, as growtuck rows says it

	var body bytes.Buffer
	w := multipart.NewWriter(&body)
	part, err := w.CreateFormFile("file", "proposed.csv")
	require.NoError(t, err)
	_, err = io.WriteString(part, badRows)
	require.NoError(t, err)
	require.NoError(t, w.Close())
	html = text(t, fetch(h, http.MethodPost, "/rows", body.String(), "Content-Type", w.FormDataContentType()))
	requireHas(t, html, "proposed.csv:3:14")

	_, draft, _ := try(t, noChild, "plan", "pullover", "--size", "4", "--craft", "knit", "--gauge", "20x28/10cm", "--draft")
	html = text(t, fetch(h, http.MethodPost, "/rows", url.Values{"rows": {draft}}.Encode(), form...))
	requireHas(t, html, "Findings about the draft")
	for body, want := range map[string]string{
		"": "Nothing was given", "rows=PK%03%04": "That is a workbook", "rows=id,title,source,note%0A": "columns of charts.csv", "rows=%zz": "invalid URL escape",
	} {
		requireHas(t, text(t, fetch(h, http.MethodPost, "/rows", body, form...)), want)
	}
}

// requireHas checks that a page has a text, without printing the whole page.
func requireHas(t testing.TB, html, want string, about ...any) {
	t.Helper()
	require.True(t, strings.Contains(html, want), "no %q on the page; %v", want, about)
}

func requireHasNot(t testing.TB, html, text string) {
	t.Helper()
	require.False(t, strings.Contains(html, text), "%q is on the page", text)
}

// requireSound checks what holds for every view: nothing from elsewhere, no
// inline script or style, ids that are there once, and references that lead
// somewhere.
func requireSound(t testing.TB, html string) {
	t.Helper()
	require.Empty(t, regexp.MustCompile(`(?:src|href|action|srcset|poster)="(?:[a-z]+:|/)`).FindString(html), "addresses are relative: the page may be below any path")
	require.Empty(t, regexp.MustCompile(`<[^>]*\s(?:style|on[a-z]+)=`).FindString(html))
	require.Empty(t, regexp.MustCompile(`<style|<script[^>]*>[^<]|url\(`).FindString(html))
	requireHasNot(t, html, "ZgotmplZ")
	ids := make(map[string]bool)
	for _, m := range regexp.MustCompile(`\sid="([^"]*)"`).FindAllStringSubmatch(html, -1) {
		require.False(t, ids[m[1]], "id %s is there twice", m[1])
		ids[m[1]] = true
	}
	for _, m := range regexp.MustCompile(`\s(?:for|popovertarget|aria-labelledby|aria-describedby)="([^"]*)"`).FindAllStringSubmatch(html, -1) {
		for _, id := range strings.Fields(m[1]) {
			require.True(t, ids[id], "%s is named and not there", id)
		}
	}
	for _, m := range regexp.MustCompile(`<(?:input|select|textarea)[^>]*\sid="([^"]*)"`).FindAllStringSubmatch(html, -1) {
		requireHas(t, html, `<label for="`+m[1]+`"`)
	}
}

// Wrong entries are shown as they were typed, with what would be right.
func TestPageFaults(t *testing.T) {
	h := pageHandler(t)
	html := text(t, fetch(h, http.MethodGet, "/?height=tall+%3Cb%3E&chest=53&size=4", ""))
	requireHas(t, html, `value="tall &lt;b&gt;" data-unit="cm" aria-describedby="height-fault" aria-invalid="true"`)
	requireHas(t, html, "write it as 24.5, 24.5 cm or 9 3/4 in")
	requireHas(t, html, "One entry needs a look: Height.")
	requireHas(t, html, `href="files/finished.csv?chest=53&amp;size=4"`) // what is wrong is left out of it
	requireSound(t, html)
	requireHas(t, text(t, fetch(h, http.MethodGet, "/?height=110&chest=95", "")), "Check first:")
	giant := text(t, fetch(h, http.MethodGet, "/?tape=in&height=110.5", ""))
	requireHas(t, giant, `value="110.5" data-unit="cm" aria-describedby="height-fault" aria-invalid="true"`)
	requireHas(t, giant, `>Set to 43 1/2 in</button>`)
	requireHasNot(t, giant, "alert")
	requireHas(t, text(t, fetch(h, http.MethodGet, "/", "")), "Nothing is known of the child yet")
}

// For a tape in inches no length is in centimetres alone, and a gauge reads as
// it was counted.
func TestPageInInches(t *testing.T) {
	page := text(t, fetch(pageHandler(t), http.MethodGet, "/?tape=in&height=52+1/2&chest=17&garment=one-piece-hooded&layer=winter&stitches=16&rows=18&over=4in", ""))
	shown := regexp.MustCompile(`<svg[\s\S]*?</svg>|<[^>]*>`).ReplaceAllString(page, "")
	shown = strings.NewReplacer("110 cm,", "", ">10 cm<", "", "10 cm\n", "").Replace(shown) // what may be typed or chosen
	tables, err := data.Load(data.Embedded())
	require.NoError(t, err)
	for _, e := range tables.Ease { // notes of tables say what their sources do
		shown = strings.ReplaceAll(shown, template.HTMLEscapeString(e.Note), "")
	}
	for _, l := range tables.Lengths {
		shown = strings.ReplaceAll(shown, template.HTMLEscapeString(l.Why), "")
	}
	for _, m := range regexp.MustCompile(`.{0,40}?\d cm\b( \(|\)|²)?`).FindAllStringSubmatch(shown, -1) {
		require.NotEmpty(t, m[1], m[0])
	}
	for _, want := range []string{"16 stitches and 18 rows to 4 in, in the washed swatch.", "Check first:", "In inches."} {
		requireHas(t, page, want)
	}
}

// Findings say what to do on the page, not in the file of a draft.
func TestPageSaysWhatToDoHere(t *testing.T) {
	h := pageHandler(t)
	ref, err := sizing.Default()
	require.NoError(t, err)
	for _, g := range ref.Garments() {
		for _, more := range []string{"", "&age=2y&layer=winter&closure=buttons", "&age=5y&stretch=1,1", "&height=112&chest=52"} {
			page := text(t, fetch(h, http.MethodGet, "/?size=4&stitches=16&rows=18&garment="+g.ID+more, ""))
			for _, foreign := range []string{" a row ", "--", "of chart child", g.ID + ":"} {
				for _, m := range regexp.MustCompile(`(?s)<li class="finding.*?</li>|<p class="trouble.*?</p>|<ul class="notes.*?</ul>`).FindAllString(page, -1) {
					require.NotContains(t, m, foreign, g.ID+more)
				}
			}
		}
	}
	requireHas(t, text(t, fetch(h, http.MethodGet, "/?size=4&stitches=16&rows=18", "")), "Measure on the swatch how far it stretches and enter it at “How many times edges stretch”, for example cuff=1.3")
}

// A tape that is changed does not change what was measured by it, without
// JavaScript too.
func TestPageTapeChanged(t *testing.T) {
	h := pageHandler(t)
	page := text(t, fetch(h, http.MethodGet, "/?tape=in&was=cm&height=110.5&weight=17&chest=20+3/4+in&garment=hat&extra.brim=1", ""))
	for _, want := range []string{`value="110.5 cm"`, `value="17 kg"`, `value="20 3/4 in"`, `value="1 cm"`, `name="was" value="in"`} {
		requireHas(t, page, want)
	}
	requireHasNot(t, page, "was=")
}

// Every file that the page offers can be had, and drafts pass their check.
func TestPageFiles(t *testing.T) {
	h := pageHandler(t)
	for _, query := range []string{makerQuery, "size=6&garment=cardigan&craft=knit&stitches=20&rows=28&tape=in", "widths=2&lengths=5&chest=21+in&garment=trousers&stitches=16&rows=18"} {
		links := regexp.MustCompile(`href="(files/([^?"]*)[^"]*)"`).FindAllStringSubmatch(text(t, fetch(h, http.MethodGet, "/?"+query, "")), -1)
		require.Len(t, links, 9, query)
		dir := t.TempDir()
		for _, l := range links {
			r := fetch(h, http.MethodGet, "/"+html.UnescapeString(l[1]), "")
			file := text(t, r)
			require.Equal(t, http.StatusOK, r.StatusCode, "%s: %s", l[1], file)
			require.Contains(t, r.Header.Get("Content-Disposition"), "attachment; filename=")
			require.NoError(t, os.WriteFile(filepath.Join(dir, l[2]), []byte(file), 0o600))
		}
		for _, name := range []string{"draft.csv", "plan.xlsx"} {
			code, out, stderr := try(t, noChild, "check", filepath.Join(dir, name))
			require.Zero(t, code, out+stderr)
		}
		code, _, stderr := try(t, noChild, "plan", filepath.Join(dir, "plan.xlsx"))
		require.Zero(t, code, stderr)
	}
	require.Equal(t, http.StatusNotFound, fetch(h, http.MethodGet, "/files/passwd", "").StatusCode)
	for _, garment := range []string{`x"; filename="y.exe`, "../../x", "é"} { // no garment, so no part of a file's name
		r := fetch(h, http.MethodGet, "/files/body.csv?size=4&garment="+url.QueryEscape(garment), "")
		require.Equal(t, `attachment; filename="body.csv"`, r.Header.Get("Content-Disposition"))
	}
	require.Equal(t, http.StatusBadRequest, fetch(h, http.MethodGet, "/files/plan.xlsx", "").StatusCode)
}

// What the page shows is what the commands print for the same question, by
// default of some garments: TestAPIAnswersAsCommands compares the rest.
func TestPageShowsWhatCommandsPrint(t *testing.T) {
	h := pageHandler(t)
	ref, err := sizing.Default()
	require.NoError(t, err)
	for i, g := range ref.Garments() {
		if i%4 != 0 && !proof.Whole() {
			continue
		}
		_, out, stderr := try(t, noChild, "plan", g.ID, "--set", "height=104", "--set", "chest=55", "--craft", "knit", "--gauge", "22x30/10cm", "--format", "csv")
		require.NotEmpty(t, out, stderr)
		file := fetch(h, http.MethodGet, "/files/plan.csv?height=104&chest=55&craft=knit&stitches=22&rows=30&garment="+g.ID, "")
		require.Equal(t, out, text(t, file))
		html := text(t, fetch(h, http.MethodGet, "/?height=104&chest=55&craft=knit&stitches=22&rows=30&garment="+g.ID, ""))
		for _, m := range regexp.MustCompile(`(?m)^finished,[^\n]*,"?(\d+ (?:stitches|rows)),`).FindAllStringSubmatch(out, -1) {
			requireHas(t, html, ">"+m[1]+"</button>", g.ID)
		}
		requireSound(t, html)
	}
}

// The largest page, with what it loads, is small as it is sent.
func TestPageBytes(t *testing.T) {
	h := pageHandler(t)
	sent := func(target string, more ...string) int {
		r := fetch(h, http.MethodGet, target, "", append([]string{"Accept-Encoding", "gzip"}, more...)...)
		require.Equal(t, http.StatusOK, r.StatusCode)
		require.Equal(t, "gzip", r.Header.Get("Content-Encoding"))
		plain := len(text(t, fetch(h, http.MethodGet, target, "", more...)))
		n := len(text(t, r))
		t.Logf("%d bytes, %d as they are sent: %s", plain, n, target)
		return n
	}
	files := 0
	for _, name := range []string{"page.css", "page.js", "address.js", "mark.svg"} {
		files += sent("/static/" + name)
	}
	for _, target := range []string{
		"/?" + makerQuery, "/?" + strings.ReplaceAll(makerQuery, "16&rows=18", "40&rows=60"), "/?" + makerQuery + "&yoke=raglan",
		"/?" + strings.ReplaceAll(makerQuery, "layer=winter", "layer=winter&yoke=drop-shoulder&rib-stitches=14&rib-rows=20&waist=50&head=51"),
		"/sizes", "/sizes?sizes=2,3,4,5,6,7&stitches=20&rows=28&garment=one-piece-hooded",
	} {
		require.LessOrEqual(t, files+sent(target), 60_000)
	}
}

// An answer to what a browser shows already has the parts that differ, and only those.
func TestPageSendsWhatChanged(t *testing.T) {
	h := pageHandler(t)
	marks := func(page string) (all []string) {
		for _, m := range regexp.MustCompile(`<div id="([^"]*)"(?: class="[^"]*")? data-live="([^"]*)"`).FindAllStringSubmatch(page, -1) {
			all = append(all, m[1]+"="+m[2])
		}
		return all
	}
	before := marks(text(t, fetch(h, http.MethodGet, "/?"+makerQuery, "")))
	require.Greater(t, len(before), 20)
	ids := func(query string) (all []string) {
		html := text(t, fetch(h, http.MethodGet, "/?"+query, "", "Growtuck-Shown", strings.Join(before, ",")))
		require.NotContains(t, html, "<html")
		for _, m := range marks(html) {
			id, _, _ := strings.Cut(m, "=")
			all = append(all, id)
		}
		return all
	}
	require.Empty(t, ids(makerQuery))
	require.Equal(t, []string{"r-views", "c-materials", "c-yarn", "r-files"}, ids(strings.Replace(makerQuery, "50g+125m", "50g+120m", 1)), "the yarn")
	require.Equal(t, []string{"r-views", "r-bar", "r-look", "r-plan", "c-materials", "c-growth", "c-notes", "r-files"}, ids(strings.Replace(makerQuery, "50g+125m", "big", 1)), "what is wrong with the yarn")
	require.Subset(t, ids(strings.Replace(makerQuery, "height=89.5", "height=95", 1)), []string{"r-child", "r-garment", "c-body"})
}

// The page's cautions are those of the check, for the ages that it says.
func TestPageCautions(t *testing.T) {
	html := text(t, fetch(pageHandler(t), http.MethodGet, "/?"+makerQuery, ""))
	_, out, _ := try(t, noChild, "plan", "one-piece-hooded", "--set", "height=89.5", "--set", "chest=50.5", "--set", "hip=51.5", "--set", "arm_length=28.5", "--set", "inside_leg=13 3/4 in",
		"--sex", "m", "--age", "22m", "--layer", "winter", "--growth", "1", "--craft", "crochet", "--gauge", "16x18/10cm", "--yarn", "50g 125m", "--swatch", "10x10cm 4g")
	n := 0
	for _, r := range validate.DraftRules() {
		if strings.Contains(out, " "+r.Code+": ") {
			n++
			requireHas(t, html, "Rule "+r.Code+":")
		} else {
			requireHasNot(t, html, "Rule "+r.Code+":")
		}
	}
	require.Positive(t, n)
}

// The cautions do not wait for a gauge, nor for a plan that cannot be made.
func TestPageCautionsBeforeAPlan(t *testing.T) {
	for _, c := range []struct {
		query string
		rules []string
	}{
		{"/?garment=one-piece-hooded&layer=winter&height=89.5&age=22m", []string{"C05", "C07"}},
		{"/?garment=one-piece-hooded&layer=winter&age=24m", []string{"C05", "C07"}},
		{"/?garment=one-piece-hooded&layer=winter&height=71&age=9m&craft=knit&stitches=20&rows=28", []string{"C05", "C07"}},
		{"/?garment=one-piece-hooded&size=4", []string{"C05"}},
		{"/?garment=pullover&size=4", nil},
		{"/?garment=one-piece-hooded", nil}, // for nobody yet
	} {
		html := text(t, fetch(pageHandler(t), http.MethodGet, c.query, ""))
		for _, rule := range []string{"C05", "C07"} {
			if slices.Contains(c.rules, rule) {
				requireHas(t, html, "Rule "+rule+":")
			} else {
				requireHasNot(t, html, "Rule "+rule+":")
			}
		}
		requireHasNot(t, html, "Rule G02:") // without counts nothing is checked
	}
}

// Every instruction of growtuck plan is on the page, with a box to tick, for a child and
// for a run of sizes.
func TestEveryStepIsOnThePage(t *testing.T) {
	h := pageHandler(t)
	for _, g := range []string{"cardigan", "one-piece-hooded", "hat", "mittens", "trousers"} {
		for query, args := range map[string][]string{
			"/?size=4&craft=knit&stitches=22&rows=30&garment=" + g:              {"--size", "4", "--craft", "knit", "--gauge", "22x30/10cm"},
			"/sizes?sizes=2,4,6&craft=crochet&stitches=16&rows=18&garment=" + g: {"--sizes", "2,4,6", "--craft", "crochet", "--gauge", "16x18/10cm"},
		} {
			page := text(t, fetch(h, http.MethodGet, query, ""))
			code, out, stderr := try(t, noChild, append([]string{"plan", g, "--format", "json"}, args...)...)
			require.Zero(t, code, stderr)
			var doc struct {
				Sections []struct {
					Steps []struct{ Sizes, Text string }
				}
			}
			require.NoError(t, json.Unmarshal([]byte(out), &doc))
			for _, s := range doc.Sections {
				for _, step := range s.Steps {
					want := step.Text
					if step.Sizes != "" {
						want = "Size " + step.Sizes + ": " + want
					}
					requireHas(t, page, "<span>"+template.HTMLEscapeString(want)+"</span></label>")
				}
			}
		}
	}
}
