package main

import (
	"bytes"
	"fmt"
	"path/filepath"
	"strings"

	"growtuck/cmd/growtuck/internal/save"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/workbook"
)

// exportList writes the finished measurements of a garment for several
// children, a row for each.
func (a *app) exportList(file, garment string, children []string, f exportFlags) error {
	if !strings.EqualFold(filepath.Ext(file), ".xlsx") {
		return usagef("%s: want a file that ends in .xlsx", file)
	}
	ref, err := a.reference()
	if err != nil {
		return err
	}
	making, err := f.plan.making(ref, garment)
	if err != nil {
		return err
	}
	parts, err := ref.Parts(garment)
	if err != nil {
		return err
	}
	var ids, titles []string
	for _, p := range parts {
		ids, titles = append(ids, p.Part), append(titles, p.Name)
	}
	list, err := workbook.NewList(garment+", "+making.Describe(), program, a.style().Units()[0], ids, titles)
	if err != nil {
		return err
	}
	defer list.Discard()
	var used []string
	for _, path := range children {
		child, body, err := a.readBody(ref, path, f.plan.body)
		if err != nil {
			return err
		}
		finished, err := ref.Finish(body, making)
		if err != nil {
			return fmt.Errorf("%s: %w", path, err)
		}
		name := child.Name
		if name == "" {
			name = filepath.Base(path)
		}
		for _, l := range finished.Lines {
			used = append(used, l.Sources()...)
		}
		if err := list.Add(name, finished); err != nil {
			return err
		}
	}
	var out bytes.Buffer
	if err := list.Write(&out); err != nil {
		return err
	}
	return a.writeFiles([]save.File{{Path: file, Content: out.Bytes()}}, f.force, tell.CreditLines(ref, tell.InOrder(used)))
}
