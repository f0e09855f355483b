package main

import (
	"strings"

	"growtuck/sizing"
)

type garmentRecord struct {
	Garment string   `json:"garment"`
	Title   string   `json:"title"`
	Opening string   `json:"opening"`
	Options []string `json:"options"`
	Parts   []string `json:"parts"`
	Note    string   `json:"note"`
}

type garmentsDocument struct {
	Garments []garmentRecord `json:"garments"`
}

// listGarments prints the garments that there are and their options.
func (a *app) listGarments(ref *sizing.Reference) error {
	g := grid{columns: []column{{head: "garment"}, {head: "options"}, {head: "about", wrap: true}}}
	records := []garmentRecord{}
	for _, row := range ref.Garments() {
		options, err := ref.GarmentOptions(row.ID)
		if err != nil {
			return err
		}
		parts, err := ref.Parts(row.ID)
		if err != nil {
			return err
		}
		rec := garmentRecord{Garment: row.ID, Title: row.Title, Opening: row.Opening, Options: append([]string{}, options...), Note: row.Note}
		for _, p := range parts {
			rec.Parts = append(rec.Parts, p.Part)
		}
		records = append(records, rec)
		g.rows = append(g.rows, tableRow(row.ID, strings.Join(options, ", "), row.Title+". "+row.Note))
	}
	return a.print(report{
		heading:  []string{"Garments, as growtuck garment GARMENT takes them"},
		grids:    []grid{g},
		rows:     records,
		document: garmentsDocument{records},
	})
}

func tableRow(cells ...string) row { return row{cells: cells} }
