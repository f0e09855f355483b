package validate

import (
	"fmt"

	"growtuck/data"
)

type sizeName struct{ chart, size string }

// A tableIndex finds what rows name.
type tableIndex struct {
	t                             *data.Tables
	sources, charts, measurements map[string]int
	garments                      map[string]int
	groups                        map[string]bool
	sizes                         map[sizeName]int
	parts                         map[[2]string]int
}

// newTableIndex indexes tables. A key that occurs twice means its first row.
func newTableIndex(t *data.Tables) (*tableIndex, error) {
	for _, l := range []struct {
		table     string
		rows, max int
	}{{"charts.csv", len(t.Charts), maxCharts}, {"sizes.csv", len(t.Sizes), maxSizes}, {"measurements.csv", len(t.Measurements), maxMeasurements}} {
		if l.rows > l.max {
			return nil, &data.Error{File: l.table, Msg: fmt.Sprintf("%d rows; at most %d are read", l.rows, l.max)}
		}
	}
	ix := &tableIndex{t: t,
		sources:      placesOf(t.Sources, func(r data.Source) string { return r.ID }),
		charts:       placesOf(t.Charts, func(r data.Chart) string { return r.ID }),
		measurements: placesOf(t.Measurements, func(r data.Measurement) string { return r.ID }),
		garments:     placesOf(t.Garments, func(r data.Garment) string { return r.ID }),
		sizes:        placesOf(t.Sizes, func(r data.Size) sizeName { return sizeName{r.Chart, r.Size} }),
		parts:        placesOf(t.Parts, func(r data.Part) [2]string { return [2]string{r.Garment, r.Part} }),
		groups:       make(map[string]bool),
	}
	for _, g := range t.Garments {
		ix.groups[g.Group] = true
	}
	return ix, nil
}

func placesOf[R any, K comparable](rows []R, key func(R) K) map[K]int {
	places := make(map[K]int, len(rows))
	for i, r := range rows {
		if _, dup := places[key(r)]; !dup {
			places[key(r)] = i
		}
	}
	return places
}
