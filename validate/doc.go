// Package validate checks drafts of garments before the first stitch, and
// chart rows before they are merged. A check is a set of rules, each with a
// stable code; what a rule finds is a [Finding].
//
// A finding is facts: the id of a statement and the figures it is about, as
// [sizing.Fact] has them. They have no sentences: what a reader is told, in which
// unit and words, is for the program that shows them, by the ids. Rule codes,
// places and ids are stable. [CheckDraft] checks a draft, [CheckRows] rows proposed
// for a chart, [CheckTables] all tables.
package validate
