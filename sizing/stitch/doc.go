// Package stitch is the arithmetic of crochet and knitting: it turns finished
// measurements and a gauge into whole stitches and rows, and back.
//
// A swatch of 22 stitches and 30 rows over 10 cm says that a girth of 48 cm
// takes 105.6 stitches. No one can work six tenths of a stitch, so the count
// becomes 106 (or 104 when the pattern repeats over 4), and the finished girth
// 48.2 cm (or 47.3). Every plan of this package carries both: the count to
// work and the size it gives, with its error against the size that was asked
// for.
//
// The package is pure: no files, no clock, no state. It knows nothing of
// children, charts or ease; those sizes arrive as finished measurements.
//
// # Units
//
// Lengths are float64 centimetres with the unit in the name (WidthCm); an inch
// is exactly 2.54 cm. Areas are square centimetres, yarn is metres and grams.
// Counts of stitches and rows are int. Shares are fractions: 0.1 is 10 %.
// "Row" means a row or a round; where it matters a field says which.
//
// # Terms
//
// Craft terms are those both crafts use: a stitch, a row, an increase (two
// worked in one stitch), a decrease (two worked together). Rows are numbers, not
// words. Figures of the trade, such as the share of ribbing, are given to each
// plan.
//
// # Errors
//
// Every function refuses NaN, infinities and absurd values with an
// [*InputError] that names the value and what would be right. A plan that the
// numbers do not allow (more shapings than rows) is an error too, never a
// plan that nearly fits.
package stitch
