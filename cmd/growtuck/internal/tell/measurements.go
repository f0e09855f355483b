package tell

import (
	"growtuck/sizing"
)

type measurementRecord struct {
	Measurement string `json:"measurement"`
	Name        string `json:"name"`
	Kind        string `json:"kind"`
	Region      string `json:"region"`
	Follows     string `json:"follows"`
	Unit        string `json:"unit"`
	How         string `json:"how"`
	Clause      string `json:"clause"`
}

// A MeasurementsDocument is the measurements, as JSON.
type MeasurementsDocument struct {
	Measurements []measurementRecord `json:"measurements"`
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
		Heading: []string{"Body measurements, as files and flags name them"},
		Tables:  []Table{g},
		Rows:    records,
		JSON:    MeasurementsDocument{records},
	}
}
