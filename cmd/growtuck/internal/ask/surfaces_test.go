package ask_test

import (
	"bytes"
	"encoding/json"
	"maps"
	"math"
	"net/url"
	"slices"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/cmd/growtuck/internal/workbook"
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
	"growtuck/validate"
)

// A said is what is said of one field, beside what else it takes to plan something.
type said struct {
	texts []string
	with  ask.Values // in place of the usual
}

// usual is a plan for which nothing is said that the samples say.
var usual = ask.Values{"garment": {"one-piece-hooded"}, "size": {"6"}, "craft": {"knit"}, "gauge": {"20x28/10cm"}}

// fieldSamples says something unusual of every field that a plan takes. A field without a
// sample fails the test, so a new one is tried on every surface.
var fieldSamples = map[string]said{
	"sex":      {texts: []string{"f"}},
	"age":      {texts: []string{"5.5"}},
	"born":     {texts: []string{"2020-02-29"}, with: ask.Values{"measured": {"2026-11-01"}}},
	"measured": {texts: []string{"2026-11-01"}},
	"set":      {texts: []string{"chest=60cm", "arm_length=44.5"}},
	"chart":    {texts: []string{"measured"}, with: ask.Values{"garment": {"mittens"}, "size": {"116cm"}}},
	"linear":   {texts: []string{"true"}, with: ask.Values{"size": {"5"}}},
	"size":     {texts: []string{"5.5"}},
	"widths":   {texts: []string{"5"}, with: ask.Values{"size": nil, "lengths": {"7"}}},
	"lengths":  {texts: []string{"7"}, with: ask.Values{"size": nil, "widths": {"5"}}},
	"sizes":    {texts: []string{"4,6"}},

	"garment": {texts: []string{"cardigan"}},
	"fit":     {texts: []string{"loose"}},
	"layer":   {texts: []string{"indoor"}},
	"nappy":   {texts: []string{"true"}},
	"growth":  {texts: []string{"1.5"}},
	"wear":    {texts: []string{"2027-04"}, with: ask.Values{"measured": {"2026-11-01"}}},
	"until":   {texts: []string{"2027-08-15"}, with: ask.Values{"measured": {"2026-11-01"}, "wear": {"1m"}}},
	"grow":    {texts: []string{"9m"}},
	"option":  {texts: []string{"fold-back-cuffs"}},
	"ease":    {texts: []string{"chest=9cm", "hip=-1cm"}, with: ask.Values{"fit": {"close"}}},
	"extra":   {texts: []string{"sleeve_length=2", "chest=-1.5"}},

	"gauge":          {texts: []string{"21x30/4in"}},
	"rib":            {texts: []string{"24x30/10cm"}},
	"before-washing": {texts: []string{"21x29/10cm"}},

	"craft":       {texts: []string{"crochet"}},
	"terms":       {texts: []string{"uk"}, with: ask.Values{"craft": {"crochet"}}},
	"stitch":      {texts: []string{"hdc"}, with: ask.Values{"craft": {"crochet"}}},
	"foundation":  {texts: []string{"chainless"}, with: ask.Values{"craft": {"crochet"}}},
	"rounds":      {texts: []string{"spiral"}, with: ask.Values{"craft": {"crochet"}}},
	"yoke":        {texts: []string{"raglan"}},
	"multiple":    {texts: []string{"4n"}},
	"closure":     {texts: []string{"buttons"}},
	"hood":        {texts: []string{"centre-panel"}},
	"turned":      {texts: []string{"true"}},
	"rib-share":   {texts: []string{"0.85"}},
	"stretch":     {texts: []string{"neck=1.4", "cuff=1.3"}},
	"hold":        {texts: []string{"tuck", "sleeve=on-hold"}, with: ask.Values{"growth": {"2"}}},
	"add":         {texts: []string{"ear=6cm", "pad:knee=8x10cm"}},
	"port":        {texts: []string{"tummy,thigh"}},
	"zippers":     {texts: []string{"12,14,16"}},
	"yarn":        {texts: []string{"50g 125m"}, with: ask.Values{"swatch": {"10x10cm 4g"}}},
	"swatch":      {texts: []string{"10x10cm 4g"}, with: ask.Values{"yarn": {"50g 125m"}}},
	"margin":      {texts: []string{"0"}, with: ask.Values{"yarn": {"50g 125m"}, "swatch": {"10x10cm 4g"}}},
	"stripes":     {texts: []string{"4 red, 2 white"}},
	"colour":      {texts: []string{"hood=red", "main=grey"}},
	"pace":        {texts: []string{"120"}},
	"hours-a-day": {texts: []string{"1.5"}, with: ask.Values{"pace": {"120"}}},
	"by":          {texts: []string{"2026-12-24"}, with: ask.Values{"pace": {"120"}, "from": {"2026-12-01"}}},
	"from":        {texts: []string{"2026-12-01"}, with: ask.Values{"pace": {"120"}}},
	"done":        {texts: []string{"yoke=12"}},
	"longer":      {texts: []string{"body=-1.5cm", "sleeve=2"}, with: ask.Values{"done": {"yoke=12"}}},
	"wider":       {texts: []string{"body=3cm"}, with: ask.Values{"done": {"yoke=12"}}},
	"ends":        {texts: []string{"leg=at floor", "sleeve=3cm above wrist"}, with: ask.Values{"done": {"yoke=12"}}},
	"distance":    {texts: []string{"sleeve=14.5"}, with: ask.Values{"done": {"sleeve=12"}, "ends": {"sleeve=3cm above wrist"}}},
	"as-worked":   {texts: []string{"sleeve=46 rows to 26 stitches"}, with: ask.Values{"done": {"sleeve=46"}}},
	"used":        {texts: []string{"120"}, with: ask.Values{"done": {"yoke=12"}}},
	"have":        {texts: []string{"250"}, with: ask.Values{"done": {"yoke=12"}}},
	"weighed":     {texts: []string{"start=300", "yoke=240"}},
	"knits-to":    {texts: []string{"22"}, with: ask.Values{"yarn": {"50g 125m"}, "swatch": {"10x10cm 4g"}}},
}

