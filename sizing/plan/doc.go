// Package plan turns the finished measurements of a garment and a gauge into
// work: sections in the order they are worked, with stitches, rows and steps.
// A [Step] is a kind with its numbers; words for it are chosen where it is shown,
// for a craft and a unit.
//
// [Make] plans one garment, [Grade] the same garment over a run of sizes, side by
// side. [Plan.Remaining] says what is left
// of work that is begun, [Plan.Draft] gives the plan as the table of a draft,
// so that it can be checked by the rules for drafts.
//
// Every count carries the size it gives and its error against the finished
// measurement. A girth is never planned under the body with its least ease.
// Where targets cannot all be met, the plan is the one of least error, and its
// notes say what it misses.
//
// Figures of the trade are those of the table of practice; a plan lists the ones
// it rests on.
//
// Garments are worked from the top down: yoke or shoulders, body, legs,
// sleeves. Lengths are in centimetres, counts are stitches and rows (or
// rounds). The package does no input or output.
package plan
