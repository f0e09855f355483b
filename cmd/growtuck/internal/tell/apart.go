package tell

import "growtuck/sizing"

// An apartRecord is a girth of a size that parts from that of children measured, as
// JSON.
type apartRecord struct {
	Measurement string `json:"measurement" doc:"id of the body measurement"`
	Size        Figure `json:"size" doc:"the size's girth, cm"`
	Usual       Figure `json:"measured" doc:"the median of children measured at the height that the size is for, cm"`
	Percent     Figure `json:"percent" doc:"by how much the size is larger, in percent; below 0 where it is smaller"`
	Chart       string `json:"chart" doc:"id of the chart that has those children"`
}

func apartRecords(b *sizing.Body) []apartRecord {
	all := []apartRecord{}
	for _, a := range b.Apart {
		all = append(all, apartRecord{a.Measurement.ID, Figure(a.Size), Figure(a.Usual), Figure(a.Percent()), "measured"})
	}
	return all
}
