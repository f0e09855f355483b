package ask

import (
	"slices"
	"strings"
	"sync"
	"time"

	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
)

// fields is the table: everything that can be asked of a child, a garment and how it is
// worked has one entry here. It is built once: every command makes its flags from it.
var fields = sync.OnceValue(func() []Field {
	return slices.Concat(childFields(), garmentFields(), swatchFields(), makingFields(), progressFields(), shownFields())
})

func childFields() []Field {
	return []Field{
		{Name: "sex", Group: Child, Choices: []string{"m", "f", "both"}, Called: []Answer{{"both", "not said"}, {"f", "girl"}, {"m", "boy"}}, Draft: "sex", Label: "the child is",
			Help: "m, f or both; overrides the file", set: setFact("sex")},
		{Name: "age", Group: Child, Draft: "age", Label: "age", Hint: "4.5, 4y6m or 30m; for cautions, and where the height is not known",
			Help: "age: 4.5, 4y6m or 30m; overrides the file", set: setFact("age")},
		{Name: "born", Group: Child, Draft: "born", Label: "born on", Hint: "a day, in place of the age; may be empty",
			Help: "`day` of birth, such as 2018-08-20, in place of the age; overrides the file", set: setFact("born")},
		{Name: "measured", Group: Child, Draft: "measured", Label: "measured on", Hint: "a day, such as 2026-11-01; empty: today",
			Help: "`day` of measuring, from which the child grows (default: that of the file, or today)", set: setFact("measured")},
		{Name: "set", Group: Child, Kind: Pairs, Many: true, Draft: "body", Label: "measurements",
			Help: "a measurement of the child, such as `chest=53cm`; may be repeated", set: (*Request).setMeasurement},

		{Name: "size", Group: Sizes, Cell: true, Draft: "size", Label: "everything not measured from size", Hint: "empty: estimated from the child",
			Help: "`size` for everything that was not measured", set: text(func(r *Request) *string { return &r.Sizes.All })},
		{Name: "widths", Group: Sizes, Cell: true, Draft: "widths", Label: "widths from size",
			Help: "`size` for widths and girths", set: text(func(r *Request) *string { return &r.Sizes.Widths })},
		{Name: "lengths", Group: Sizes, Cell: true, Draft: "lengths", Label: "lengths from size",
			Help: "`size` for lengths", set: text(func(r *Request) *string { return &r.Sizes.Lengths })},
		{Name: "chart", Group: Sizes, Usual: sizing.DefaultChart, Known: ChartIDs, Cell: true, Draft: "chart", Label: "chart",
			Listed: "charts", Help: "`chart` of the sizes", set: (*Request).setChart},
		{Name: "linear", Group: Sizes, Kind: YesNo, Cell: true, Label: "linear between sizes",
			Help: "interpolate linearly between sizes",
			set:  yes(func(r *Request, on bool) { r.Sizes.Method = map[bool]sizing.Method{true: sizing.Linear}[on] })},
		{Name: "sizes", Group: Sizes, Kind: List, Cell: true, Label: "sizes of the graded table",
			Help: "these `sizes` of the chart side by side, comma-separated: 2,4,6", set: func(r *Request, texts []string) error { r.Run = texts; return nil }},
	}
}

