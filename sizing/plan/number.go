package plan

import (
	"fmt"
	"strings"
)

// number gives every step the rows of its section that it works, so that each row
// is in one step: a named row is where its step says, other rows follow the step
// before, and what makes the first stitches of a section is its first row. Rows
// between named ones become steps of their own.
func (p *Plan) number() error {
	wrong := false // the next row of turned work is a wrong-side row
	for i, s := range p.Sections {
		if i == 0 || s.InRounds || p.Sections[i-1].InRounds || s.begins() {
			wrong = s.beforeYoke() && i+1 < len(p.Sections) && !p.Sections[i+1].InRounds
		}
		s.WrongSide = wrong
		if err := s.number(0); err != nil {
			return err
		}
		wrong = wrong != (s.Rows()%2 == 1)
	}
	return nil
}

// beforeYoke reports the back of a neck, whose odd rows begin on the wrong side so
// that the yoke begins on the right.
func (s *Section) beforeYoke() bool { return s.ID == "back-neck" && s.Rows()%2 == 1 }

// wrongNext reports that the next row of the section that is begun last, worked in
// turned rows, is a wrong-side row.
func (m *maker) wrongNext() bool {
	wrong := false
	for i, s := range m.p.Sections {
		if i == 0 || s.InRounds || m.p.Sections[i-1].InRounds || s.begins() {
			wrong = false
		}
		wrong = wrong != (s.Rows()%2 == 1)
	}
	return wrong
}

// begins reports a section that does not go on from the rows before it.
func (s *Section) begins() bool {
	return len(s.Steps) > 0 && (s.Steps[0].firstRow() || strings.HasPrefix(s.Steps[0].Kind, "cast-on") || s.Steps[0].Kind == "heel")
}

// firstRows are the kinds of steps that make the first stitches of a section.
var firstRows = []string{"pick-up-", "hood-pick-up", "sleeve-from-yoke", "start-ring", "start-oval", "divide", "leg-round"}

// firstRow reports a step that is the first row of its section.
func (x Step) firstRow() bool {
	for _, kind := range firstRows {
		if strings.HasPrefix(x.Kind, kind) && x.Kind != "divide-legs" {
			return true
		}
	}
	return false
}

// shapesFirst reports a step that shapes the first row of its section.
func (x Step) shapesFirst() bool {
	row, named := x.Values["row"].(int)
	return named && row == 1 || x.Shaping != nil && x.Shaping.FirstRow == 1
}

// number numbers the rows of the steps, which go on from row done.
func (s *Section) number(done int) error {
	n := numbering{s: s, at: done}
	for i := range s.Steps {
		step := s.Steps[i]
		var next *Step
		if i+1 < len(s.Steps) {
			next = &s.Steps[i+1]
		}
		n.add(step, next)
	}
	n.plain(s.Rows())
	s.Steps = n.steps
	if n.at != s.Rows() {
		return fmt.Errorf("%s: its steps work %d rows of %d", s.ID, n.at, s.Rows())
	}
	return nil
}

// A numbering numbers the steps of a section.
type numbering struct {
	s     *Section
	at    int // rows that the steps so far work
	owed  int // of them those that the next step counts as its own
	steps []Step
}

// add adds a step, which next follows.
func (n *numbering) add(step Step, next *Step) {
	step.Row, step.Rows, step.WrongSide = 0, 0, false // those of the plan, where it is numbered anew
	rows, counted := step.worked()
	row, named := step.Values["row"].(int)
	last := strings.HasSuffix(step.Kind, "-last")
	switch {
	case step.firstRow():
		if len(n.steps) > 0 && n.at > 0 || next != nil && next.shapesFirst() {
			break // the stitches are made before the first row
		}
		if counted && rows > 1 {
			n.works(&step, rows)
		} else {
			n.works(&step, 1)
			n.owed = 1
		}
	case strings.HasSuffix(step.Kind, "-first"):
		n.works(&step, 1)
		n.owed = 1
	case last:
		n.works(&step, 1)
	case named:
		n.plain(row - 1)
		n.works(&step, step.lastRow(row)-row+1)
		n.owed = 0
	case step.Shaping != nil:
		step.Offset = n.at - n.owed
		n.works(&step, step.Shaping.Rows-n.owed)
		n.owed = 0
	case counted:
		rows -= n.owed
		if next != nil && strings.HasSuffix(next.Kind, "-last") {
			rows--
		}
		n.works(&step, rows)
		n.owed = 0
	}
	step.From, step.To = n.s.StitchesAfter(n.at-step.Rows), n.s.StitchesAfter(n.at)
	if step.Across != nil {
		step.From, step.To = step.Across.Stitches, step.Across.After()
	}
	n.steps = append(n.steps, step)
}

// worked is how many rows a step says it works, if it does. Rows with a count of
// those that shape are told step by step.
func (x Step) worked() (rows int, ok bool) {
	if _, summary := x.Values["increase_rows"]; summary {
		return 0, false
	}
	rows, ok = x.Values["rows"].(int)
	if then, more := x.Values["then"].(int); more {
		rows += then
	}
	return rows, ok
}

// lastRow is the last row of a step that begins with a named one: that of shaping
// worked again and again, of several short rows, else the same.
func (x Step) lastRow(row int) int {
	for _, name := range []string{"last", "last_row"} {
		last, ok := x.Values[name].(int)
		if ok && (name == "last_row" || x.Values["times"] != nil) {
			return last
		}
	}
	return row
}

// works lets a step work the next rows.
func (n *numbering) works(step *Step, rows int) {
	step.Row, step.Rows = n.at+1, max(rows, 0)
	step.WrongSide = n.s.WrongSide != (n.at%2 == 1)
	n.at += step.Rows
}

// plain fills in plain rows up to one.
func (n *numbering) plain(to int) {
	if to <= n.at {
		return
	}
	after := "start"
	if len(n.steps) > 0 {
		after = n.steps[len(n.steps)-1].ID
	}
	step := Step{ID: "after-" + after, Kind: "plain", InRounds: n.s.InRounds, Values: Values{"rows": to - n.at, "stitches": n.s.StitchesAfter(to)}}
	n.works(&step, to-n.at)
	step.From, step.To = n.s.StitchesAfter(n.at-step.Rows), n.s.StitchesAfter(n.at)
	n.steps = append(n.steps, step)
	n.owed = 0
}
