package list

import (
	"encoding/json"
	"fmt"
	"io"
	"math"

	"growtuck/sizing"
)

// A Named is a child of a list, and what the list calls it.
type Named struct {
	Name  string // its name, or else its id, or else its line
	Line  int
	Child sizing.Child
}

// Children reads a list child by child, for what looks at each one by itself: at most
// so many. Lines that cannot be read are rejected.
func (l *List) Children(ref *sizing.Reference, most int) (all []Named, rejected []*LineError, err error) {
	r := newChildReader(ref, l)
	for {
		whole, err := l.lines.next()
		if err == io.EOF {
			return all, rejected, nil
		}
		if err != nil {
			return nil, nil, fmt.Errorf("%s: %w", l.name, err)
		}
		line := trimEnd(whole)
		if isBlank(line) {
			continue
		}
		if len(all)+len(rejected) == most {
			return nil, nil, fmt.Errorf("%s: has more than %d children, who are not read one by one", l.name, most)
		}
		if wrong := r.readLine(line); wrong != nil {
			wrong.List, wrong.Line = l.name, l.lines.line
			rejected = append(rejected, wrong)
			continue
		}
		c := sizing.Child{Sex: r.sex, AgeYears: r.age, Own: make(map[string]float64)}
		for i, id := range l.measured {
			if v := r.measured[i]; !math.IsNaN(v) {
				c.Own[id] = v
			}
		}
		c.Name = r.name()
		n := Named{c.Name, l.lines.line, c}
		if n.Name == "" {
			n.Name = fmt.Sprintf("line %d", n.Line)
		}
		all = append(all, n)
	}
}

// name is what the list calls the child that was read last; "" for nothing.
func (r *childReader) name() string {
	for _, called := range []string{"name", "id"} {
		if r.list.json {
			var text any
			if json.Unmarshal(r.fields[called], &text) == nil && text != nil && text != "" {
				return fmt.Sprint(text)
			}
			continue
		}
		for i, c := range r.list.columns {
			if c.role == copiedColumn && c.name == called && len(r.cells[i].text) > 0 {
				return string(r.cells[i].text)
			}
		}
	}
	return ""
}

// Reject says why a child of the list cannot be used, without its measurements.
func (l *List) Reject(n Named, err error) *LineError {
	wrong := sizeError(err)
	wrong.List, wrong.Line = l.name, n.Line
	return wrong
}
