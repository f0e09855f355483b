// Package tell turns facts into words: it has the words for each fact, for a unit, a
// craft and the place where they are read. What is found, read, planned and noted is
// worded here alone. Errors, and faults in what was given, word themselves where they
// are made, in plain English; some of them are facts too and are told here for the
// page.
//
// A [Style] says for whom; [Style.Fact] tells one fact. Reports gather facts into
// a [Document], which is written as text, Markdown, CSV or JSON; the page lays out
// its tables. Nothing here works anything out.
package tell
