package work_test

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/sizing"
	"growtuck/testdata/samples"
	"growtuck/validate"
)

func request(t *testing.T, fields []ask.Field, values ask.Values) *ask.Request {
	t.Helper()
	r, faults := ask.Read(samples.Reference(t), fields, values, sizing.Child{})
	require.Empty(t, faults)
	return r
}

// Own ease takes the place of the fit's, whatever the fit is; it is settled once.
func TestOwnEaseTakesThePlaceOfTheFits(t *testing.T) {
	ref := samples.Reference(t)
	for _, fit := range []string{"close", "oversized"} {
		r := request(t, ask.PlanFields(), ask.Values{"garment": {"pullover"}, "size": {"8"}, "fit": {fit}, "ease": {"chest=6.5"}})
		for range 2 {
			f, err := work.Finish(ref, r)
			require.NoError(t, err)
			chest, ok := f.Line("chest")
			require.True(t, ok)
			require.InDelta(t, chest.Body.Value+6.5, chest.Finished, 1e-9, fit)
		}
	}
}

// What cannot be answered is a fault of the field that has to change.
func TestFaultsNameTheirField(t *testing.T) {
	ref := samples.Reference(t)
	knit := func(more ask.Values) ask.Values {
		v := ask.Values{"garment": {"hat"}, "craft": {"knit"}, "gauge": {"22x30/10cm"}}
		for name, texts := range more {
			v[name] = texts
		}
		return v
	}
	plan := func(v ask.Values) error {
		_, err := work.Plan(ref, request(t, ask.PlanFields(), v), tell.Style{})
		return err
	}
	_, noSize := work.Sizes(ref, request(t, ask.SizeFields(), ask.Values{}), []string{"3", "20"}, tell.Style{})
	_, tooMany := work.Draw(ref, request(t, ask.DrawFields(), ask.Values{"garment": {"hat"}, "sizes": {"2,3,4,5,6,7,8,9,10,11,12,3m,18m"}}), tell.Style{})
	for _, tt := range []struct {
		err         error
		field, want string
	}{
		{noSize, "size", "size 20 is outside"},
		{tooMany, "sizes", "13 sizes"},
		{plan(knit(nil)), "set", "no child"},
		{plan(knit(ask.Values{"size": {"4"}, "sizes": {"2,4"}})), "sizes", "leave the child"},
		{plan(knit(ask.Values{"sizes": {"2,4,2"}})), "sizes", "2 is the same size as 2"},
		{plan(knit(ask.Values{"sizes": {"2,4"}, "done": {"hat=3"}})), "done", "one size"},
		{plan(ask.Values{"garment": {"hat"}, "size": {"4"}}), "craft", "no craft given"},
		{plan(ask.Values{"garment": {"hat"}, "size": {"4"}, "craft": {"knit"}}), "gauge", "no gauge given"},
	} {
		var fault *ask.Fault
		require.ErrorAs(t, tt.err, &fault, tt.want)
		require.Equal(t, tt.field, fault.Field)
		require.ErrorContains(t, tt.err, tt.want)
	}
}

// The name of a file says what a plan is exported to.
func TestExports(t *testing.T) {
	ref := samples.Reference(t)
	r := request(t, ask.PlanFields(), ask.Values{"garment": {"hat"}, "size": {"4"}, "craft": {"knit"}, "gauge": {"22x30/10cm"}})
	for file, begins := range map[string]string{"hat.xlsx": "PK", "HAT.XLSX": "PK", "hat.md": "# Hat\n", "hat.HTML": "<!doctype html>", "hat.png": "\x89PNG"} {
		require.True(t, work.CanExport(file))
		e, err := work.ExportPlan(ref, r, tell.Style{}, "edition 1", file)
		require.NoError(t, err)
		require.Equal(t, file, e.Files[0].Path)
		if strings.HasSuffix(file, ".md") {
			require.Equal(t, "hat.svg", e.Files[1].Path, "its drawing")
			require.Contains(t, string(e.Files[0].Content), "![The garment, drawn to scale](<hat.svg>)")
			require.True(t, bytes.HasPrefix(e.Files[1].Content, []byte("<svg ")))
		} else {
			require.Len(t, e.Files, 1)
		}
		require.True(t, bytes.HasPrefix(bytes.TrimSpace(e.Files[0].Content), []byte(begins)), file)
	}
	e, err := work.ExportPlan(ref, r, tell.Style{}, "edition 1", "folder/")
	require.NoError(t, err)
	require.Equal(t, "folder/", e.Folder)
	require.Greater(t, len(e.Files), 5)
	for _, f := range e.Files {
		require.Equal(t, "folder", filepath.Dir(f.Path))
	}
	require.False(t, work.CanExport("hat.pdf"))
	require.Nil(t, work.BlankBook(ref, "hat.xlsx"))
}

// In a folder only drafts are checked; what is passed over is named.
func TestDraftsOfAFolder(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
	}
	write("draft.csv", "# a hat\nfield,part,value,unit,note\n")
	write("semicolons.csv", "\ufefffield;part;value;unit;note\n")
	write("child.csv", "measurement,value,unit\n")
	write("colours.csv", "name,colour\n")
	write("notes.txt", "field,part\n")
	drafts, passed, faults := work.Drafts([]string{dir, "-", filepath.Join(dir, "none.csv")})
	require.Equal(t, []string{filepath.Join(dir, "draft.csv"), filepath.Join(dir, "semicolons.csv"), "-"}, drafts)
	require.Equal(t, []string{filepath.Join(dir, "colours.csv")}, passed, "but the table of a child, which a draft names")
	require.Len(t, faults, 1)
}

// Faults of tables in a folder name the file in it; a folder without tables cannot
// be used at all.
func TestTablesOfAFolder(t *testing.T) {
	dir := t.TempDir()
	files, err := work.BuiltIn(dir)
	require.NoError(t, err)
	for _, f := range files {
		require.NoError(t, os.WriteFile(f.Path, f.Content, 0o644))
	}
	in := work.Tables{Folder: dir}
	built, err := work.Tables{}.Edition()
	require.NoError(t, err)
	same, err := in.Edition()
	require.NoError(t, err)
	require.Equal(t, built.Checksum, same.Checksum)
	findings, err := in.Check()
	require.NoError(t, err)
	require.Less(t, validate.Worst(findings), validate.Warn)

	body := filepath.Join(dir, "body.csv")
	text, err := os.ReadFile(body)
	require.NoError(t, err)
	canonical, err := in.Canonical(body, text)
	require.NoError(t, err)
	require.Equal(t, text, canonical)

	require.NoError(t, os.WriteFile(body, []byte(strings.Replace(string(text), ",given,", ",gvien,", 1)), 0o644))
	_, err = in.Reference()
	require.ErrorContains(t, err, body+":2")
	var cannot work.Unusable
	require.NotErrorAs(t, err, &cannot)
	_, err = work.Tables{Folder: t.TempDir()}.Reference()
	require.ErrorAs(t, err, &cannot)
}
