package work

import (
	"bytes"
	"fmt"
	"path/filepath"
	"strings"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/save"
	"growtuck/cmd/growtuck/internal/schematic"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/workbook"
	"growtuck/sizing"
)

// An Export is the files that a plan is written to.
type Export struct {
	Folder  string // that they go into; "" for none
	Files   []save.File
	Notes   []string
	Credits []string
}

// CanExport reports whether a file has a name that a plan can be exported to.
func CanExport(file string) bool {
	switch strings.ToLower(filepath.Ext(file)) {
	case ".xlsx", ".md", ".html", ".png":
		return true
	}
	return strings.HasSuffix(file, "/")
}

// ExportPlan makes the files of a plan: a workbook, its sheets as CSV in a folder, the
// pattern as Markdown or HTML, or the picture alone, by the file's name.
func ExportPlan(ref *sizing.Reference, r *ask.Request, st tell.Style, edition, file string) (*Export, error) {
	if format := patternFormat(file); format != "" {
		return exportPattern(ref, r, st, file, format)
	}
	if runAlone(r) {
		return exportRun(ref, r, st, edition, file)
	}
	c, err := newContent(ref, r, st, edition)
	if err != nil {
		return nil, err
	}
	e := &Export{Notes: tell.Style{}.CheckFirst(c.Finished.Body.Questions), Credits: c.Credits}
	if isPicture(file) {
		return e, e.add(file, func() ([]byte, error) {
			return c.Drawn.PNG(pictureMost, schematic.SVGOptions{Title: c.Title, Unit: c.Unit, Key: true, Credits: c.Credits})
		})
	}
	book, err := workbook.New(*c)
	if err != nil {
		return nil, err
	}
	return e, e.book(file, book)
}

func isPicture(file string) bool { return strings.EqualFold(filepath.Ext(file), ".png") }

// add adds a file.
func (e *Export) add(file string, make func() ([]byte, error)) error {
	content, err := make()
	e.Files = append(e.Files, save.File{Path: file, Content: content})
	return err
}

// book adds a workbook, or its sheets as CSV where the file is a folder.
func (e *Export) book(file string, book *workbook.Book) error {
	if !strings.HasSuffix(file, "/") {
		return e.add(file, func() ([]byte, error) { return XLSX(book) })
	}
	parts, err := book.CSV()
	for _, p := range parts {
		e.Files = append(e.Files, save.File{Path: filepath.Join(file, p.Name+".csv"), Content: p.CSV})
	}
	e.Folder = file
	return err
}

// runAlone reports a run of sizes that is asked for without a child.
func runAlone(r *ask.Request) bool { return len(r.Run) > 0 && !r.FromFile && r.CheckRun() == nil }

// patternFormat is the format of a pattern that a file's name asks for; "" for none.
func patternFormat(file string) string {
	return map[string]string{".md": "markdown", ".html": "html"}[strings.ToLower(filepath.Ext(file))]
}

// Pattern is the pattern of a child, or of a run of sizes where they are asked for in
// place of one.
func Pattern(ref *sizing.Reference, r *ask.Request, st tell.Style) (tell.Document, error) {
	st.Over4In = r.Over4In()
	if runAlone(r) {
		return graded(ref, r, st)
	}
	p, err := MakePlan(ref, r)
	if err != nil {
		return tell.Document{}, err
	}
	return PatternOf(ref, r, st, p), nil
}

// exportPattern makes the pattern of a child, or of a run of sizes where they are asked
// for in place of one; a text has its drawing in a file beside it.
func exportPattern(ref *sizing.Reference, r *ask.Request, st tell.Style, file, format string) (*Export, error) {
	d, err := Pattern(ref, r, st)
	if err != nil {
		return nil, err
	}
	e := &Export{Notes: d.Asides, Credits: d.Credits}
	if format == "markdown" && d.Drawing != nil {
		beside := strings.TrimSuffix(file, filepath.Ext(file)) + ".svg"
		d.Drawing.File = filepath.Base(beside)
		e.Files = append(e.Files, save.File{Path: beside, Content: []byte(d.Drawing.Draw(false))})
	}
	var out bytes.Buffer
	err = d.Write(&out, format, 0)
	e.Files = append([]save.File{{Path: file, Content: out.Bytes()}}, e.Files...)
	return e, err
}

// exportRun makes a workbook of the pattern of a run of sizes, its sheets as CSV in a
// folder, or the picture.
func exportRun(ref *sizing.Reference, r *ask.Request, st tell.Style, edition, file string) (*Export, error) {
	if isPicture(file) {
		d, err := Draw(ref, r, st)
		if err != nil {
			return nil, err
		}
		e := &Export{Notes: d.Notes, Credits: d.Options.Credits}
		return e, e.add(file, d.PNG)
	}
	st.Over4In = r.Over4In()
	g, err := gradePlans(ref, r)
	if err != nil {
		return nil, err
	}
	d := st.Graded(ref, g)
	e := &Export{Credits: d.Credits}
	return e, e.book(file, workbook.NewRun(d, Lettered(g.Plans[len(g.Plans)/2], st.Units()[0], false), Program, edition))
}

// XLSX is a workbook as a file.
func XLSX(book *workbook.Book) ([]byte, error) {
	var out bytes.Buffer
	err := book.WriteXLSX(&out)
	return out.Bytes(), err
}

// BlankBook is an empty form, by the name of the file: child.xlsx or draft.xlsx; nil
// for another name.
func BlankBook(ref *sizing.Reference, file string) *workbook.Book {
	switch strings.ToLower(filepath.Base(file)) {
	case "child.xlsx":
		return workbook.BlankChild(ref, Program, measuringPictures(ref)...)
	case "draft.xlsx":
		return workbook.BlankDraft(ref, Program)
	}
	return nil
}

// A Listed is a child of a list, and the file that it is from.
type Listed struct {
	File string
	*ask.Request
}

// ExportList makes a workbook with a row of finished measurements for each child.
func ExportList(ref *sizing.Reference, children []Listed, st tell.Style, file string) (*Export, error) {
	spec := children[0].Spec
	parts, err := ref.Parts(spec.Garment)
	if err != nil {
		return nil, err
	}
	var ids, titles []string
	for _, p := range parts {
		ids, titles = append(ids, p.Part), append(titles, p.Name)
	}
	list, err := workbook.NewList(spec.Garment+", "+st.Spec(spec), Program, st.Units()[0], ids, titles)
	if err != nil {
		return nil, err
	}
	defer list.Discard()
	var used []string
	for _, c := range children {
		finished, err := Finish(ref, c.Request)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", c.File, err)
		}
		for _, l := range finished.Lines {
			used = append(used, l.Sources()...)
		}
		name := c.Child.Name
		if name == "" {
			name = filepath.Base(c.File)
		}
		if err := list.Add(name, finished); err != nil {
			return nil, err
		}
	}
	var out bytes.Buffer
	if err := list.Write(&out); err != nil {
		return nil, err
	}
	return &Export{Files: []save.File{{Path: file, Content: out.Bytes()}}, Credits: tell.CreditLines(ref, used)}, nil
}
