// Package tell turns facts into words. It is the only place where this program
// makes sentences: it has the words for each fact, for a unit, a craft and the
// place where they are read.
//
// A [Style] says for whom; [Style.Fact] tells one fact. Reports gather facts into
// a [Document], which is written as text, Markdown, CSV or JSON; the page lays out
// its tables. Nothing here works anything out.
package tell
