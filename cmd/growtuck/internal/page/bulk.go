package page

import (
	"bytes"
	"encoding/json"
	"fmt"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/list"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/sizing"
)

// mostChildren bounds the lines of a list that is posted.
const mostChildren = 10_000

// posted is what a list that is posted is called in messages.
const posted = "the list"

// openPosted opens a list that was posted.
func (s *site) openPosted(r *ask.Request, body []byte, computed []string) (*list.List, error) {
	if n := bytes.Count(bytes.TrimSpace(body), []byte("\n")); n > mostChildren {
		return nil, &unusable{err: fmt.Errorf("%s has %d lines; want at most %d children: post it in parts, or use growtuck batch", posted, n, mostChildren)}
	}
	in, err := work.OpenList(s.engine.Reference, r, posted, bytes.NewReader(body), list.JSON, computed)
	if err != nil && r.CheckList() == nil {
		err = &unusable{err: err}
	}
	return in, err
}

// leaving keeps what a list says of what it leaves out.
func leaving(left *tell.Left) list.Listener {
	left.Rejected, left.Notes = []tell.RejectedRecord{}, []string{}
	return list.Listener{
		Doubt:    func(f sizing.Fact) { left.Notes = append(left.Notes, tell.Style{}.Fact(f)) },
		Rejected: left.Reject,
		Read:     func(int, int64) {},
	}
}

// objects are lines of JSON.
func objects(lines []byte) []json.RawMessage {
	all := []json.RawMessage{}
	for line := range bytes.Lines(lines) {
		all = append(all, line)
	}
	return all
}

// batch sizes each child of a list.
func batch(s *site, r *ask.Request, body []byte) ([]byte, error) {
	ref := s.engine.Reference
	b, err := work.NewBatch(ref, r, []string{"cm"}, list.BatchOptions{Format: list.JSON})
	if err != nil {
		return nil, err
	}
	in, err := s.openPosted(r, body, b.Columns())
	if err != nil {
		return nil, err
	}
	var d tell.BatchDocument
	var lines bytes.Buffer
	result, err := b.Run(r.Context, in, &lines, leaving(&d.Left))
	if err != nil {
		return nil, &unusable{err: err}
	}
	d.Children, d.LeftOut, d.Sources, d.Credits = objects(lines.Bytes()), result.Rejected, tell.InOrder(result.Sources), tell.CreditLines(ref, result.Sources)
	return document(d)
}

// order says how many of each size to make for a list.
func order(s *site, r *ask.Request, body []byte) ([]byte, error) {
	ref := s.engine.Reference
	o, err := work.NewOrder(ref, r, list.JSON)
	if err != nil {
		return nil, err
	}
	var computed []string
	if r.List.Each {
		computed = o.Columns()
	}
	in, err := s.openPosted(r, body, computed)
	if err != nil {
		return nil, err
	}
	d := tell.OrderAnswer{Each: []json.RawMessage{}}
	result, err := o.Run(r.Context, in, leaving(&d.Left))
	if err != nil {
		return nil, &unusable{err: err}
	}
	if r.List.Each {
		var lines bytes.Buffer
		if err := result.WriteEach(&lines); err != nil {
			return nil, err
		}
		d.Each = objects(lines.Bytes())
	}
	d.OrderDocument = tell.Style{}.Order(ref, result).JSON.(tell.OrderDocument)
	return document(d)
}

// document is a value as a JSON document.
func document(v any) ([]byte, error) {
	var out bytes.Buffer
	err := tell.Document{JSON: v}.Write(&out, "json", 0)
	return out.Bytes(), err
}
