package work

import (
	"bytes"
	"fmt"
	"image"
	"math"
	"path/filepath"
	"slices"
	"strings"

	"growtuck/cmd/growtuck/internal/schematic"
	"growtuck/data"
	"growtuck/sizing"
)

// mostPictures bounds the columns of a picture.
const mostPictures = 30

// Picture shows the columns that get new values, along the sizes of their charts: as
// they were and as they are, beside what children measured have. The name of the file
// says whether it is SVG or PNG. There is none where the tables cannot be used.
func (m *Merge) Picture(path string) ([]byte, error) {
	if m.after == nil {
		return nil, fmt.Errorf("%s: there is no picture of tables that cannot be used", path)
	}
	pictures := m.columns()
	if len(pictures) == 0 {
		return nil, fmt.Errorf("%s: there is nothing to draw: no row of body.csv is new or changed", path)
	}
	c := schematic.Columns{Title: "Columns with new and changed rows", Pictures: pictures}
	if n := len(pictures); n > mostPictures {
		c.Pictures, c.Note = pictures[:mostPictures], fmt.Sprintf("the first %d of %d", mostPictures, n)
	}
	if strings.EqualFold(filepath.Ext(path), ".png") {
		return c.PNG(image.Pt(2400, 6000))
	}
	var out bytes.Buffer
	err := c.SVG(&out)
	return out.Bytes(), err
}

// columns are the columns that get new values.
func (m *Merge) columns() []schematic.ColumnPicture {
	type column struct {
		chart string
		sex   sizing.Sex
		id    string
	}
	at := make(map[column]map[string]bool) // the sizes with new values
	for k := range m.changed {
		cells := strings.Split(k, "\x00")
		c := column{cells[0], sizing.Sex(cells[2]), cells[3]}
		if at[c] == nil {
			at[c] = make(map[string]bool)
		}
		at[c][cells[1]] = true
	}
	var all []schematic.ColumnPicture
	for _, chart := range m.after.Charts() {
		for _, run := range chart.Runs() {
			for _, x := range m.after.Measurements() {
				fresh := at[column{chart.ID, run.Sex, x.ID}]
				if !slices.ContainsFunc(run.Sizes, func(z sizing.Mark) bool { return fresh[z.Size] }) {
					continue
				}
				all = append(all, m.column(run, x, fresh))
			}
		}
	}
	return all
}

func (m *Merge) column(run *sizing.Run, x data.Measurement, fresh map[string]bool) schematic.ColumnPicture {
	sex := map[sizing.Sex]string{sizing.Boy: ", boys", sizing.Girl: ", girls"}[run.Sex]
	p := schematic.ColumnPicture{Title: fmt.Sprintf("%s, %s, chart %s%s", x.Name, x.Unit, run.Chart.ID, sex),
		Scale: map[sizing.Scale]string{sizing.Months: "months", sizing.Years: "years", sizing.Height: "height, cm"}[run.Scale]}
	before := func(float64) float64 { return math.NaN() }
	if old, err := m.was.Chart(run.Chart.ID); err == nil {
		if r, ok := old.Run(run.Scale, run.Sex); ok && r.Sex == run.Sex {
			before = func(at float64) float64 { return r.Value(x.ID, at) }
		}
	}
	for _, z := range run.Sizes {
		c := schematic.ColumnPoint{Size: z.Size, Position: z.Position, New: fresh[z.Size], Before: before(z.Position), After: run.Value(x.ID, z.Position)}
		c.Low, c.Mid, c.High = m.children(sizing.Place{Run: run, Position: z.Position}, x.ID)
		if !math.IsNaN(c.Before) || !math.IsNaN(c.After) {
			p.Points = append(p.Points, c)
		}
	}
	return p
}

// children are what surveyed children have who are as tall as those of a size.
func (m *Merge) children(at sizing.Place, measurement string) (low, mid, high float64) {
	unknown := math.NaN()
	survey, err := m.was.Chart("measured")
	height := m.heightAt(at)
	if err != nil || math.IsNaN(height) {
		return unknown, unknown, unknown
	}
	place, err := survey.AtHeight(height, at.Run.Sex)
	if err != nil {
		return unknown, unknown, unknown
	}
	r, err := m.was.Read(place, measurement, sizing.Monotone)
	switch {
	case err != nil:
		return unknown, unknown, unknown
	case r.Spread == sizing.NoSpread:
		return unknown, r.Value, unknown
	}
	return r.Low, r.Value, r.High
}

// heightAt is how tall children of a size are: by the chart, else by their age, of boys
// and girls together in the middle of both; NaN where that is not known.
func (m *Merge) heightAt(at sizing.Place) float64 {
	if height, ok := at.Height(); ok {
		return height
	}
	stature, err := m.was.Chart("stature")
	if err != nil {
		return math.NaN()
	}
	sexes := []sizing.Sex{at.Run.Sex}
	if at.Run.Sex == sizing.Both {
		sexes = []sizing.Sex{sizing.Boy, sizing.Girl}
	}
	sum := 0.0
	for _, sex := range sexes {
		run, ok := stature.Run(at.Run.Scale, sex)
		if !ok {
			return math.NaN()
		}
		sum += run.Value("height", at.Position)
	}
	return sum / float64(len(sexes))
}
