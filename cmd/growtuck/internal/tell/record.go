package tell

import "growtuck/sizing"

// A bodyRecord is a body measurement as CSV and JSON show it. Value, low and
// high are in unit: cm, or kg for weight. ValueIn is in inches; ValueLb, for
// weight alone, in pounds.
type bodyRecord struct {
	Measurement string   `json:"measurement" doc:"id of the body measurement"`
	Name        string   `json:"name" doc:"name in words"`
	Value       Figure   `json:"value" doc:"the value, in the unit"`
	Unit        string   `json:"unit" doc:"unit of the values beside it: cm or kg"`
	ValueIn     *Figure  `json:"value_in" doc:"the value in inches; null for a weight"`
	ValueLb     *Figure  `json:"value_lb" doc:"the value in pounds; null for a length"`
	Low         *Figure  `json:"low" doc:"lower end of the range, in the unit; null where there is none"`
	High        *Figure  `json:"high" doc:"upper end of the range, in the unit; null where there is none"`
	Spread      string   `json:"spread" doc:"what the ends of the range are, such as p10–p90; empty where there is none"`
	Provenance  string   `json:"got" doc:"where the value comes from: measured, published, between, derived or estimated"`
	From        string   `json:"from" doc:"in words, where the value comes from"`
	Sources     []string `json:"sources" doc:"ids of the sources that it rests on"`
	Where       string   `json:"where" doc:"place of the figures in their source: a page, a table, of how many children"`
	Notes       []string `json:"notes" doc:"what to watch out for"`
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
	Measurement string `json:"measurement" doc:"id of the body measurement"`
	Name        string `json:"name" doc:"name in words"`
	Reason      string `json:"reason" doc:"why the chart does not have it; empty where it does"`
}
