package tell

import (
	"slices"
	"strings"

	"growtuck/sizing"
	"growtuck/validate"
)

type chartRecord struct {
	Chart  string   `json:"chart" doc:"id of the chart"`
	Title  string   `json:"title" doc:"title in words"`
	Scale  string   `json:"scale" doc:"months, years, height or band; empty where the chart does not have the value"`
	Sex    string   `json:"sex" doc:"m, f or both"`
	Sizes  []string `json:"sizes" doc:"the sizes, in order"`
	Source string   `json:"source" doc:"id of the source"`
	Note   string   `json:"note" doc:"what to know about it; may be empty"`
}

// A ChartsDocument is the charts, as JSON.
type ChartsDocument struct {
	Charts  []chartRecord `json:"charts" doc:"the runs of sizes of all charts"`
	Credits []string      `json:"credits" doc:"credit lines that the sources used ask for"`
}

// Charts reports the charts.
func Charts(ref *sizing.Reference) Document {
	r := Document{Heading: []string{"Charts, by the ids that --chart takes"}}
	g := Table{Columns: []Column{{Head: "chart"}, {Head: "what it is", Wrap: true}, {Head: "scale"}, {Head: "sizes"}, {Head: "notes"}}}
	records := []chartRecord{}
	for _, c := range ref.Charts() {
		note := ""
		if c.Note != "" {
			note = r.Notes.mark(c.Note)
		}
		r.Sources = append(r.Sources, c.Source)
		id, title := c.ID, c.Title
		var scales []string
		for _, run := range c.Runs() {
			rec := chartRecord{Chart: c.ID, Title: c.Title, Scale: string(run.Scale), Sex: string(run.Sex), Source: c.Source, Note: c.Note}
			for _, m := range run.Sizes {
				rec.Sizes = append(rec.Sizes, m.Size)
			}
			records = append(records, rec)
			if len(rec.Sizes) == 0 || slices.Contains(scales, rec.Scale) {
				continue // the other sex: the same sizes, or nearly
			}
			scales = append(scales, rec.Scale)
			g.Rows = append(g.Rows, newRow(id, title, scaleWords(run.Scale), sizesWords(rec), note))
			id, title, note = "", "", ""
		}
	}
	r.Tables = []Table{g}
	r.Sources = InOrder(r.Sources)
	r.Credits = CreditLines(ref, r.Sources)
	r.Rows = records
	r.JSON = ChartsDocument{records, r.Credits}
	return r
}

func scaleWords(s sizing.Scale) string {
	switch s {
	case sizing.Height:
		return "height, cm"
	case sizing.Band:
		return "names"
	}
	return string(s)
}

// sizesWords lists the sizes of a run, or its ends.
func sizesWords(r chartRecord) string {
	if r.Scale == string(sizing.Band) {
		return strings.Join(r.Sizes, ", ")
	}
	return r.Sizes[0] + " to " + r.Sizes[len(r.Sizes)-1]
}

type measurementRecord struct {
	Measurement string `json:"measurement" doc:"id of the body measurement"`
	Name        string `json:"name" doc:"name in words"`
	Kind        string `json:"kind" doc:"girth, width, length or mass"`
	Region      string `json:"region" doc:"region of the body"`
	Follows     string `json:"follows" doc:"whether it goes with widths or lengths when two sizes are blended"`
	Unit        string `json:"unit" doc:"unit of the values beside it: cm or kg"`
	How         string `json:"how" doc:"how the measurement is taken"`
	Clause      string `json:"clause" doc:"clause of a standard that defines the measurement; may be empty"`
	Pitfall     string `json:"pitfall" doc:"what commonly goes wrong when it is taken; may be empty"`
}

// A MeasurementsDocument is the measurements, as JSON.
type MeasurementsDocument struct {
	Measurements []measurementRecord `json:"measurements" doc:"the body measurements"`
}

// Measurements reports the measurements.
func Measurements(ref *sizing.Reference) Document {
	g := Table{Columns: []Column{{Head: "measurement"}, {Head: "name"}, {Head: "blends with"}, {Head: "how to take it", Wrap: true}}}
	records := []measurementRecord{}
	for _, m := range ref.Measurements() {
		records = append(records, measurementRecord{m.ID, m.Name, m.Kind, m.Region, m.Follows, m.Unit, m.How, m.Clause, ref.Pitfall(m.ID)})
		g.Rows = append(g.Rows, newRow(m.ID, m.Name, m.Follows, m.How))
	}
	return Document{
		Heading: []string{"Body measurements, by the ids of files and flags"},
		Tables:  []Table{g},
		Rows:    records,
		JSON:    MeasurementsDocument{records},
	}
}

