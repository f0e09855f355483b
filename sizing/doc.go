// Package sizing reads children's body measurements between the sizes of a
// chart, blends a child's own measurements into them, and works out the
// finished measurements of garments.
//
// A child of four is tall and slim: the chest of a size 2, the arms of a size
// 5. A [Chart] has no such row. [Reference.Profile] finds the size of each of
// the child's measurements; [Reference.Blend] takes widths from one size
// and lengths from another; [Reference.Estimate] fills in what was never
// measured from what was, by the relations between the measurements of
// surveyed children, and says how sure it is. [Reference.Finish] adds ease and
// the lengths that a garment needs. Every number can be traced: a [Reading]
// says how it was got and from which sources. For a class list or a uniform
// order, [Reference.Sizer] gives the same numbers of many children alone.
//
// The way to a figure is [Default], or [New] for tables of one's own, then
// [Reference.Chart], [Chart.Place] and [Reference.Read]. Without the errors:
//
//	ref, _ := sizing.Default()
//	chart, _ := ref.Chart(sizing.DefaultChart)
//	place, _ := chart.Place("3", sizing.Both)
//	chest, _ := ref.Read(place, "chest", sizing.Monotone)
//	fmt.Println(chest.Value, "cm")
//
// [Reference.BodyAt] reads all measurements at a place, and [Reference.Body] those
// of a child by the names of sizes; what either returns is what Finish takes.
//
// Lengths are in centimetres, weights in kilograms. The package does no input
// or output and has no state but the embedded tables, read once; everything in
// it but a [Sizer] may be used by several goroutines at once.
//
// It is not a growth chart for medical use, and says nothing about a child's
// health.
package sizing
