package tell

import (
	"strings"

	"growtuck/sizing"
)

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
		g.Rows = append(g.Rows, NewRow(row.ID, strings.Join(options, ", "), row.Title+". "+row.Note))
	}
	return Document{
		Heading: []string{"Garments, by the ids that growtuck garment takes"},
		Tables:  []Table{g},
		Rows:    records,
		JSON:    GarmentsDocument{records},
	}, nil
}
