package ask

import "slices"

// The fields of what can be asked, each as the command of that name takes them.

// SizeFields are the fields of sizes of a chart.
func SizeFields() []Field { return Named("chart", "linear", "only", "all", "sex", "why") }

// ProfileFields are the fields of a profile: the sizes of a child's measurements.
func ProfileFields() []Field { return slices.Concat(Of(Child), Named("chart")) }

// BlendFields are the fields of a child's measurements.
func BlendFields() []Field {
	return slices.Concat(Of(Child), Named("chart", "linear", "widths", "lengths"), Of(Shown))
}

// GarmentFields are the fields of finished measurements.
func GarmentFields() []Field {
	return slices.Concat(Of(Child), Named("chart", "linear", "widths", "lengths", "size"), Of(Garment), Named("why"))
}

// GrowFields are the fields of how a child grows.
func GrowFields() []Field {
	return slices.Concat(Of(Child), Named("chart", "linear", "widths", "lengths", "size", "wear", "until", "grow", "only", "all"))
}

// WearsFields are the fields of when a garment fits.
func WearsFields() []Field { return Of(Child, Sizes, Garment) }

// DrawFields are the fields of a drawing: how it is made as far as that is seen.
func DrawFields() []Field {
	return append(Of(Child, Sizes, Garment), Named("yoke", "closure", "hood", "craft", "gauge", "hold")...)
}

// PlanFields are the fields of a plan, and of its workbook.
func PlanFields() []Field { return Of(Child, Sizes, Garment, Swatch, Making, Progress) }

// WholeFields are the fields of a plan of work that is not begun.
func WholeFields() []Field { return Of(Child, Sizes, Garment, Swatch, Making) }

// The fields of questions that are asked by an address. What is an argument of a
// command is a parameter there; fields that only change the wording are left out.

// SizeQuery are the fields of sizes of a chart, the sizes among them.
func SizeQuery() []Field {
	size := Field{Name: "size", Group: Sizes, Many: true, Required: true,
		Help: "a size of the chart (4, 18m), a number between (5.5), an age (3y6m) or a height (104cm); may be repeated",
		set:  func(r *Request, texts []string) error { r.Run = texts; return nil }}
	return append([]Field{size}, Named("chart", "linear", "only", "sex")...)
}

// BlendQuery are the fields of a child's measurements.
func BlendQuery() []Field { return without(BlendFields(), "all", "why") }

// GarmentQuery are the fields of finished measurements.
func GarmentQuery() []Field { return without(GarmentFields(), "why") }

// BodyQuery are the fields of body measurements, of a child or of several sizes.
func BodyQuery() []Field { return append(BlendQuery(), Named("sizes")...) }

// FinishedQuery are the fields of finished measurements, for a child or at several sizes.
func FinishedQuery() []Field { return append(GarmentQuery(), Named("sizes")...) }

// DraftFields are the fields of a draft, which is for one child or size.
func DraftFields() []Field { return without(WholeFields(), "sizes") }

// DrawQuery are the fields of a drawing, the unit of its labels among them.
func DrawQuery() []Field { return Exported(DrawFields()) }

// Exported are the fields of what is shown in one unit, the unit among them.
func Exported(fields []Field) []Field {
	return append(fields, Field{Name: "unit", Group: Shown, Kind: Choice, Choices: []string{"cm", "in", "both"}, Usual: "cm",
		Help: "`unit` of lengths that are shown: cm, in or both", set: text(func(r *Request) *string { return &r.Unit })})
}

func without(fields []Field, names ...string) []Field {
	return slices.DeleteFunc(slices.Clone(fields), func(f Field) bool { return slices.Contains(names, f.Name) })
}

// GrowQuery are the fields of how a child grows.
func GrowQuery() []Field { return without(GrowFields(), "all") }
