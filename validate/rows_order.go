package validate

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"growtuck/data"
	"growtuck/sizing"
)

// A rowRank says where a row is in canonical order. Rows of the same rank
// keep the order they have.
type rowRank struct {
	places [6]float64
	text   string
}

func compareRanks(a, b rowRank) int {
	return cmp.Or(slices.Compare(a.places[:], b.places[:]), strings.Compare(a.text, b.text))
}

// atEnd is the place of what no table lists.
const atEnd = 1e12

// rankOf returns the canonical order of a table's rows: that of the tables
// they name. It returns nil for tables whose order is their own to choose,
// since it is the order in which others are listed and printed.
func (ix *tableIndex) rankOf(form *tableForm) func(cells []string) rowRank {
	cell := func(cells []string, column string) string { return cells[form.index(column)] }
	in := func(places map[string]int, name string) float64 {
		if i, ok := places[name]; ok {
			return float64(i)
		}
		return atEnd
	}
	of := func(list []string, name string) float64 {
		if i := slices.Index(list, name); i >= 0 {
			return float64(i)
		}
		return atEnd
	}
	number := func(s string) float64 {
		if plainNumber().MatchString(s) {
			v, _ := strconv.ParseFloat(s, 64)
			return v
		}
		return 0
	}
	switch form.name {
	case "sources.csv":
		return func(c []string) rowRank { return rowRank{text: cell(c, "id")} }
	case "abbreviations.csv":
		return func(c []string) rowRank {
			return rowRank{text: strings.Join([]string{cell(c, "craft"), cell(c, "terms"), strings.ToLower(cell(c, "abbreviation"))}, ",")}
		}
	case "yarns.csv":
		return func(c []string) rowRank { return rowRank{text: cell(c, "class")} }
	case "sizes.csv":
		return func(c []string) rowRank {
			return rowRank{places: [6]float64{in(ix.charts, cell(c, "chart")), of(sizeScales, cell(c, "scale")), number(cell(c, "position"))}}
		}
	case "parts.csv", "lengths.csv":
		return func(c []string) rowRank { return rowRank{places: [6]float64{in(ix.garments, cell(c, "garment"))}} }
	case "ease.csv":
		rules, layers := data.Words[data.Ease]("rule"), append(sizing.Words(sizing.Layers), "any")
		return func(c []string) rowRank {
			return rowRank{places: [6]float64{of(rules, cell(c, "rule")), of(layers, cell(c, "layer"))}}
		}
	case "relations.csv":
		statistics := data.Words[data.Relation]("statistic")
		return func(c []string) rowRank {
			return rowRank{places: [6]float64{of(bodySexes, cell(c, "sex")), of(statistics, cell(c, "statistic"))}}
		}
	case "ratios.csv":
		return func(c []string) rowRank {
			return rowRank{places: [6]float64{of(bodySexes, cell(c, "sex"))}}
		}
	case bodyTable:
		return func(c []string) rowRank {
			size := float64(atEnd)
			if i, ok := ix.sizes[sizeName{cell(c, "chart"), cell(c, "size")}]; ok {
				size = float64(i)
			}
			return rowRank{places: [6]float64{in(ix.charts, cell(c, "chart")), size, of(bodySexes, cell(c, "sex")),
				in(ix.measurements, cell(c, "measurement")), of(bodyStatistics, cell(c, "statistic")), of(bodyUnits, cell(c, "unit"))}}
		}
	}
	return nil
}
