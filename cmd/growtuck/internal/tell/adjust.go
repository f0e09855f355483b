package tell

import (
	"growtuck/sizing"
	"growtuck/sizing/plan"
)

// adjustCm is by how much each section is shown to be made longer and wider.
const adjustCm = 2

// longer says how a section is made 2 cm longer.
func (x pattern) longer(s *plan.Section) string {
	a := x.plan.Longer(s, adjustCm)
	more, total := x.value(a.More, rowsOf(s)), x.value(a.Total, rowsOf(s))
	switch {
	case a.Place == plan.Nowhere && s.Copies == 2 && !s.InRounds:
		return x.say("longer-follows")
	case a.Place == plan.Nowhere:
		return x.say("longer-nowhere")
	case x.sideways(s):
		return x.say("longer-sideways", sizing.Length(a.Cm), a.More)
	case a.Shaping != nil:
		return x.say("longer-throughout", sizing.Length(a.Cm), more, total, x.reshaped(s, a))
	case a.Place == plan.AtStart:
		return x.say("longer-start", sizing.Length(a.Cm), more)
	case s.From == s.To():
		return x.say("longer-straight", sizing.Length(a.Cm), more, total)
	}
	return x.say("longer-end", sizing.Length(a.Cm), more)
}

// wider says how a section is made 2 cm wider.
func (x pattern) wider(s *plan.Section) string {
	a := x.plan.Wider(s, adjustCm)
	row := "row"
	if s.InRounds {
		row = "round"
	}
	switch {
	case s.ID == "yoke":
		return x.say("wider-yoke")
	case x.sideways(s) && a.Place != plan.Nowhere:
		return x.say("wider-sideways", sizing.Length(a.Cm), a.More)
	case a.Place == plan.Increases:
		return x.say("wider-increases", sizing.Length(a.Cm), a.More, row, a.To)
	case a.Place == plan.Underarms && a.Shaping != nil:
		return x.say("wider-underarms-shaped", sizing.Length(a.Cm), a.More/2, a.Total, x.reshaped(s, a))
	case a.Place == plan.Underarms:
		return x.say("wider-underarms", sizing.Length(a.Cm), a.More/2, a.Total, row, a.To, a.More)
	case a.Place == plan.Nowhere && s.Copies == 2 && !s.InRounds:
		return x.say("wider-follows", sizing.Length(s.Gauge.RowHeightCm()))
	case a.Place == plan.Nowhere:
		return x.say("wider-nowhere")
	case a.Shaping != nil && a.Place == plan.AtBeginning:
		return x.say("wider-shaped-begin", sizing.Length(a.Cm), a.More, a.Total, x.reshaped(s, a))
	case a.Shaping != nil:
		return x.say("wider-shaped-first", sizing.Length(a.Cm), a.More, row, a.Total, x.reshaped(s, a))
	case a.Place == plan.Kept:
		return x.say("wider-end", sizing.Length(a.Cm), a.More, row, a.Total)
	case s.From != s.To() && a.Place == plan.AtBeginning:
		return x.say("wider-begin-narrowing", sizing.Length(a.Cm), a.More, a.Total, row, a.To)
	case s.From != s.To():
		return x.say("wider-narrowing", sizing.Length(a.Cm), a.More, row, a.Total, row, a.To)
	case a.Place == plan.AtBeginning:
		return x.say("wider-beginning", sizing.Length(a.Cm), a.More, a.Total, row, a.To, a.More)
	}
	return x.say("wider-first-row", sizing.Length(a.Cm), a.More, row, a.Total, row, a.To, a.More)
}

// sideways reports ribbing that is worked along the edge it ends: its rows run up and
// down.
func (x pattern) sideways(s *plan.Section) bool {
	return s.Ribbed && x.Craft == string(plan.Crochet) && !x.postRibbing()
}

// reshaped tells the shaping of a section that was made longer or wider.
func (x pattern) reshaped(s *plan.Section, a plan.Adjustment) string {
	for _, step := range s.Steps {
		if step.Shaping != nil {
			step.Shaping = a.Shaping
			return x.Step(step)
		}
	}
	return ""
}
