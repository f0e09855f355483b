package validate

import (
	"fmt"
	"slices"
	"sync"

	"growtuck/sizing"
)

// A Field is a kind of row of the draft table.
type Field struct {
	Name     string
	Part     string   // what the part column holds, in words; "" if it is empty
	Parts    []string // the words allowed there; none: as Part says
	Value    string   // what the value is, in words
	Words    []string // the words allowed as value; none: as Value says
	Units    []string // the units allowed; where there is but one, it may be left out
	Low      float64  // the bounds of a plain number
	High     float64
	Required bool
	Many     bool // may be given more than once
	Means    string

	kind valueKind
	part partKind
}

type valueKind int

const (
	textValue valueKind = iota
	wordValue
	yesValue
	countValue  // whole, 0 or more
	numberValue // low to high
	lengthValue // above 0
	changeValue // a length that may be negative
	sizeValue   // a length or a count
	gaugeValue
	multipleValue
	bodyValue
	ageValue
	dateValue
)

type partKind int

const (
	noPart      partKind = iota
	wordPart             // one of Parts
	garmentPart          // a part of the garment
	ownGauge             // empty, or a part of the garment
	rowPart              // the number of a row
	bodyPart             // a measurement of the body
)

// zones are where something is fastened to a garment.
var zones = []string{"hood", "face", "neck", "front", "back", "chest", "waist", "seat", "sleeve", "cuff", "hand", "hem", "leg", "ankle", "foot", "brim"}

// attachments are what may be fastened to a garment, and what its length or
// size is.
var attachments = []struct{ name, value, means string }{
	{"cord", "free length", "a cord or ribbon that hangs free or runs in a channel; each end out of the channel at full width"},
	{"drawstring", "free length", "a cord that draws the fabric together; each end out of the channel at full width"},
	{"tie", "free length", "ends that are tied in a knot or bow"},
	{"toggle", "size", "a knob, stopper or knot at the end of a cord"},
	{"button", "width", "a sewn-on button"},
	{"popper", "width", "a press fastener"},
	{"bead", "width", "a bead, sequin or stone"},
	{"eye", "width", "a sewn-on or pushed-through eye or nose"},
	{"bell", "width", "a bell or rattle"},
	{"pompom", "width", "a pompom or tassel"},
	{"ear", "height", "an ear, horn, spike or comb"},
	{"tail", "length", "a tail, train or streamer"},
	{"fringe", "length", "a fringe, feathers or long pile"},
	{"mask", "height", "a part that comes before the face"},
	{"wing", "length", "a wing or cape"},
	{"float", "length", "the longest strand that lies loose across the inside, as in colour work"},
}

var lengthUnits = []string{"cm", "in", "mm"}

