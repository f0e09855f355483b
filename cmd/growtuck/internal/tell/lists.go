package tell

import (
	"encoding/json"

	"growtuck/cmd/growtuck/internal/list"
)

// A RejectedRecord is a line of a list that was left out, as JSON. It holds nothing that
// was measured.
type RejectedRecord struct {
	Line   int    `json:"line" doc:"number of the line"`
	Column int    `json:"column" doc:"where in it, in bytes from 1; 0 for all of the line"`
	Reason string `json:"reason" doc:"what is wrong, and what would be right"`
}

// A Left is what was left out of a list, and what there is to say about its columns.
type Left struct {
	Rejected []RejectedRecord `json:"rejected" doc:"the lines that were left out, the first thousand of them"`
	Notes    []string         `json:"notes" doc:"columns that are nearly those of measurements, and are not used"`
}

// mostRejected is how many rejected lines are named.
const mostRejected = 1000

// Reject adds lines that were rejected.
func (l *Left) Reject(lines []*list.LineError) {
	for _, e := range lines {
		if len(l.Rejected) < mostRejected {
			l.Rejected = append(l.Rejected, RejectedRecord{e.Line, e.Column, Printable(e.Reason)})
		}
	}
}

// A BatchDocument is a list of children as they were sized, as JSON.
type BatchDocument struct {
	Children []json.RawMessage `json:"children" doc:"an object for each child, as growtuck batch writes it: what was copied, the sizes, and the measurements or finished measurements"`
	LeftOut  int               `json:"left_out" doc:"how many lines were rejected"`
	Left
	Sources []string `json:"sources" doc:"ids of the sources that it rests on"`
	Credits []string `json:"credits" doc:"credit lines that the sources used ask for"`
}

// An OrderAnswer is an order with the lines that were left out of it and, where it was
// asked for, a line for each child, as JSON.
type OrderAnswer struct {
	OrderDocument
	Left
	Each []json.RawMessage `json:"each" doc:"where each was asked for an object for each child, as growtuck order --each writes it"`
}
