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
	case ".xlsx", ".md", ".png":
		return true
	}
	return strings.HasSuffix(file, "/")
}

// ExportPlan makes the files of a plan: a workbook, its tables as Markdown or, in a
// folder, as CSV, or the picture alone, by the file's name.
func ExportPlan(ref *sizing.Reference, r *ask.Request, st tell.Style, edition, file string) (*Export, error) {
	c, err := newContent(ref, r, st, edition)
	if err != nil {
		return nil, err
	}
	e := &Export{Notes: tell.Style{}.CheckFirst(c.Finished.Body.Questions), Credits: c.Credits}
	one := func(content []byte, err error) (*Export, error) {
		e.Files = []save.File{{Path: file, Content: content}}
		return e, err
	}
	folder := strings.HasSuffix(file, "/")
	if strings.EqualFold(filepath.Ext(file), ".png") && !folder {
		return one(PNG(schematic.Finished(c.Finished, c.Unit)))
	}
	book, err := workbook.New(*c)
	switch {
	case err != nil:
		return nil, err
	case folder:
		parts, err := book.CSV()
		for _, p := range parts {
			e.Files = append(e.Files, save.File{Path: filepath.Join(file, p.Name+".csv"), Content: p.CSV})
		}
		e.Folder = file
		return e, err
	case strings.EqualFold(filepath.Ext(file), ".md"):
		return one(book.Markdown(), nil)
	}
	return one(XLSX(book))
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
		return workbook.BlankChild(ref, Program)
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
