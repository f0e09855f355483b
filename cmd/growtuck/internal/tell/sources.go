package tell

import (
	"growtuck/sizing"
)

type sourceRecord struct {
	Source    string  `json:"source"`
	Title     string  `json:"title"`
	Publisher string  `json:"publisher"`
	Edition   string  `json:"edition"`
	Year      *Figure `json:"year"`
	Rights    string  `json:"rights"`
	Credit    string  `json:"credit"`
}

// A SourcesDocument is the sources, as JSON.
type SourcesDocument struct {
	Sources []sourceRecord `json:"sources"`
	Credits []string       `json:"credits"`
}

// Sources reports the sources.
func Sources(ref *sizing.Reference) Document {
	g := Table{Columns: []Column{{Head: "source"}, {Head: "title", Wrap: true}}}
	records := []sourceRecord{}
	var used []string
	for _, s := range ref.Sources() {
		records = append(records, sourceRecord{s.ID, s.Title, s.Publisher, s.Edition, (*Figure)(s.Year), s.Rights, s.Credit})
		used = append(used, s.ID)
		line := NewRow(s.ID, s.Title)
		line.Under = []string{"published by: " + s.Publisher, "edition: " + s.Edition, "rights: " + s.Rights, "credit line: " + s.Credit}
		g.Rows = append(g.Rows, line)
	}
	return Document{
		Heading: []string{"Sources, as the other commands name them"},
		Tables:  []Table{g},
		Credits: CreditLines(ref, used),
		Rows:    records,
		JSON:    SourcesDocument{records, CreditLines(ref, used)},
	}
}