func garmentFields() []Field {
	return []Field{
		{Name: "garment", Group: Garment, Argument: true, Required: true, Known: GarmentIDs, Cell: true, Draft: "garment", Label: "garment",
			Listed: "garments", Help: "a garment", set: (*Request).setGarment},
		{Name: "fit", Group: Garment, Kind: Choice, Choices: sizing.Words(sizing.Fits), Usual: "classic", Cell: true, Draft: "fit", Label: "fit", Hint: "fit classes of the trade standard",
			Help: "fit class: " + strings.Join(sizing.Words(sizing.Fits), ", "), set: choice(func(r *Request) *sizing.Fit { return &r.Spec.Fit })},
		{Name: "layer", Group: Garment, Kind: Choice, Choices: sizing.Words(sizing.Layers), Called: []Answer{{"skin", "skin or underwear"}, {"indoor", "indoor clothes"}, {"winter", "winter clothes"}}, Usual: "skin", Cell: true, Draft: "layer", Label: "worn over",
			Help: "clothes underneath: " + strings.Join(sizing.Words(sizing.Layers), ", "), set: choice(func(r *Request) *sizing.Layer { return &r.Spec.Layer })},
		{Name: "nappy", Group: Garment, Kind: YesNo, Cell: true, Draft: "nappy", Label: "worn over a nappy", Parts: []string{"rise"}, For: "trousers and one-pieces",
			Help: "worn over a nappy", set: yes(func(r *Request, on bool) { r.Spec.Nappy = on })},
		{Name: "growth", Group: Garment, Kind: Number, Low: 0, High: 4, Called: []Answer{{"0", "none"}, {"1", "half a year"}, {"2", "a year"}, {"3", "a year and a half"}, {"4", "two years"}},
			Usual: "0", Cell: true, Draft: "growth", Label: "room to grow for", Hint: "half-years, 0 to 4",
			Help: "growth room in `seasons` of half a year, 0 to 4", set: number(func(r *Request) *float64 { return &r.Spec.Seasons })},
		{Name: "wear", Group: Garment, Cell: true, Draft: "first_worn", Label: "first worn", Hint: "a month, a day or a time from measuring: 2027-10 or 5m; empty: at once",
			Help: "first worn in a `month`, on a day or after a time: 2027-10, 2027-10-15 or 5m; the child grows until then", set: (*Request).setWear},
		{Name: "until", Group: Garment, Cell: true, Draft: "growth", Label: "to be worn until", Hint: "2028-04, in place of the room to grow for; may be empty",
			Help: "growth room until the end of a `month`, or a day, such as 2028-04; in place of --growth", set: (*Request).setUntil},
		{Name: "grow", Group: Garment, Cell: true, Draft: "growth", Label: "to be worn for", Hint: "9m or 1y6m, in place of the room to grow for; may be empty",
			Help: "growth room for a `time` from when it is first worn, such as 9m or 1y6m; in place of --growth", set: (*Request).setGrow},
		{Name: "option", Group: Garment, Many: true, Cell: true, Draft: "option", Label: "options",
			Help: "`name` of an option of the garment; may be repeated", set: (*Request).setOptions},
		{Name: "ease", Group: Garment, Kind: List, Many: true, Cell: true, Draft: "ease", Label: "own ease", Hint: "round the whole body measurement, in place of the fit's; girths for all; may be empty",
			Help: "own ease of a part, in place of the fit's: `chest=4in`, hip=8 (cm), chest=10%, or girths=5%; without fit the fit class follows it; may be repeated", set: (*Request).setEase},
		{Name: "extra", Group: Garment, Kind: Pairs, Many: true, Cell: true, Draft: "extra", Label: "more or less of a part",
			Help: "add to a part, or with - take away: `sleeve_length=2` in cm, or 1in; may be repeated", set: (*Request).setExtra},
	}
}

func swatchFields() []Field {
	return []Field{
		{Name: "gauge", Group: Swatch, Kind: Gauge, Cell: true, Draft: "stitch_gauge", Label: "gauge",
			Help: "`stitches x rows` of the washed swatch, such as 18x24/10cm or 20x28/4in", set: gauge(func(r *Request, g *stitch.Gauge) { r.How.Gauge = *g })},
		{Name: "rib", Group: Swatch, Kind: Gauge, Cell: true, Label: "ribbing", Hint: "empty: the gauge of the fabric",
			Help: "`stitches x rows` of the ribbing, washed (default: the gauge of the fabric)", set: gauge(func(r *Request, g *stitch.Gauge) { r.How.Rib = g })},
		{Name: "before-washing", Group: Swatch, Kind: Gauge, Cell: true, Label: "before washing", Hint: "stitches x rows, such as 18x24/10cm; may be empty",
			Help: "`stitches x rows` of the same swatch before it was washed", set: gauge(func(r *Request, g *stitch.Gauge) { r.How.Before = g })},
	}
}

