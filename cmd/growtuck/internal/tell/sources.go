package tell

import (
	"growtuck/sizing"
)

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
		line := NewRow(s.ID, s.Title)
		line.Under = []string{"published by: " + s.Publisher, "edition: " + s.Edition, "rights: " + s.Rights, "credit line: " + s.Credit}
		g.Rows = append(g.Rows, line)
	}
	return Document{
		Heading: []string{"Sources, by the ids that the other commands print"},
		Tables:  []Table{g},
		Credits: CreditLines(ref, used),
		Rows:    records,
		JSON:    SourcesDocument{records, CreditLines(ref, used)},
	}
}
