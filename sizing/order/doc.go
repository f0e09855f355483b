// Package order plans which sizes to make or buy for a list of children, and
// how many of each.
//
// A [List] holds what each child measures, an offer what each size is made
// for. [Misfit] says what a centimetre of difference costs: too small costs
// more than too big, for what is too big can be taken in and what is too small
// is useless. [Assign] gives every child the size that fits it best and says
// what misfit that leaves. [Best] chooses the sizes of an offer that leave the
// least misfit, and [Cut] cuts the list at the best places along one
// measurement, with no offer at all.
//
// All figures are centimetres of the body; the same ease is added to both
// sides. The package does no input or output.
package order
