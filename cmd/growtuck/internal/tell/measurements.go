package tell

import (
	"growtuck/sizing"
)

type measurementRecord struct {
	Measurement string `json:"measurement" doc:"id of the body measurement"`
	Name        string `json:"name" doc:"name in words"`
	Kind        string `json:"kind" doc:"girth, width, length or mass"`
	Region      string `json:"region" doc:"region of the body"`
	Follows     string `json:"follows" doc:"whether it goes with widths or lengths when two sizes are blended"`
	Unit        string `json:"unit" doc:"unit of the values beside it: cm or kg"`
	How         string `json:"how" doc:"how the measurement is taken"`
	Clause      string `json:"clause" doc:"clause of a standard that defines the measurement; may be empty"`
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
		records = append(records, measurementRecord{m.ID, m.Name, m.Kind, m.Region, m.Follows, m.Unit, m.How, m.Clause})
		g.Rows = append(g.Rows, NewRow(m.ID, m.Name, m.Follows, m.How))
	}
	return Document{
		Heading: []string{"Body measurements, by the ids of files and flags"},
		Tables:  []Table{g},
		Rows:    records,
		JSON:    MeasurementsDocument{records},
	}
}
