package tell

import "growtuck/sizing"

// A bodyRecord is a body measurement as CSV and JSON show it. Value, low and
// high are in unit: cm, or kg for weight. ValueIn is in inches; ValueLb, for
// weight alone, in pounds.
type bodyRecord struct {
	Measurement string   `json:"measurement"`
	Name        string   `json:"name"`
	Value       Figure   `json:"value"`
	Unit        string   `json:"unit"`
	ValueIn     *Figure  `json:"value_in"`
	ValueLb     *Figure  `json:"value_lb"`
	Low         *Figure  `json:"low"`
	High        *Figure  `json:"high"`
	Spread      string   `json:"spread"`
	Provenance  string   `json:"got"`
	From        string   `json:"from"`
	Sources     []string `json:"sources"`
	Where       string   `json:"where"`
	Notes       []string `json:"notes"`
}

func newBodyRecord(r sizing.Reading) bodyRecord {
	weight := r.Measurement.Unit == "kg"
	return bodyRecord{
		Measurement: r.Measurement.ID,
		Name:        r.Measurement.Name,
		Value:       Figure(r.Value),
		Unit:        r.Measurement.Unit,
		ValueIn:     Known(r.Imperial, !weight),
		ValueLb:     Known(r.Imperial, weight),
		Low:         Known(r.Low, r.Spread != ""),
		High:        Known(r.High, r.Spread != ""),
		Spread:      string(r.Spread),
		Provenance:  string(r.Provenance),
		From:        Style{}.From(r),
		Sources:     InOrder(r.Sources),
		Where:       r.Where,
		Notes:       append([]string{}, Style{}.Facts(r.Notes)...),
	}
}

func bodyRecords(b *sizing.Body) []bodyRecord {
	records := []bodyRecord{}
	for _, r := range b.Readings {
		records = append(records, newBodyRecord(r))
	}
	return records
}

// A missingRecord is a measurement that a chart does not have.
type missingRecord struct {
	Measurement string `json:"measurement"`
	Name        string `json:"name"`
	Reason      string `json:"reason"`
}