func makingFields() []Field {
	sleeves := []string{"sleeve_length"}
	opening := []string{"front_opening"}
	return []Field{
		{Name: "craft", Group: Making, Kind: Choice, Choices: sizing.Words(plan.Crafts), Cell: true, Draft: "craft", Label: "craft",
			Help: strings.Join(sizing.Words(plan.Crafts), " or "), set: choice(func(r *Request) *plan.Craft { return &r.How.Craft })},
		{Name: "terms", Group: Making, Crochet: true, Kind: Choice, Choices: sizing.Words(plan.AllTerms), Called: []Answer{{"us", "US"}, {"uk", "UK"}}, Usual: string(plan.US), Cell: true, Label: "crochet in the terms of", Hint: "for crochet",
			Help: "terms of crochet: us or uk, in which sc is dc, hdc htr and dc tr", set: choice(func(r *Request) *plan.Terms { return &r.How.Terms })},
		{Name: "stitch", Group: Making, Crochet: true, Cell: true, Draft: "stitch", Label: "crochet stitch", Hint: "sc, hdc, dc, or its name; empty: as the gauge looks",
			Help: "`stitch` of crochet: sc, hdc or dc, or by its name in the terms given (default: as the gauge looks)", set: (*Request).setStitch},
		{Name: "foundation", Group: Making, Crochet: true, Kind: Choice, Choices: sizing.Words(plan.Foundations), Usual: string(plan.Chain), Cell: true, Label: "crochet begins on", Hint: "for crochet",
			Help: "what crochet begins on: chain, or chainless, where chain and first row are made in one", set: choice(func(r *Request) *plan.Foundation { return &r.How.Foundation })},
		{Name: "rounds", Group: Making, Crochet: true, Kind: Choice, Choices: append([]string{"usual"}, sizing.Words(plan.AllRounds)...), Usual: "usual", Cell: true, Label: "crochet rounds are", Hint: "usual: joined and turned, of hats, mittens and socks joined",
			Help: "how rounds of crochet follow each other: turned (joined, then turned), joined, spiral, or as usual: turned, of hats, mittens and socks joined", set: (*Request).setRounds},
		{Name: "yoke", Group: Making, Kind: Choice, Choices: sizing.Words(plan.Constructions), Usual: string(plan.Circular), Cell: true, Draft: "construction", Label: "body and sleeves meet in", Parts: sleeves, For: "garments with sleeves",
			Help: "how body and sleeves meet: " + strings.Join(sizing.Words(plan.Constructions), ", "), set: choice(func(r *Request) *plan.Construction { return &r.How.Construction })},
		{Name: "multiple", Group: Making, Cell: true, Draft: "multiple", Label: "stitch multiple of the body", Hint: "4n, 6n+2, even, odd; may be empty",
			Help: "stitch `multiple` of the body: 4n, 6n+2, even, odd", set: parsed(stitch.ParseMultiple, func(r *Request, m stitch.Multiple) { r.How.Multiple = m })},
		{Name: "closure", Group: Making, Kind: Choice, Choices: sizing.Words(plan.Closures), Usual: string(plan.Zip), Cell: true, Draft: "zipper", Label: "a front closes with", Parts: opening, For: "garments that open down the front",
			Help: "what closes a front: " + strings.Join(sizing.Words(plan.Closures), ", "), set: choice(func(r *Request) *plan.Closure { return &r.How.Closure })},
		{Name: "hood", Group: Making, Kind: Choice, Choices: sizing.Words(plan.Hoods), Usual: string(plan.ShapedCrown), Cell: true, Label: "the top of a hood", Parts: []string{"hood_round"}, For: "hooded garments",
			Help: "how the top of a hood is made: " + strings.Join(sizing.Words(plan.Hoods), ", "), set: choice(func(r *Request) *plan.Hood { return &r.How.Hood })},
		{Name: "turned", Group: Making, Kind: YesNo, Cell: true, Label: "sleeves, legs and other narrow tubes flat, in turned rows", Parts: []string{"sleeve_length", "inside_leg", "thumb_length", "foot_length"}, For: "garments with sleeves, legs, a thumb or a foot",
			Help: "work sleeves, legs and other narrow tubes flat, in turned rows, with a seam", set: yes(func(r *Request, on bool) { r.How.Turned = on })},
		{Name: "rib-share", Group: Making, Kind: Number, Low: 0.5, High: 1, Cell: true, Label: "share of stitches for ribbing", Hint: "empty: 0.9",
			Help: "`share` of the stitches that ribbing is worked on, 0.5 to 1 (0.9)", set: number(func(r *Request) *float64 { return &r.How.RibShare })},
		{Name: "stretch", Group: Making, Many: true, Cell: true, Draft: "stretch", Label: "how many times edges stretch", Hint: "measured on the swatch: 1.5, or neck=1.4, cuff=1.3; may be empty",
			Help: "how many `times` edges stretch, measured on the swatch: 1.5, or neck=1.4; may be repeated", set: (*Request).setStretch},
		{Name: "port", Group: Making, Beside: true, Kind: List, Many: true, Cell: true, Label: "openings for tubes or ports at", Hint: "chest, tummy, side, back, upper-arm or thigh; may be empty",
			Help: "an opening for a tube or a port at a `place`: chest, tummy, side, back, upper-arm or thigh; may be repeated", set: (*Request).setPorts},
		{Name: "zippers", Group: Making, Kind: List, Cell: true, Label: "stocked zippers, in", Hint: "12, 14, 16; may be empty", Parts: opening, For: "garments that open down the front",
			Help: "stocked zippers, in `inches`, comma-separated", set: (*Request).setZippers},
		{Name: "hold", Group: Making, Kind: List, Many: true, With: "gauge", Cell: true, Draft: "hold", Label: "room to grow is held by", Hint: "fold-cuff, hem, tuck, rise, on-hold, buttons or none; or sleeve=fold-cuff, body=tuck, leg=tuck; empty: as is usual",
			Help: "how room to grow is `held` until it is needed: fold-cuff, hem, tuck, rise, on-hold, buttons (of straps) or none; of one part as sleeve=fold-cuff, body=tuck, skirt=hem, rise=rise, leg=tuck or strap=buttons (default: as is usual for the garment); may be repeated", set: (*Request).setHold},
		{Name: "add", Group: Making, Kind: List, Many: true, Cell: true, Label: "parts to sew on", Hint: "a kind and its size; may be empty",
			Listed: "additions", Help: "a part to sew on, with its size: `ear=6cm`, pad:knee=8x10cm, spike:back=5*4x5cm; may be repeated", set: (*Request).setAdd},
		{Name: "yarn", Group: Making, Beside: true, Cell: true, Label: "a ball of yarn", Hint: "weight and length as on its band, such as 50 g / 125 m or 100g 220yd; may be empty",
			Help: "weight and length of a `ball`, such as \"50 g / 125 m\" or \"100g 220yd\"", set: parsed(plan.ParseBall, func(r *Request, b stitch.Ball) { r.How.Ball = b })},
		{Name: "swatch", Group: Making, Beside: true, Cell: true, Label: "a swatch weighs", Hint: "size and weight or length of yarn, such as 10x10cm 4g; may be empty", With: "yarn",
			Help: "`size and weight` or yarn of a swatch, such as \"10x10cm 4g\" or \"10x10cm 9.5m\"", set: parsed(plan.ParseSwatch, func(r *Request, s stitch.YarnSwatch) { r.How.Swatch = s })},
		{Name: "margin", Group: Making, Beside: true, Kind: Number, Low: 0, High: 1, Cell: true, Label: "share of yarn to spare", Hint: "empty: 0.1, with a hood 0.2", With: "yarn",
			Help: "safety `share` of yarn (0.1, or 0.2 with a hood)", set: number(func(r *Request) *float64 { r.How.Margin = new(float64); return r.How.Margin })},
		{Name: "knits-to", Group: Making, Beside: true, Kind: Number, Low: 1, High: 80, Cell: true, Label: "stitches over 4 in it knits to", Hint: "on the yarn's band; may be empty", With: "yarn",
			Help: "`stitches` over 4 in that the yarn knits to, to check the yarn by", set: number(func(r *Request) *float64 { return &r.How.KnitPer4In })},
		{Name: "stripes", Group: Making, Beside: true, Cell: true, Label: "stripes", Hint: "rows and colours of the repeat, such as 4 red, 2 white; may be empty",
			Help: "`rows and colours` of a repeat of stripes, such as \"4 red, 2 white\"", set: parsed(plan.ParseStripes, func(r *Request, s []plan.Stripe) { r.How.Stripes = s })},
		{Name: "colour", Group: Making, Beside: true, Many: true, Cell: true, Label: "colours of parts", Hint: "a section, main or ribbing, such as main=grey, hem=red; may be empty",
			Help: "colour of a `section`, such as hem=red; main and ribbing name the fabric and all ribbing; may be repeated", set: (*Request).setColours},
		{Name: "pace", Group: Making, Beside: true, Kind: Number, Low: 1, High: 2000, Cell: true, Label: "stitches in 10 minutes", Hint: "counted while working the swatch; may be empty",
			Help: "`stitches` worked in 10 minutes, counted on the swatch: tells the hours", set: number(func(r *Request) *float64 { return &r.How.Pace.Per10Min })},
		{Name: "hours-a-day", Group: Making, Beside: true, Kind: Number, Low: 0.05, High: 24, Cell: true, Label: "hours a day for it", Hint: "may be empty", With: "pace",
			Help: "`hours` a day that there are for the work", set: number(func(r *Request) *float64 { return &r.How.Pace.HoursADay })},
		{Name: "from", Group: Making, Beside: true, Cell: true, Label: "begun on", Hint: "a day, such as 2026-12-01; empty: today", With: "pace",
			Help: "first `day` of the work, such as 2026-12-01 (default: today)", set: parsed(plan.ParseDay, func(r *Request, d time.Time) { r.How.Pace.From = d })},
		{Name: "by", Group: Making, Beside: true, Cell: true, Label: "ready by", Hint: "a day, such as 2026-12-24; may be empty", With: "pace",
			Help: "`day` by which it should be ready, such as 2026-12-24", set: parsed(plan.ParseDay, func(r *Request, d time.Time) { r.How.Pace.By = d })},
	}
}

