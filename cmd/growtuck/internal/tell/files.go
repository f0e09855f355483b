package tell

import (
	"fmt"
)

type fileRecord struct {
	File  string `json:"file"`
	Bytes int    `json:"bytes"`
}

type filesDocument struct {
	Files   []fileRecord `json:"files"`
	Credits []string     `json:"credits"`
}

// A File is a file that was written, with its size.
type File struct {
	Path  string
	Bytes int
}

// Files reports files that were written.
func Files(files []File, heading, credits []string) Document {
	t := Table{Columns: []Column{{Head: "file"}, {Head: "bytes", Right: true}}}
	records := []fileRecord{}
	for _, f := range files {
		records = append(records, fileRecord{f.Path, f.Bytes})
		t.Rows = append(t.Rows, newRow(f.Path, fmt.Sprint(f.Bytes)))
	}
	credits = append([]string{}, credits...)
	return Document{Heading: heading, Tables: []Table{t}, Credits: credits, Rows: records, JSON: filesDocument{records, credits}}
}