// A GarmentRecord is a garment, as CSV and JSON show it.
type GarmentRecord struct {
	Garment string   `json:"garment" doc:"id of the garment"`
	Title   string   `json:"title" doc:"title in words"`
	Opening string   `json:"opening" doc:"none or front"`
	Options []string `json:"options" doc:"what the garment can have"`
	Parts   []string `json:"parts" doc:"the parts of the garment"`
	Note    string   `json:"note" doc:"what to know about it; may be empty"`
}

// A GarmentsDocument is the garments, as JSON.
type GarmentsDocument struct {
	Garments []GarmentRecord `json:"garments" doc:"the garments of the tables"`
}

// Garments reports the garments of the tables and their options.
func Garments(ref *sizing.Reference) (Document, error) {
	g := Table{Columns: []Column{{Head: "garment"}, {Head: "options"}, {Head: "about", Wrap: true}}}
	records := []GarmentRecord{}
	for _, row := range ref.Garments() {
		options, err := ref.GarmentOptions(row.ID)
		if err != nil {
			return Document{}, err
		}
		parts, err := ref.Parts(row.ID)
		if err != nil {
			return Document{}, err
		}
		rec := GarmentRecord{Garment: row.ID, Title: row.Title, Opening: row.Opening, Options: append([]string{}, options...), Note: row.Note}
		for _, p := range parts {
			rec.Parts = append(rec.Parts, p.Part)
		}
		records = append(records, rec)
		g.Rows = append(g.Rows, newRow(row.ID, strings.Join(options, ", "), row.Title+". "+row.Note))
	}
	return Document{
		Heading: []string{"Garments, by the ids that growtuck garment takes"},
		Tables:  []Table{g},
		Rows:    records,
		JSON:    GarmentsDocument{records},
	}, nil
}

type sourceRecord struct {
	Source    string  `json:"source" doc:"id of the source"`
	Title     string  `json:"title" doc:"title in words"`
	Publisher string  `json:"publisher" doc:"who published the source"`
	Edition   string  `json:"edition" doc:"edition of the source"`
	Year      *Figure `json:"year" doc:"year of the source; null where it has none"`
	Rights    string  `json:"rights" doc:"rights in the source"`
	Credit    string  `json:"credit" doc:"the line to credit the source by"`
}

// A SourcesDocument is the sources, as JSON.
type SourcesDocument struct {
	Sources []sourceRecord `json:"sources" doc:"the sources"`
	Credits []string       `json:"credits" doc:"credit lines that the sources used ask for"`
}

// Sources reports the sources.
func Sources(ref *sizing.Reference) Document {
	g := Table{Columns: []Column{{Head: "source"}, {Head: "title", Wrap: true}}}
	records := []sourceRecord{}
	var used []string
	for _, s := range ref.Sources() {
		records = append(records, sourceRecord{s.ID, s.Title, s.Publisher, s.Edition, (*Figure)(s.Year), s.Rights, s.Credit})
		used = append(used, s.ID)
		line := newRow(s.ID, s.Title)
		line.Under = []string{"published by: " + s.Publisher, "edition: " + s.Edition, "rights: " + s.Rights, "credit line: " + s.Credit}
		g.Rows = append(g.Rows, line)
	}
	credits := CreditLines(ref, used)
	return Document{
		Heading: []string{"Sources, by the ids that the other commands print"},
		Tables:  []Table{g},
		Credits: credits,
		Rows:    records,
		JSON:    SourcesDocument{records, credits},
	}
}

type ruleRecord struct {
	Rule     string `json:"rule" doc:"code of the rule"`
	Group    string `json:"group" doc:"group of the rule"`
	Severity string `json:"severity" doc:"stop, warn or note; of a rule, the worst that it reports"`
	Title    string `json:"title" doc:"title in words"`
}

// A RulesDocument is the rules, as JSON.
type RulesDocument struct {
	Rules []ruleRecord `json:"rules" doc:"the rules of drafts and of tables"`
}

// Rules reports the rules for drafts and tables.
func Rules() Document {
	g := Table{Columns: []Column{{Head: "rule"}, {Head: "group"}, {Head: "worst"}, {Head: "what it reports", Wrap: true}}}
	records := []ruleRecord{}
	for _, r := range slices.Concat(validate.DraftRules(), validate.RowRules()) {
		rec := ruleRecord{r.Code, r.Group, r.Severity.String(), strings.TrimSuffix(r.Title, ".")}
		records = append(records, rec)
		g.Rows = append(g.Rows, newRow(rec.Rule, rec.Group, rec.Severity, rec.Title))
	}
	return Document{
		Heading: []string{"Rules for drafts (growtuck check) and for tables (growtuck rows)"},
		Tables:  []Table{g},
		Rows:    records,
		JSON:    RulesDocument{records},
	}
}
