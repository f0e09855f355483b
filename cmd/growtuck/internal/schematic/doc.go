// Package schematic draws garments to scale from their finished measurements,
// for those who would rather look than read.
//
// A drawing shows the garment lying flat, a girth as half of it, with a line
// and a label for each measurement. It shows proportions, not the cut: edges
// are straight where a curve is not known.
package schematic
