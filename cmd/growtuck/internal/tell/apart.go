package tell

import (
	"fmt"
	"strings"

	"growtuck/sizing"
)

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

// apartWords say on one line where several sizes part from children measured at
// their heights.
func apartWords(sizes []SizeBody) []string {
	var names []string
	least, most := map[string]float64{}, map[string]float64{}
	for _, s := range sizes {
		for _, a := range s.Body.Apart {
			name, percent := a.Measurement.Name, a.Percent()
			if _, seen := least[name]; !seen {
				names = append(names, name)
				least[name], most[name] = percent, percent
			}
			least[name], most[name] = min(least[name], percent), max(most[name], percent)
		}
	}
	if len(names) == 0 {
		return nil
	}
	var words []string
	for _, name := range names {
		low, high := minus(fmt.Sprintf("%+.0f", least[name])), minus(fmt.Sprintf("%+.0f", most[name]))
		if low != high {
			low += " to " + high
		}
		words = append(words, name+" "+low+" %")
	}
	return []string{"Beside children measured at their heights these sizes have: " + strings.Join(words, ", ") + ". For theirs name the heights as sizes of the chart measured."}
}
