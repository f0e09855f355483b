// Package schematic draws garments to scale from their finished measurements,
// as SVG for print and for pages, and as PNG for workbooks.
//
// A drawing shows the garment lying flat, seen from the front, a girth as half
// of it, with a line and a label for each measurement. One scale holds both
// ways and for every line that has a label, but for two: the neck edge lies in
// a ring and is drawn as wide as that opens, and a front opening ends where the
// garment ends. What is not measured is drawn in proportion: the slope of the
// shoulder, the depth of the neck, the set of the sleeve, the place of hip,
// thigh and calf, the flare of a skirt, the depth of ribbing and every curve
// between two measurements. It is a drawing to measure by, not a pattern to cut.
package schematic
