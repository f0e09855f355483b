package main

import (
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/ask"
)

const runQuery = "sizes=4,6,8&garment=cardigan&layer=indoor&craft=knit&stitches=20&rows=28&yoke=raglan&closure=buttons&option=tunic&extra.sleeve_length=2&yarn=50g+125m&swatch=10x10cm+4g"

// Sizes side by side have what a garment for a child has: each field of how a garment is
// made and worked, the picture, what the checks find, and the files.
func TestSizesHaveWhatAChildHas(t *testing.T) {
	for _, f := range ask.FormFields() {
		if f.Group == ask.Garment || f.Group == ask.Swatch || f.Group == ask.Making {
			_, has := ask.Lookup(ask.RunFields(), f.Name)
			require.True(t, has, f.Name)
		}
	}
	h := pageHandler(t)
	page := text(t, fetch(h, http.MethodGet, "/sizes?"+runQuery, ""))
	for _, shown := range []string{"raglan", "buttons", "balls of 50 g", "<svg", "Rule G02", "Size 4<"} {
		require.Contains(t, page, shown)
	}

	args := []string{"cardigan", "--sizes", "4,6,8", "--layer", "indoor", "--craft", "knit", "--gauge", "20x28/10cm", "--yoke", "raglan", "--closure", "buttons",
		"--option", "tunic", "--extra", "sleeve_length=2", "--yarn", "50g 125m", "--swatch", "10x10cm 4g"}
	for name, exported := range map[string]string{"pattern.html": "run.html", "plan.xlsx": "run.xlsx"} {
		file := filepath.Join(t.TempDir(), exported)
		code, _, stderr := try(t, noChild, append([]string{"export", file}, args...)...)
		require.Zero(t, code, stderr)
		want, err := os.ReadFile(file)
		require.NoError(t, err)
		r := fetch(h, http.MethodGet, "/files/sizes/"+name+"?"+runQuery, "")
		require.Equal(t, http.StatusOK, r.StatusCode, name)
		require.True(t, string(want) == text(t, r), name)
	}
	for _, name := range []string{"pattern.md", "plan.csv", "finished.csv", "body.csv", "drawing.svg"} {
		require.Contains(t, page, `href="files/sizes/`+name)
		require.Equal(t, http.StatusOK, fetch(h, http.MethodGet, "/files/sizes/"+name+"?"+runQuery, "").StatusCode, name)
	}
}

// An entry that is wrong takes away only what rests on it.
func TestSizesStayBesideFaults(t *testing.T) {
	h := pageHandler(t)
	for wrong, stays := range map[string]string{
		"yarn=big": "stitches</td>", "colour=tail=red": "stitches</td>", "multiple=x": "stitches</td>", "extra.sleeve_length=long": "stitches</td>",
		"stitches=many": "Finished measurements by size", "multiple=900n": "Finished measurements by size", "garment=coat": "Body measurements by size",
	} {
		query := "sizes=4,6,8&garment=cardigan&craft=knit&rows=28&" + wrong
		if !strings.Contains(wrong, "stitches") {
			query += "&stitches=20"
		}
		if strings.Contains(wrong, "garment") {
			query = strings.Replace(query, "garment=cardigan&", "", 1)
		}
		require.Contains(t, text(t, fetch(h, http.MethodGet, "/sizes?"+query, "")), stays, wrong)
	}
}