func progressFields() []Field {
	return []Field{
		{Name: "done", Group: Progress, Kind: List, Many: true, Cell: true, Label: "rows worked so far", Hint: "section and rows, such as yoke=12; earlier sections count as done",
			Help: "rows worked of a section, such as `yoke=12`; earlier sections count as done; may be repeated", set: (*Request).setDone},
		{Name: "longer", Group: Progress, Kind: Pairs, Many: true, Cell: true, With: "done", Label: "tried on: longer than planned", Hint: "such as sleeve=2; shorter with a minus, body=-1.5",
			Help: "after trying on: how much longer than planned a section should be, such as `sleeve=2cm`, or shorter, sleeve=-1cm; may be repeated", set: (*Request).setLonger},
		{Name: "wider", Group: Progress, Kind: Pairs, Many: true, Cell: true, With: "done", Label: "tried on: wider than planned", Hint: "such as body=3, or sleeve=-1",
			Help: "after trying on: how much wider than planned a section should end, such as `body=3cm`; may be repeated", set: (*Request).setWider},
		{Name: "ends", Group: Progress, Kind: Pairs, Many: true, Cell: true, With: "done", Label: "tried on: where it should end", Hint: "such as sleeve=3 above wrist, leg=at floor",
			Help: "after trying on: where a section should end, such as `\"sleeve=3cm above wrist\"`: above, below or at wrist, waist, crotch, knee or floor; may be repeated", set: (*Request).setEnds},
		{Name: "distance", Group: Progress, Kind: Pairs, Many: true, Cell: true, With: "ends", Label: "tried on: from the last row to there", Hint: "such as sleeve=14; empty: by the measurements",
			Help: "measured with the work on: how far it is from the last row to the wrist, waist, crotch, knee or floor that ends names, such as `sleeve=14cm`; may be repeated", set: (*Request).setDistance},
		{Name: "as-worked", Group: Progress, Kind: Pairs, Many: true, Cell: true, With: "done", Label: "one was worked otherwise", Hint: "such as sleeve=46, or sleeve=46 rows to 26 stitches",
			Help: "rows that a sleeve or leg was worked in, where not those of the plan, such as `sleeve=46`, or \"sleeve=46 rows to 26 stitches\": the other is planned like it; may be repeated", set: (*Request).setAsWorked},
		{Name: "used", Group: Progress, Kind: Number, Low: 0, High: maxGrams, Cell: true, With: "done", Label: "grams of yarn used so far", Hint: "may be empty",
			Help: "`grams` of yarn used so far", set: number(func(r *Request) *float64 { return &r.UsedGrams })},
		{Name: "have", Group: Progress, Kind: Number, Low: 0, High: maxGrams, Cell: true, With: "done", Label: "grams of yarn at hand", Hint: "may be empty",
			Help: "`grams` of yarn at hand", set: number(func(r *Request) *float64 { return &r.HaveGrams })},
		{Name: "weighed", Group: Progress, Kind: Pairs, Many: true, Cell: true, Label: "all the yarn left, g", Hint: "weighed after a section, such as start=300, yoke=240; may be empty",
			Help: "grams of all the yarn that is left, weighed after a `section`, such as yoke=240; start=300 before the first; may be repeated", set: (*Request).setWeighed},
	}
}

