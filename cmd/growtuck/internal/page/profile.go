package page

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
)

// A profileRow is a measurement on the scale of sizes. Places are in percent of
// the track's width.
type profileRow struct {
	Name                string
	Own                 bool // measured on the child: a dot; else a likely range
	Value               explained
	Size                string
	OnScale             bool
	At, From, To, Width string
}

// A profileGroup is a set of rows under one head: widths, lengths.
type profileGroup struct {
	Title string
	Rows  []profileRow
}

// A tick is a size on the scale.
type tick struct{ At, Label string }

// A profileView shows where the child is on the scale of sizes.
type profileView struct {
	Ticks  []tick
	Groups []profileGroup
	Unit   string
	Range  string // what all bars are; "" where they differ
}

// A scale is a stretch of the sizes, in years; months are among them.
type scale struct{ low, high float64 }

// percent places a position on the track, with a margin at both ends.
func (s scale) percent(years float64) string {
	share := (years - s.low) / (s.high - s.low)
	return fmt.Sprintf("%.1f%%", 3+94*math.Max(0, math.Min(1, share)))
}

// inYears is a position on the one scale that all sizes share; NaN on others.
func inYears(run *sizing.Run, position float64) float64 {
	switch {
	case run == nil:
		return math.NaN()
	case run.Scale == sizing.Years:
		return position
	case run.Scale == sizing.Months:
		return position / 12
	}
	return math.NaN()
}

// A sizeMark is where a value is on the scale: at one place or along a level stretch.
type sizeMark struct {
	run       *sizing.Run // nil where no size has it
	low, high float64     // years
	// label names the size; lowest and highest its ends.
	label, lowest, highest string
}

func (p sizeMark) ok() bool { return p.run != nil }

// markOf finds the size that has a value of a measurement.
func markOf(chart *sizing.Chart, sex sizing.Sex, id string, value float64) sizeMark {
	f, err := chart.SizeOf(id, value, sex)
	if err != nil || f.Run == nil {
		return sizeMark{}
	}
	low, high := inYears(f.Run, f.From), inYears(f.Run, f.To)
	if math.IsNaN(low) || math.IsNaN(high) {
		return sizeMark{}
	}
	return sizeMark{f.Run, low, high, f.Label(), endOf(f.Run, f.From), endOf(f.Run, f.To)}
}

// endOf names a position as a size.
func endOf(run *sizing.Run, position float64) string {
	return sizing.Span{Run: run, From: position, To: position}.Label()
}

// ends are where the likely range of a reading ends. An end that the chart does
// not have is the end of the chart, and says so.
func (s *site) ends(chart *sizing.Chart, sex sizing.Sex, m sizing.Reading, at sizeMark) (least, most sizeMark) {
	if m.Spread == "" || !at.ok() {
		return at, at
	}
	least, most = markOf(chart, sex, m.Measurement.ID, m.Low), markOf(chart, sex, m.Measurement.ID, m.High)
	first, last, _ := at.run.Has(m.Measurement.ID) // the value is on it
	if !least.ok() {
		least = sizeMark{run: at.run, low: inYears(at.run, first), high: inYears(at.run, first), lowest: "under " + endOf(at.run, first)}
	}
	if !most.ok() {
		most = sizeMark{run: at.run, low: inYears(at.run, last), high: inYears(at.run, last), highest: "over " + endOf(at.run, last)}
	}
	return least, most
}

// A markedReading is a measurement and where it is on the scale.
type markedReading struct {
	reading         sizing.Reading
	own             bool
	at, least, most sizeMark
}

