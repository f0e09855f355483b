package tell

import (
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
)

// swatch is what stitches and rows are told over, and how many times 10 cm that is.
func (s Style) swatch() (over string, times float64) {
	if s.Over4In {
		return "4 in", 4 * sizing.CmPerInch / 10
	}
	return "10 cm", 1
}

// Gauge tells a gauge as it was counted: "18 stitches and 24 rows to 10 cm".
func (s Style) Gauge(g stitch.Gauge) string {
	over, times := s.swatch()
	return Figure(g.StitchesPer10Cm*times).String() + " stitches and " + Figure(g.RowsPer10Cm*times).String() + " rows to " + over
}

// craftAndGauge says how a plan is worked: "knit, 18 stitches and 24 rows to 10 cm".
func (s Style) craftAndGauge(h plan.How) string { return string(h.Craft) + ", " + s.Gauge(h.Gauge) }

// countReasons say how a part's count was got.
func (s Style) countReasons(h plan.How, x plan.Part) []string {
	gives, want := s.inUnit(x.SizeCm), s.inUnit(x.WantCm)
	if x.Count == 0 {
		return []string{"made up of rows of several gauges: " + gives + " in all"}
	}
	g, fabric := h.Gauge, "the fabric"
	if x.Ribbed && h.Rib != nil {
		g, fabric = *h.Rib, "the ribbing"
	}
	over, times := s.swatch()
	per := g.StitchesPer10Cm
	if x.Unit == "rows" {
		per = g.RowsPer10Cm
	}
	why := []string{want + " asked for; " + s.value(x.Count, x.Unit) + " at " + Figure(per*times).String() + " " + x.Unit + " to " + over + " of " + fabric + " give " + gives}
	if x.Multiple != (stitch.Multiple{}) {
		why = append(why, "the count keeps the stitch multiple: "+x.Multiple.String())
	}
	return why
}

// sectionReasons say how large a section is.
func (s Style) sectionReasons(x *plan.Section) []string {
	rows := "rows"
	worked := "turned rows"
	if x.InRounds {
		rows, worked = "rounds", "rounds"
	}
	return []string{"worked in " + worked + " at " + s.Gauge(x.Gauge) + ": " + s.value(x.Rows(), rows) + " are " + s.inUnit(x.HeightCm()) + " high",
		"begins with " + s.value(x.From, "stitches") + ", " + s.inUnit(x.Gauge.WidthCm(x.From)) + " wide; ends with " + s.value(x.To(), "stitches") + ", " + s.inUnit(x.Gauge.WidthCm(x.To())) + " wide"}
}

// inUnit is a length as tables show it, with its unit.
func (s Style) inUnit(cm float64) string {
	unit := s.Units()[0]
	return minus(LengthIn(cm, unit)) + " " + unit
}