func (s said) values(name string) ask.Values {
	v := maps.Clone(usual)
	maps.Copy(v, s.with)
	v[name] = s.texts
	maps.DeleteFunc(v, func(_ string, texts []string) bool { return len(texts) == 0 })
	return v
}

// A facts is what a request asks for, to be compared.
type facts struct {
	Child sizing.Child
	Sizes sizing.Sizes
	Spec  sizing.Spec
	How   plan.How
	Run   []string
	Trial plan.Trial

	UsedGrams, HaveGrams float64
	Weighed              []plan.Weighing
}

func factsOf(t *testing.T, r *ask.Request) string {
	t.Helper()
	f := facts{r.Child, r.Sizes, r.Spec, r.How, r.Run, r.Trial, r.UsedGrams, r.HaveGrams, r.Weighed}
	f.Child.Name, f.Child.Where = "", nil
	f.How.Gauge = rounded(f.How.Gauge)
	if f.How.Rib != nil {
		rib := rounded(*f.How.Rib)
		f.How.Rib = &rib
	}
	if len(f.Spec.Options) == 0 {
		f.Spec.Options = nil
	}
	text, err := json.MarshalIndent(f, "", " ")
	require.NoError(t, err)
	return string(text)
}

// rounded drops what turning a gauge over 4 in into one over 10 cm and back leaves.
func rounded(g stitch.Gauge) stitch.Gauge {
	round := func(v float64) float64 { return math.Round(v*1e9) / 1e9 }
	return stitch.Gauge{StitchesPer10Cm: round(g.StitchesPer10Cm), RowsPer10Cm: round(g.RowsPer10Cm)}
}

