package work

import (
	"fmt"
	"slices"
	"strings"

	"growtuck/data"
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
)

// usesOf tries the charts and garments that rows are about in what commands do.
func usesOf(ref *sizing.Reference, from map[string]map[string]proposed) []Use {
	touched := func(id string, tables ...string) bool {
		for _, table := range tables {
			for k := range from[table] {
				if slices.Contains(strings.Split(k, "\x00")[:1], id) || table == "ease.csv" && strings.Split(k, "\x00")[1] == id {
					return true
				}
			}
		}
		return false
	}
	var uses []Use
	for _, c := range ref.Charts() {
		if touched(c.ID, "charts.csv", "sizes.csv", "body.csv") {
			uses = append(uses, chartUse(ref, c))
		}
	}
	for _, g := range ref.Garments() {
		if touched(g.ID, "garments.csv", "parts.csv", "ease.csv", "lengths.csv") {
			uses = append(uses, garmentUse(ref, g))
		}
	}
	return uses
}

// chartUse reads a chart at all its sizes.
func chartUse(ref *sizing.Reference, c *sizing.Chart) Use {
	u := Use{What: "chart " + c.ID}
	sizes, readings := 0, 0
	for _, run := range c.Runs() {
		for _, z := range run.Sizes {
			n := len(ref.BodyAt(sizing.Place{Run: run, Position: z.Position}, sizing.Monotone).Readings)
			if n == 0 && u.Err == nil {
				u.Err = fmt.Errorf("size %s (%s) reads nothing", z.Size, run.Sex)
			}
			sizes, readings = sizes+1, readings+n
		}
	}
	u.For = fmt.Sprintf("%d readings at %d sizes", readings, sizes)
	if err := c.CheckSex(sizing.Both); err != nil {
		u.For += "; " + err.Error()
	}
	return u
}

// garmentUse plans a garment in both crafts at the sizes of the default chart.
func garmentUse(ref *sizing.Reference, g data.Garment) Use {
	u := Use{What: "garment " + g.ID}
	chart, err := ref.Chart(sizing.DefaultChart)
	if err != nil {
		u.Err = err
		return u
	}
	planned := 0
	for _, size := range []string{"2", "4", "6", "8", "10", "12", "14"} {
		place, err := chart.Place(size, sizing.Both)
		if err != nil {
			u.Err = err
			return u
		}
		f, err := ref.Finish(ref.BodyAt(place, sizing.Monotone), sizing.Spec{Garment: g.ID, Fit: "classic", Layer: "skin"})
		for _, craft := range plan.Crafts {
			if err == nil {
				_, err = plan.Make(f, plan.How{Craft: craft, Gauge: stitch.Gauge{StitchesPer10Cm: 20, RowsPer10Cm: 28}})
			}
			if err != nil {
				u.Err = fmt.Errorf("size %s: %w", size, err)
				return u
			}
			planned++
		}
	}
	u.For = fmt.Sprintf("%d plans, in knitting and crochet, sizes 2 to 14", planned)
	return u
}
