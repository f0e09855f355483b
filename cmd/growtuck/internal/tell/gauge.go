package tell

import (
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
	"strings"
)

// swatch is what stitches and rows are told over, and how many times 10 cm that is.
func (st Style) swatch() (over string, times float64) {
	if st.Over4In {
		return "4 in", 4 * sizing.CmPerInch / 10
	}
	return "10 cm", 1
}

// Gauge tells a gauge as it was counted: "18 stitches and 24 rows to 10 cm".
func (st Style) Gauge(g stitch.Gauge) string {
	over, times := st.swatch()
	return Figure(g.StitchesPer10Cm*times).String() + " stitches and " + Figure(g.RowsPer10Cm*times).String() + " rows to " + over
}

// craftAndGauge says how a plan is worked: "knit, 18 stitches and 24 rows to 10 cm".
func (st Style) craftAndGauge(h plan.How) string {
	text := string(h.Craft)
	if h.Craft == plan.Crochet {
		text += " in " + st.For(h).mainStitch() + ", " + strings.ToUpper(string(h.Terms)) + " terms"
	}
	text += ", " + st.Gauge(h.Gauge)
	if h.Rib != nil {
		text += "; ribbing, " + st.Gauge(*h.Rib)
	}
	return text
}

// countReasons say how a part's count was got.
func (st Style) countReasons(h plan.How, x plan.Part) []string {
	gives, want := st.inUnit(x.SizeCm), st.inUnit(x.WantCm)
	if x.Count == 0 {
		return []string{"made up of rows of several gauges: " + gives + " in all"}
	}
	g, fabric := h.Gauge, "the fabric"
	if x.Ribbed && h.Rib != nil {
		g, fabric = *h.Rib, "the ribbing"
	}
	over, times := st.swatch()
	per := g.StitchesPer10Cm
	if x.Unit == "rows" {
		per = g.RowsPer10Cm
	}
	why := []string{want + " asked for; " + st.value(x.Count, x.Unit) + " at " + Figure(per*times).String() + " " + x.Unit + " to " + over + " of " + fabric + " give " + gives}
	if x.Multiple != (stitch.Multiple{}) {
		why = append(why, "the count keeps the stitch multiple: "+x.Multiple.String())
	}
	return why
}

// sectionReasons say how large a section is.
func (st Style) sectionReasons(x *plan.Section) []string {
	rows := "rows"
	worked := "turned rows"
	if x.InRounds {
		rows, worked = "rounds", "rounds"
	}
	return []string{"worked in " + worked + " at " + st.Gauge(x.Gauge) + ": " + st.value(x.Rows(), rows) + " are " + st.inUnit(x.HeightCm()) + " high",
		"begins with " + st.value(x.From, "stitches") + ", " + st.inUnit(x.Gauge.WidthCm(x.From)) + " wide; ends with " + st.value(x.To(), "stitches") + ", " + st.inUnit(x.Gauge.WidthCm(x.To())) + " wide"}
}

// inUnit is a length as tables show it, with its unit.
func (st Style) inUnit(cm float64) string {
	unit := st.Units()[0]
	return minus(LengthIn(cm, unit)) + " " + unit
}
