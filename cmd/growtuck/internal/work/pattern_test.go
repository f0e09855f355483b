package work_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"html"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/testdata/proof"
	"growtuck/testdata/samples"
)

// patterns are asked for in the test of exports: every garment, and what changes a
// pattern's chapters.
func patterns() map[string]ask.Values {
	all := make(map[string]ask.Values)
	for i, garment := range []string{"pullover", "cardigan", "vest", "dress", "trousers", "one-piece", "one-piece-hooded", "hat", "mittens", "socks"} {
		for craft, gauge := range map[string]string{"knit": "22x30/10cm", "crochet": "16x18/10cm"} {
			one := proof.Whole() || (craft == "knit") == (i%2 == 0) // by default one size in a craft, several in the other
			if one {
				all[garment+" "+craft] = ask.Values{"garment": {garment}, "size": {"4"}, "craft": {craft}, "gauge": {gauge}}
			}
			if one && !proof.Whole() {
				continue
			}
			all[garment+" "+craft+", sizes"] = ask.Values{"garment": {garment}, "sizes": {"2,4,6,8,10"}, "craft": {craft}, "gauge": {gauge}}
		}
	}
	all["raglan in stripes"] = ask.Values{"garment": {"pullover"}, "size": {"6"}, "craft": {"knit"}, "gauge": {"22x30/10cm"}, "yoke": {"raglan"}, "stripes": {"4 red, 2 white"},
		"yarn": {"50 g / 125 m"}, "swatch": {"10x10cm 4g"}, "pace": {"120"}}
	all["buttons"] = ask.Values{"garment": {"cardigan"}, "size": {"6"}, "craft": {"crochet"}, "gauge": {"16x18/10cm"}, "closure": {"buttons"}, "turned": {"yes"}, "yoke": {"drop-shoulder"}}
	return all
}

// spaced is a text with single blanks and without markup.
func spaced(text string) string {
	return strings.Join(strings.Fields(strings.NewReplacer(`\*`, "*", `\|`, "|", `\#`, "#", `\~`, "~", "`", "").Replace(html.UnescapeString(text))), " ")
}

var tags = regexp.MustCompile(`<[^>]*>`)

// Every instruction of a plan is in every form that it is exported to, and so is what it
// takes, how it is finished and every other chapter.
func TestEveryStepIsInEveryExport(t *testing.T) {
	ref := samples.Reference(t)
	for name, values := range patterns() {
		t.Run(name, func(t *testing.T) {
			r := request(t, ask.PlanFields(), values)
			d, err := work.Plan(ref, r, tell.Style{})
			require.NoError(t, err)
			wanted := instructions(t, d)
			require.Greater(t, len(wanted), 4)
			for _, c := range d.Chapters {
				wanted = append(wanted, c.Title)
				wanted = append(wanted, c.Lines...)
				wanted = append(wanted, c.Items...)
				wanted = append(wanted, c.After...)
			}
			for format, text := range exported(t, d, r) {
				for _, want := range wanted {
					if format == "csv" && !isInstruction(d, want) {
						continue // rows of steps, materials and finishing
					}
					require.Contains(t, text, spaced(want), format)
				}
				require.NotContains(t, text, "yellow", format)
			}
		})
	}
}

// instructions are the steps that the document has for programs.
func instructions(t *testing.T, d tell.Document) []string {
	t.Helper()
	text, err := json.Marshal(d.Recorded().JSON)
	require.NoError(t, err)
	var doc struct {
		Sections []struct {
			Steps []struct{ Sizes, Text string }
		}
	}
	require.NoError(t, json.Unmarshal(text, &doc))
	var all []string
	for _, s := range doc.Sections {
		for _, step := range s.Steps {
			all = append(all, step.Text)
		}
	}
	return all
}

func isInstruction(d tell.Document, text string) bool {
	for _, c := range d.Chapters {
		if c.ID == "materials" || c.ID == "finishing" {
			for _, item := range c.Items {
				if item == text {
					return true
				}
			}
		}
		for _, w := range c.Work {
			if w.Text == text {
				return true
			}
		}
	}
	return false
}

// exported is the plan in all its forms, as text with single blanks.
func exported(t *testing.T, d tell.Document, r *ask.Request) map[string]string {
	t.Helper()
	all := make(map[string]string)
	for _, format := range []string{"table", "csv", "markdown", "html"} {
		var out bytes.Buffer
		require.NoError(t, d.Write(&out, format, 100))
		text := out.String()
		switch format {
		case "csv":
			rows, err := csv.NewReader(&out).ReadAll()
			require.NoError(t, err)
			text = ""
			for _, row := range rows {
				text += strings.Join(row, " ") + "\n"
			}
		case "html":
			require.NotRegexp(t, `(src|href)=|url\(|@import`, regexp.MustCompile(`(?s)<svg.*</svg>`).ReplaceAllString(text, ""), "it needs no other file")
			text = tags.ReplaceAllString(text, " ")
		case "table":
			text = strings.ReplaceAll(text, "[ ] ", "")
		}
		all[format] = spaced(text)
	}
	for _, file := range []string{"x.xlsx", "x.md", "x.html"} {
		e, err := work.ExportPlan(samples.Reference(t), r, tell.Style{}, "edition", file)
		require.NoError(t, err)
		text := string(e.Files[0].Content)
		switch file {
		case "x.xlsx":
			text = sheetText(t, e.Files[0].Content, "Pattern")
		case "x.html":
			text = tags.ReplaceAllString(text, " ")
		}
		all[file] = spaced(text)
	}
	if !r.Given("sizes") {
		e, err := work.ExportPlan(samples.Reference(t), r, tell.Style{}, "edition", "x/")
		require.NoError(t, err)
		for _, f := range e.Files {
			if f.Path == "x/pattern.csv" {
				rows, err := csv.NewReader(bytes.NewReader(f.Content)).ReadAll()
				require.NoError(t, err)
				text := ""
				for _, row := range rows {
					text += strings.Join(row, " ") + "\n"
				}
				all["folder"] = spaced(text)
			}
		}
		require.NotEmpty(t, all["folder"])
	}
	return all
}

// sheetText is all that a sheet says.
func sheetText(t *testing.T, file []byte, sheet string) string {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(file))
	require.NoError(t, err)
	defer f.Close()
	rows, err := f.GetRows(sheet)
	require.NoError(t, err)
	var all []string
	for _, row := range rows {
		all = append(all, strings.Join(row, " "))
	}
	return strings.Join(all, "\n")
}

// Sizes side by side have no number missing in brackets: where they differ in kind, each
// has a line of its own.
func TestNoNumberIsMissingInBrackets(t *testing.T) {
	ref := samples.Reference(t)
	for name, values := range patterns() {
		if !strings.HasSuffix(name, "sizes") {
			continue
		}
		d, err := work.Plan(ref, request(t, ask.PlanFields(), values), tell.Style{})
		require.NoError(t, err)
		for _, c := range d.Chapters {
			lines := append(append(append([]string{c.About}, c.Lines...), c.Items...), c.After...)
			for _, w := range c.Work {
				lines = append(lines, w.String())
			}
			for _, line := range lines {
				require.NotRegexp(t, `–( \(|,|\))|\(–`, line, name)
			}
		}
	}
}