// standing lays the child's measurements, and those the garment needs, out on
// the scale of sizes.
func (s *site) profileOf(style tell.Style, r *result) *profileView {
	chart, err := s.engine.Reference.Chart("child")
	if err != nil || r.body == nil {
		return nil
	}
	var all []markedReading
	zoom := scale{math.Inf(1), math.Inf(-1)}
	reach := func(p sizeMark) {
		if p.ok() {
			zoom.low, zoom.high = math.Min(zoom.low, p.low), math.Max(zoom.high, p.high)
		}
	}
	for _, m := range r.body.Readings {
		_, own := r.request.Child.Own[m.Measurement.ID]
		if !own && !needs(r.finished, m.Measurement.ID) {
			continue
		}
		p := markedReading{reading: m, own: own, at: markOf(chart, r.request.Child.Sex, m.Measurement.ID, m.Value)}
		p.least, p.most = p.at, p.at
		if !own {
			p.least, p.most = s.ends(chart, r.request.Child.Sex, m, p.at)
		}
		reach(p.least)
		reach(p.most)
		reach(p.at)
		all = append(all, p)
	}
	if len(all) == 0 {
		return nil
	}
	if math.IsInf(zoom.low, 1) {
		zoom = scale{2, 8}
	}
	zoom.low, zoom.high = math.Max(0, math.Floor(zoom.low-0.4)), math.Min(17, math.Ceil(zoom.high+0.4))
	out := &profileView{Ticks: ticks(chart, r.request.Child.Sex, zoom), Unit: style.Unit, Range: rangesOf(all),
		Groups: []profileGroup{{Title: "Widths and girths"}, {Title: "Lengths, and what goes with them"}, {Title: "Others"}}}
	for _, p := range all {
		row := s.profileRow(style, r, p, zoom)
		i := slices.Index([]string{"widths", "lengths"}, p.reading.Measurement.Follows)
		if i < 0 {
			i = 2
		}
		out.Groups[i].Rows = append(out.Groups[i].Rows, row)
	}
	out.Groups = slices.DeleteFunc(out.Groups, func(g profileGroup) bool { return len(g.Rows) == 0 })
	for _, g := range out.Groups {
		slices.SortStableFunc(g.Rows, func(a, b profileRow) int { // measured first
			if a.Own == b.Own {
				return 0
			} else if a.Own {
				return -1
			}
			return 1
		})
	}
	return out
}

// profileRow is a row of the picture.
func (s *site) profileRow(style tell.Style, r *result, p markedReading, z scale) profileRow {
	why := style.ReadingReasons(p.reading)
	row := profileRow{Name: style.Named(p.reading), Own: p.own, Size: p.at.label,
		Value: explained{Text: style.Measured(p.reading), ID: "why-body-" + p.reading.Measurement.ID, Name: p.reading.Measurement.Name,
			Why: slices.Concat(why[:1], profileReasons(r, p.reading, p.at), why[1:])}}
	if p.at.ok() {
		row.OnScale = true
		row.At = z.percent((p.at.low + p.at.high) / 2)
		from, to := math.Min(p.at.low, p.least.low), math.Max(p.at.high, p.most.high)
		row.From, row.To = z.percent(from), z.percent(to)
		row.Width = fmt.Sprintf("%.1f%%", (to-from)/(z.high-z.low)*94)
		if p.least.lowest != p.most.highest && !p.own {
			row.Size += " (" + p.least.lowest + "–" + p.most.highest + ")"
		}
	} else {
		row.Size = "–"
	}
	return row
}

// rangesOf says what the bars are, where all are the same.
func rangesOf(all []markedReading) string {
	said := ""
	for _, p := range all {
		if p.own || p.reading.Spread == "" {
			continue
		}
		if words := tell.SpreadWords(p.reading.Spread); said == "" {
			said = words
		} else if said != words {
			return ""
		}
	}
	return said
}

// profileReasons say at which size of the chart a measurement is, and at which height
// it is typical.
func profileReasons(r *result, m sizing.Reading, at sizeMark) []string {
	var words []string
	if at.label != "" {
		words = append(words, "the default chart has it at size "+at.label)
	} else {
		words = append(words, "the default chart has it at no size")
	}
	for _, x := range r.survey {
		if x.Reading.Measurement.ID == m.Measurement.ID && x.Run != nil && x.Run.Scale == sizing.Height {
			words = append(words, "in the survey it is typical at a height of "+x.Label())
		}
	}
	return words
}

func needs(f *sizing.Finished, measurement string) bool {
	return f != nil && slices.ContainsFunc(f.Lines, func(l sizing.Line) bool { return l.Part.Measurement == measurement })
}

// ticks are the sizes on a stretch of the scale, so many as have room.
func ticks(chart *sizing.Chart, sex sizing.Sex, z scale) []tick {
	var all []tick
	last := math.Inf(-1)
	step := (z.high - z.low) / 7.5
	for _, sc := range []sizing.Scale{sizing.Months, sizing.Years} {
		run, ok := chart.Run(sc, sex)
		if !ok {
			continue
		}
		for _, m := range run.Sizes {
			at := inYears(run, m.Position)
			if at < z.low || at > z.high || at-last < step || sc == sizing.Months && at >= 2 {
				continue
			}
			last = at
			all = append(all, tick{z.percent(at), strings.TrimSpace(m.Size)})
		}
	}
	return all
}