func shownFields() []Field {
	return []Field{
		{Name: "only", Group: Shown, Kind: List, Known: MeasurementsOf,
			Help: "show only these `measurements`, comma-separated: chest,hip", set: measurements(func(r *Request) *[]string { return &r.Only })},
		{Name: "all", Group: Shown, Kind: YesNo, Label: "show also what garments seldom need",
			Help: "show in tables also what garments seldom need", set: yes(func(r *Request, on bool) { r.All = on })},
		{Name: "why", Group: Shown, Kind: YesNo,
			Help: "under each number print the reasons and sources", set: yes(func(r *Request, on bool) { r.Why = on })},
	}
}

// maxGrams bounds the yarn of one garment: a slip of the pen beyond.
const maxGrams = 100000

// ChartIDs are the ids of the charts.
func ChartIDs(ref *sizing.Reference) (ids []string) {
	for _, c := range ref.Charts() {
		ids = append(ids, c.ID)
	}
	return ids
}

// GarmentIDs are the ids of the garments.
func GarmentIDs(ref *sizing.Reference) (ids []string) {
	for _, g := range ref.Garments() {
		ids = append(ids, g.ID)
	}
	return ids
}

// MeasurementsOf are the ids of the measurements.
func MeasurementsOf(ref *sizing.Reference) (ids []string) {
	for _, m := range ref.Measurements() {
		ids = append(ids, m.ID)
	}
	return ids
}
