package main

import (
	"strconv"
	"strings"

	"growtuck/data"
)

// weightRows returns the rows of body.csv for weight in chart measured: the
// quartiles of each class of height and sex, in the order of that table.
func weightRows(children []child) []data.Body {
	weight := variableIndex("weight")
	bySex := make(map[string]map[float64]class)
	for _, sex := range sexes {
		bySex[sex] = make(map[float64]class)
		for _, cl := range classesOf(ofSex(children, sex), weight) {
			bySex[sex][cl.centre] = cl
		}
	}
	var rows []data.Body
	for centre := float64(firstClass); centre <= lastClass; centre += classWidth {
		for _, sex := range sexes {
			cl, ok := bySex[sex][centre]
			if !ok {
				continue
			}
			for _, quartile := range []struct {
				name string
				p    float64
			}{{"p25", 0.25}, {"p50", 0.5}, {"p75", 0.75}} {
				rows = append(rows, data.Body{
					Chart: "measured", Size: shortest(centre), Sex: sex, Measurement: "weight",
					Statistic: quartile.name, Value: hundredths(percentile(cl.values, quartile.p)), Unit: "kg",
					Source: sourceID, Where: "two thirds of the records",
					Basis: basis, Review: "recomputed by cmd/relations", N: new(float64(len(cl.values))),
				})
			}
		}
	}
	return rows
}

// hundredths rounds to two decimals, a value halfway between to the even one.
func hundredths(v float64) float64 {
	// FormatFloat rounds the exact binary value, which scaling by 100 would lose.
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'f', 2, 64), 64)
	if err != nil {
		return v // no finite number fails to parse
	}
	return r
}

// weightsCSV returns rows of body.csv without their header.
func weightsCSV(rows []data.Body) ([]byte, error) {
	var table [][]string
	for _, r := range rows {
		value := shortest(r.Value)
		if !strings.Contains(value, ".") {
			value += ".0"
		}
		table = append(table, []string{r.Chart, r.Size, r.Sex, r.Measurement, r.Statistic, value, r.Unit,
			r.Source, r.Where, r.Basis, r.Review, r.Note, shortest(*r.N)})
	}
	return encode(table)
}