// DraftFields lists the fields of a draft, in the order of its sections.
func DraftFields() []Field {
	fields := []Field{
		{Name: "garment", Value: "id of a garment", Required: true, Means: "what is made; `growtuck garment` lists the garments"},
		{Name: "fit", kind: wordValue, Words: sizing.Words(sizing.Fits), Required: true, Means: "fit class of the trade standard"},
		{Name: "layer", kind: wordValue, Words: sizing.Words(sizing.Layers), Required: true, Means: "what it is worn over"},
		{Name: "nappy", kind: yesValue, Means: "worn over a nappy"},
		{Name: "growth", kind: numberValue, Low: 0, High: 4, Units: []string{"seasons"}, Means: "growth room in seasons of half a year"},
		{Name: "first_worn", kind: numberValue, Low: 0, High: 24, Units: []string{"months"}, Means: "when it is first worn, counted from when the child was measured"},
		{Name: "option", Value: "option of the garment", Many: true, Means: "a way of wearing that changes lengths, such as fold-back-cuffs"},
		{Name: "ease", part: garmentPart, kind: changeValue, Units: lengthUnits, Means: "ease that the part has in place of the fit's, over the body measurement"},
		{Name: "extra", part: garmentPart, kind: changeValue, Units: lengthUnits, Means: "an intended departure: added to the part, negative: taken away; say why in the note"},
		{Name: "wear", kind: wordValue, Words: []string{"everyday", "outdoor", "car", "sleep", "dress-up"}, Many: true, Means: "what it is worn for"},
		{Name: "colour", kind: wordValue, Words: []string{"dark", "light", "mixed"}, Means: "as seen at dusk"},
		{Name: "reflector", kind: yesValue, Means: "has reflecting yarn or tape"},

		{Name: "child", Value: "path of a child's table, from the draft's folder", Means: "who it is for; or the child's measurements in rows of body"},
		{Name: "size", Value: "size of the chart", Means: "the size it is for; with a child, widths and lengths that were not measured"},
		{Name: "widths", Value: "size of the chart", Means: "with lengths: widths and girths are from this size"},
		{Name: "lengths", Value: "size of the chart", Means: "with widths: lengths are from this size"},
		{Name: "chart", Value: "id of a chart", Means: "the chart of the sizes; `child` where left out"},
		{Name: "sex", kind: wordValue, Words: []string{"m", "f", "both"}, Means: "for charts that have boys and girls apart"},
		{Name: "age", kind: ageValue, Value: "3.5, 3y6m or 42m", Units: []string{"years", "months"}, Means: "of the wearer"},
		{Name: "born", kind: dateValue, Value: "2018-08-20", Means: "day of birth of the wearer"},
		{Name: "measured", kind: dateValue, Value: "2026-11-01", Means: "day on which the wearer was measured"},
		{Name: "body", part: bodyPart, kind: bodyValue, Value: "measurement", Units: []string{"cm", "in", "mm", "kg", "lb"}, Means: "a measurement of the child"},

		{Name: "craft", kind: wordValue, Words: []string{"knit", "crochet"}, Means: "for the yarn's published gauges"},
		{Name: "stitch", kind: wordValue, Words: []string{"sc", "hdc", "dc"}, Means: "what crochet is worked in, in US terms: its rows have a usual height"},
		{Name: "yarn", kind: numberValue, Low: 0, High: 7, Units: []string{"class"}, Means: "weight class of the yarn trade"},
		{Name: "stitch_gauge", part: ownGauge, kind: gaugeValue, Value: "stitches", Units: []string{"10 cm", "4 in"}, Means: "of the fabric, washed; with a part: of its ribbing"},
		{Name: "row_gauge", part: ownGauge, kind: gaugeValue, Value: "rows", Units: []string{"10 cm", "4 in"}, Means: "of the fabric, washed; with a part: of its ribbing"},
		{Name: "swatch", kind: lengthValue, Value: "width", Units: lengthUnits, Means: "over which the stitches were counted"},

		{Name: "finished", part: garmentPart, kind: sizeValue, Value: "size or count", Units: []string{"cm", "in", "mm", "stitches", "rows"}, Means: "finished size of a part, unstretched: girths and widths in stitches, lengths in rows; a part may have one row with a length and one with a count"},
		{Name: "edges", part: garmentPart, kind: lengthValue, Value: "width", Units: lengthUnits, Means: "what the edges and the closure of a front, or the edges of a hood, add to the fabric of a part: both sides and the gap of a zipper; a count is of the fabric alone, a size in cm includes them"},
		{Name: "hold", part: garmentPart, kind: wordValue, Words: []string{"fold-cuff", "hem", "tuck", "rise", "on-hold", "buttons"}, Means: "how the room to grow of a length is held until it is needed; its finished size is as let down"},
		{Name: "held", part: garmentPart, kind: lengthValue, Value: "length", Units: lengthUnits, Means: "how much of the finished length is folded away, or worked on later"},
		{Name: "tuck_above", part: garmentPart, kind: lengthValue, Value: "distance", Units: lengthUnits, Many: true, Means: "of a tuck across the part: how far it is, as let down, above the lower end or the ribbing there; one row for each"},
		{Name: "multiple", part: garmentPart, kind: multipleValue, Value: "4n, 6n+2, even, odd", Means: "form that the part's count must have"},
		{Name: "stretch", part: wordPart, Parts: []string{"neck", "cuff", "ankle", "waist", "brim"}, kind: numberValue, Low: 1, High: 3, Units: []string{"times"}, Means: "how far the edge stretches, measured on the swatch"},
		{Name: "lengthened", part: wordPart, Parts: []string{"body", "rise", "front_opening", "zipper", "trunk_loop"}, kind: changeValue, Units: lengthUnits, Means: "what was added to an older draft, negative: taken away; trunk_loop is shoulder, crotch and back up to the shoulder"},

		{Name: "opening", part: wordPart, Parts: []string{"front", "back", "shoulder", "seat"}, kind: lengthValue, Value: "length", Units: lengthUnits, Means: "an opening that is not a finished part"},
		{Name: "zipper", part: wordPart, Parts: []string{"front", "back", "shoulder", "seat"}, kind: lengthValue, Value: "length", Units: lengthUnits, Means: "the zipper that closes an opening"},
		{Name: "buttonband", part: wordPart, Parts: []string{"front", "back", "shoulder", "seat"}, kind: lengthValue, Value: "length", Units: lengthUnits, Means: "the band that closes an opening"},
		{Name: "guard", part: wordPart, Parts: []string{"chin"}, kind: yesValue, Means: "fabric covers the zipper's end at the chin"},

		{Name: "construction", kind: wordValue, Words: []string{"circular", "raglan", "drop-shoulder", "set-in"}, Means: "how body and sleeves meet"},
		{Name: "yoke", part: wordPart, Parts: []string{"start", "per_round", "end"}, kind: countValue, Value: "count", Units: []string{"stitches"}, Means: "stitches at the neck, increases of each increase round, stitches at the split"},
		{Name: "yoke_rows", kind: countValue, Value: "count", Units: []string{"rows"}, Means: "rows from the neck to the split"},
		{Name: "yoke_rounds", kind: countValue, Value: "count", Units: []string{"rounds"}, Means: "rows of the yoke that increase"},
		{Name: "increase", part: rowPart, kind: countValue, Value: "count", Units: []string{"stitches"}, Means: "stitches gained in that row of the yoke"},
		{Name: "split", part: wordPart, Parts: []string{"front", "front_left", "front_right", "back", "sleeve_left", "sleeve_right", "underarm", "body", "sleeve", "bridge"}, kind: countValue, Value: "count", Units: []string{"stitches"}, Means: "sections at the split; underarm: added under each arm; body and sleeve: what is worked after it; bridge: between the legs"},
		{Name: "decrease", part: wordPart, Parts: []string{"sleeve", "leg"}, kind: countValue, Value: "count", Units: []string{"rounds"}, Means: "rounds that decrease one stitch at each side"},
		{Name: "end", part: wordPart, Parts: []string{"sleeve", "leg"}, kind: countValue, Value: "count", Units: []string{"stitches"}, Means: "stitches left after them, before the cuff"},
	}
	for _, a := range attachments {
		fields = append(fields, Field{Name: a.name, part: wordPart, Parts: zones, kind: lengthValue, Value: a.value, Units: lengthUnits, Many: true, Means: a.means})
	}
	for i := range fields {
		f := &fields[i]
		if f.kind == yesValue {
			f.Words = []string{"yes", "no"}
		}
		switch f.kind {
		case changeValue:
			f.Value = "length"
		case numberValue:
			f.Value = fmt.Sprintf("%g to %g", f.Low, f.High)
		}
		switch f.part {
		case garmentPart:
			f.Part = "part of the garment"
		case ownGauge:
			f.Part = "none, or a part of the garment"
		case rowPart:
			f.Part = "number of the row"
		case bodyPart:
			f.Part = "id of a measurement"
		}
	}
	return fields
}

// draftFields are the fields, made once.
var draftFields = sync.OnceValue(DraftFields)

func fieldNamed(fields []Field, name string) (Field, bool) {
	i := slices.IndexFunc(fields, func(f Field) bool { return f.Name == name })
	if i < 0 {
		return Field{}, false
	}
	return fields[i], true
}
