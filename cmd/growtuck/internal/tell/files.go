package tell

import (
	"fmt"

	"growtuck/cmd/growtuck/internal/save"
)

type fileRecord struct {
	File  string `json:"file"`
	Bytes int    `json:"bytes"`
}

type filesDocument struct {
	Files   []fileRecord `json:"files"`
	Credits []string     `json:"credits"`
}

// Files reports files that were written.
func Files(files []save.File, heading, credits []string) Document {
	t := Table{Columns: []Column{{Head: "file"}, {Head: "bytes", Right: true}}}
	records := []fileRecord{}
	for _, f := range files {
		records = append(records, fileRecord{f.Path, len(f.Content)})
		t.Rows = append(t.Rows, NewRow(f.Path, fmt.Sprint(len(f.Content))))
	}
	credits = append([]string{}, credits...)
	return Document{Heading: heading, Tables: []Table{t}, Credits: credits, Rows: records, JSON: filesDocument{records, credits}}
}
