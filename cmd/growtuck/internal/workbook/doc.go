// Package workbook writes plans, children and drafts as spreadsheets that a
// designer can change and print, and reads back what was filled in.
//
// [New] lays a plan out as sheets of cells: values, and formulas with the
// engine's own number beside them. [Book.WriteXLSX] writes the sheets as a
// workbook, [Book.Markdown] and [Book.CSV] the same tables as text.
// [Open] reads a workbook that was filled in, by the headers of its tables and
// not by the names of its sheets.
//
// The functions that formulas use are those that every spreadsheet program has:
// INDEX, MATCH, ROUND, MROUND, IF and IFERROR.
package workbook