func read(t *testing.T, ref *sizing.Reference, values ask.Values) *ask.Request {
	t.Helper()
	r, faults := ask.Read(ref, ask.PlanFields(), values, sizing.Child{})
	require.Empty(t, faults)
	return r
}

// Every field means the same as a flag, as a parameter of an address, as controls of a
// form, as a cell of a workbook that was written and read back, and as a row of a draft.
func TestEveryFieldOnEverySurface(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	for _, f := range ask.PlanFields() {
		t.Run(f.Name, func(t *testing.T) {
			s, ok := fieldSamples[f.Name]
			require.True(t, ok, "no sample says something of %s", f.Name)
			values := s.values(f.Name)
			want := read(t, ref, values)
			without := maps.Clone(values)
			delete(without, f.Name)
			if without["garment"] == nil {
				without["garment"] = []string{"pullover"}
			}
			base, _ := ask.Read(ref, ask.PlanFields(), without, sizing.Child{})
			require.NotEqual(t, factsOf(t, base), factsOf(t, want), "the sample says what is usual")

			t.Run("flag", func(t *testing.T) { require.Equal(t, factsOf(t, want), factsOf(t, byFlags(t, ref, values))) })
			t.Run("address", func(t *testing.T) {
				given, faults := ask.FromQuery(ask.PlanFields(), url.Values(values))
				require.Empty(t, faults)
				require.Equal(t, factsOf(t, want), factsOf(t, read(t, ref, given)))
			})
			t.Run("form", func(t *testing.T) {
				asked := ask.FormFields()
				if f.Name == "sizes" || f.Name == "chart" || f.Name == "linear" {
					asked = append(asked, ask.Named("sizes", "chart", "linear")...) // of the form of sizes side by side
				}
				given, faults := ask.FromForm(ref, asked, byForm(values), "cm")
				require.Empty(t, faults)
				require.Equal(t, factsOf(t, want), factsOf(t, read(t, ref, given)))
			})
			t.Run("workbook", func(t *testing.T) {
				if f.Group == ask.Child {
					t.Skip("the sheet Child has it: see the tests of package workbook")
				}
				require.True(t, f.Cell, "no cell carries it")
				got := byWorkbook(t, ref, want)
				want.Run = got.Run // a workbook has sizes round the body where none were named
				if f.Name == "sizes" {
					require.Equal(t, []string{"4", "6"}, got.Run)
				}
				require.Equal(t, factsOf(t, want), factsOf(t, got))
			})
			if f.Draft != "" {
				t.Run("draft", func(t *testing.T) { inDraft(t, ref, f, want) })
			}
		})
	}
	for name := range fieldSamples {
		_, ok := ask.Lookup(ask.PlanFields(), name)
		require.True(t, ok, "%s is no field", name)
	}
}

// byForm fills in the controls of a form.
func byForm(values ask.Values) url.Values {
	form := make(url.Values)
	for name, texts := range values {
		for _, text := range texts {
			key, value, _ := strings.Cut(text, "=")
			prefix, isGauge := map[string]string{"gauge": "", "rib": "rib-", "before-washing": "before-"}[name]
			switch {
			case name == "set":
				form.Set(key, value)
			case name == "extra":
				form.Set(ask.ExtraControl+key, value)
			case isGauge:
				counts, over, _ := strings.Cut(text, "/")
				stitches, rows, _ := strings.Cut(counts, "x")
				form.Set(prefix+"stitches", stitches)
				form.Set(prefix+"rows", rows)
				form.Set("over", over)
			case name == "stretch" || slices.Contains(ask.Names(ask.Of(ask.Progress)), name):
				form.Set(name, strings.Join(texts, ", "))
			default:
				form.Add(name, text)
			}
		}
	}
	return form
}

