// Package schematic draws garments to scale from their finished measurements,
// and children with the places of the tape, as SVG for print and for pages and
// as PNG for workbooks.
//
// A garment lies flat, seen from the front, with a line and a letter for each
// measurement; a hood is folded in half and seen from its side. What goes all
// round is drawn as half of it, on a line with rounded ends. Under the garment
// is the child's body, its girths halved too, so that ease and length are seen.
//
// One scale holds both ways. The outline has the lengths that were measured:
// the side seam is what the back has below the armhole, the sleeve is as long
// as measured, the neck edge goes round as far as the neck does, the leg at the
// crotch is wider than half the hips by its bridge. What is not measured is in
// proportion: the slope of the shoulder, the set of sleeves and legs, and every
// curve between two measurements. It is a drawing to measure by, not a pattern
// to cut.
package schematic