func byFlags(t *testing.T, ref *sizing.Reference, values ask.Values) *ask.Request {
	t.Helper()
	cmd := &cobra.Command{}
	given := ask.AddFlags(cmd, ask.PlanFields(), func() (*sizing.Reference, error) { return ref, nil })
	given["garment"] = values["garment"]
	var args []string
	for name, texts := range values {
		for _, text := range texts {
			if name != "garment" {
				args = append(args, "--"+name+"="+text)
			}
		}
	}
	slices.Sort(args)
	require.NoError(t, cmd.ParseFlags(args))
	return read(t, ref, given)
}

// byWorkbook writes the plan as a workbook and reads it back.
func byWorkbook(t *testing.T, ref *sizing.Reference, r *ask.Request) *ask.Request {
	t.Helper()
	e, err := work.ExportPlan(ref, r, tell.Style{}, "", "plan.xlsx")
	require.NoError(t, err)
	book, err := workbook.Open(bytes.NewReader(e.Files[0].Content), "plan.xlsx")
	require.NoError(t, err)
	defer book.Close()
	cells, err := book.Settings()
	require.NoError(t, err)
	given, faults := ask.FromCells(ref, cells)
	require.Empty(t, faults)
	child, err := work.ReadChild(ref, bytes.NewReader(e.Files[0].Content), "plan.xlsx")
	require.NoError(t, err)
	got, faults := ask.Read(ref, ask.PlanFields(), given, child)
	require.Empty(t, faults)
	return got
}

// inRows are the values that rows of a draft have for the samples, of fields that
// its reader does not give back.
var inRows = map[string][]string{"craft": {"crochet"}, "stitch": {"hdc"}, "yoke": {"raglan"}, "multiple": {"4n"}, "stretch": {"1.4", "1.3"}}

// inDraft finds the field in the draft of the plan, and what it says in the draft as
// it is read.
func inDraft(t *testing.T, ref *sizing.Reference, f ask.Field, r *ask.Request) {
	p, err := work.MakePlan(ref, r)
	require.NoError(t, err)
	if f.Name == "linear" || r.Sizes.Method == sizing.Linear {
		t.Skip("a draft lists the body instead")
	}
	field := f.Draft
	if f.Name == "closure" {
		field = "buttonband"
	}
	var told []string
	for _, row := range p.Draft {
		if row.Field == field {
			told = append(told, row.Value)
		}
	}
	require.NotEmpty(t, told, "the draft has no row %s", field)
	for _, value := range inRows[f.Name] {
		require.Contains(t, told, value, "rows %s of the draft", field)
	}
	text, err := plan.DraftCSV(p.Draft)
	require.NoError(t, err)
	d, err := validate.ReadDraft(ref, bytes.NewReader(text), "draft.csv", nil)
	require.NoError(t, err)
	require.Equal(t, r.Spec.Garment, d.Spec.Garment)
	require.Equal(t, r.Spec.Fit, d.Spec.Fit)
	require.Equal(t, r.Spec.Layer, d.Spec.Layer)
	require.Equal(t, r.Spec.Nappy, d.Spec.Nappy)
	require.InDelta(t, r.Spec.Seasons, d.Spec.Seasons, 1e-9)
	require.Equal(t, r.Spec.Wear, d.Spec.Wear)
	require.ElementsMatch(t, r.Spec.Options, d.Spec.Options)
	for part, cm := range r.Spec.Extra {
		require.Equal(t, cm, d.Spec.Extra[part], part)
	}
	require.Equal(t, r.Child.Sex, d.Child.Sex)
	require.Equal(t, r.Child.AgeYears, d.Child.AgeYears)
	require.Equal(t, r.Child.Own, d.Child.Own)
	require.InDelta(t, r.How.Gauge.StitchesPer10Cm, d.Gauge.StitchesPer10Cm, 1e-3)
	require.InDelta(t, r.How.Gauge.RowsPer10Cm, d.Gauge.RowsPer10Cm, 1e-3)
}
