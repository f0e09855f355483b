package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// wider gives a section more stitches at its end, or fewer. A body, a sleeve or a
// leg that is not begun is so from its start.
func (c *changer) wider(s *Section, cm float64) error {
	k := 2 * int(math.Round(s.Gauge.Stitches(cm)/2))
	switch {
	case k == 0:
		c.r.note("change-under-a-pair", s.Kind, sizing.Length(cm))
		return nil
	case s.ID != "back-neck" && slices.Contains(aboveUnderarm, s.ID):
		return fmt.Errorf("%s: body and sleeves share it; say which of them should be wider: body or sleeve", s.ID)
	case fixed[s.ID] != "" && s.ID != "hood-crown":
		return fmt.Errorf("%s: its stitches follow from the rest; say it of %s", s.ID, fixed[s.ID])
	case c.p.limbOf(s.ID) == hoodLimb:
		return fmt.Errorf("%s: a hood that should be wider is planned anew from the neck: give extra hood_round", s.ID)
	case slices.Contains([]limb{headLimb, handLimb, thumbLimb, footLimb}, c.p.limbOf(s.ID)):
		return fmt.Errorf("%s: the %s is planned in one width from beginning to end; begin it again, wider with extra", s.ID, c.p.limbOf(s.ID))
	case s.Ribbed:
		return c.otherRib(s, k)
	case c.done[s.ID] == 0 && c.p.limbOf(s.ID) == trunkLimb && c.p.split() != nil && (s.ID == "body" || s.ID == "bodice"):
		return c.widerFromYoke(k, 0)
	case c.done[s.ID] == 0 && s.ID == "sleeve" && c.p.split() != nil:
		return c.widerFromYoke(0, k)
	case c.done[s.ID] == 0 && s.ID == "leg" && c.p.Legs != nil:
		c.r.note("bridge-becomes", c.p.Legs.Bridge+k)
		return c.startsOn(s, k, true)
	}
	if err := c.reshape(s, s.Rows(), s.To()+k); err != nil {
		return err
	}
	return c.follow(s)
}

// split is how the yoke is divided, nil where there is none.
func (p *Plan) split() *stitch.Split {
	switch {
	case p.Circular != nil:
		return &p.Circular.Split
	case p.Raglan != nil:
		return &p.Raglan.Split
	}
	return nil
}

// widerFromYoke gives the body, or each sleeve, more stitches before it is begun:
// from the yoke where that has rows left, else at the underarm.
func (c *changer) widerFromYoke(body, sleeve int) error {
	yoke, _ := c.p.Section("yoke")
	sp := *c.p.split()
	if c.done["yoke"] >= yoke.Rows() {
		// Only what is chained or cast on at the underarm can still be changed. It is
		// of the body and of the sleeve.
		if body != 0 {
			if len(c.begunAfter(yoke)) > 0 {
				return fmt.Errorf("body: the work is divided and a sleeve is begun; say it of the sleeve, or rip back to the division")
			}
			body = 4 * int(math.Round(float64(body)/4))
			sp.Underarm, sp.Body, sp.Sleeve = sp.Underarm+body/2, sp.Body+body, sp.Sleeve+body/2
			if sp.Underarm < 1 {
				return fmt.Errorf("body: the underarm has only %d stitches to give; rip back into the yoke", c.p.split().Underarm)
			}
			c.r.note("underarm-becomes", sp.Underarm)
			c.divideAnew(sp)
			return c.limbsStart(body, body/2)
		}
		s, _ := c.p.Section("sleeve")
		return c.widensInRow2(s, sleeve)
	}
	sp.Body, sp.Back = sp.Body+body, sp.Back+body/2
	if sp.Yoke += body + 2*sleeve; sp.FrontOpening {
		body = 4 * int(math.Round(float64(body)/4))
		sp = *c.p.split()
		sp.Yoke += body + 2*sleeve
		sp.Body, sp.Back, sp.Front = sp.Body+body, sp.Back+body/2, sp.Front+body/4
	} else {
		sp.Front += body / 2
	}
	sp.Sleeve, sp.SleevePart = sp.Sleeve+sleeve, sp.SleevePart+sleeve
	if err := c.reshape(yoke, yoke.Rows(), yoke.To()+body+2*sleeve); err != nil {
		return err
	}
	c.divideAnew(sp)
	return c.limbsStart(body, sleeve)
}

// divideAnew keeps another division of the yoke, which is the first row of the
// body.
func (c *changer) divideAnew(sp stitch.Split) {
	if c.p.Circular != nil {
		circular := *c.p.Circular
		circular.Split = sp
		c.p.Circular = &circular
	} else {
		raglan := *c.p.Raglan
		raglan.Split = sp
		c.p.Raglan = &raglan
	}
	body := c.body()
	if body == nil {
		return
	}
	anew := *body
	anew.Steps = nil
	divide(&anew, sp)
	for i, step := range body.Steps {
		if step.ID == "split" {
			anew.Steps = slices.Concat(body.Steps[:i], anew.Steps, body.Steps[i+1:])
			break
		}
	}
	c.p.Sections[slices.Index(c.p.Sections, body)] = &anew
	c.left[body.ID].Planned = orSelf(c.left[body.ID].Planned, body)
}

// body is the section that begins with the division of the yoke.
func (c *changer) body() *Section {
	for _, id := range []string{"body", "bodice"} {
		if s, ok := c.p.Section(id); ok {
			return s
		}
	}
	return nil
}

// limbsStart lets body and sleeves begin on more stitches.
func (c *changer) limbsStart(body, sleeve int) error {
	if s := c.body(); s != nil {
		begin := func() error { return c.startsOn(s, body, true) }
		if body == 0 {
			begin = func() error { return c.reshape(s, s.Rows(), s.To()) } // it divides otherwise
		}
		if err := begin(); err != nil {
			return err
		}
	}
	if s, ok := c.p.Section("sleeve"); ok && sleeve != 0 {
		return c.startsOn(s, sleeve, false)
	}
	return nil
}

// startsOn lets a section that is not begun start on more stitches, and end on
// more too where it should be wider throughout.
func (c *changer) startsOn(s *Section, more int, throughout bool) error {
	moved := *s
	moved.From += more
	moved.rows = slices.Clone(s.rows)
	for i := range moved.rows {
		moved.rows[i].after += more
		moved.rows[i].worked += more
	}
	moved.Steps = slices.Clone(s.Steps)
	for i, step := range moved.Steps {
		for _, name := range []string{"stitches", "underarm", "bridge"} {
			if n, ok := step.Values[name].(int); ok && (step.ID == "join" || step.ID == "pick-up" || step.ID == "leg" || step.ID == "bridge") {
				v := moved.Steps[i].Values.with(name, n+more)
				if _, halved := v["before"]; halved && name != "stitches" {
					v["before"], v["after"] = (n+more)/2, n+more-(n+more)/2
				}
				moved.Steps[i].Values = v
			}
		}
	}
	if s.Schedule != nil {
		sc := *s.Schedule
		sc.From += more
		moved.Schedule = &sc
	}
	i := slices.Index(c.p.Sections, s)
	c.p.Sections[i] = &moved
	c.left[s.ID].Planned = orSelf(c.left[s.ID].Planned, s)
	to := s.To()
	if throughout || s.Schedule == nil {
		to += more
	}
	err := c.reshape(&moved, moved.Rows(), to)
	if err != nil && to == s.To() {
		err = c.reshape(&moved, moved.Rows(), s.To()+more)
	}
	if err != nil {
		return err
	}
	return c.follow(s)
}

// widensInRow2 picks up a sleeve as planned and gives it its other width in the
// row after.
func (c *changer) widensInRow2(s *Section, more int) error {
	across, err := stitch.ShapeAcross(s.From, more, s.InRounds)
	if err != nil {
		return fmt.Errorf("%s: %w", s.ID, err)
	}
	if err := c.startsOn(s, more, false); err != nil {
		return err
	}
	now, _ := c.p.Section(s.ID)
	now.From, now.rows[0] = s.From, row{s.From, s.From}
	l := c.left[s.ID]
	step := rowShaped("widen", "row", across)
	step.InRounds, step.Values["row"], step.From, step.To = s.InRounds, 2, across.Stitches, across.After()
	for i, x := range l.Rest {
		if x.ID == "pick-up" {
			l.Rest[i] = *s.stepOf("pick-up")
			next := &l.Rest[i+1] // whose first row it is
			step.Row, step.Rows, step.WrongSide = next.Row, 1, next.WrongSide
			next.Row, next.Rows, next.WrongSide, next.From = next.Row+1, next.Rows-1, !s.InRounds && !next.WrongSide, step.To
			l.Rest = slices.Insert(l.Rest, i+1, step)
			break
		}
	}
	return nil
}

// follow lets the section after one that ends on other stitches begin on them.
func (c *changer) follow(was *Section) error {
	now, _ := c.p.Section(was.ID)
	more := now.To() - was.To()
	i := slices.Index(c.p.Sections, now) + 1
	if more == 0 || i >= len(c.p.Sections) {
		return nil
	}
	next := c.p.Sections[i]
	if c.p.limbOf(next.ID) == legLimb && c.p.limbOf(was.ID) == trunkLimb {
		return c.startsOn(next, more/2, more/2%2 != 0)
	}
	if c.p.limbOf(next.ID) != c.p.limbOf(was.ID) {
		return nil
	}
	if next.Ribbed {
		return c.joinAnew(next, now.To(), next.From)
	}
	return c.startsOn(next, more, false)
}

// joinAnew begins ribbing from other stitches, or with another count.
func (c *changer) joinAnew(s *Section, above, count int) error {
	join, err := stitch.ShapeAcross(above, count-above, s.InRounds)
	if err != nil {
		return fmt.Errorf("%s: %w", s.ID, err)
	}
	out := *s
	out.From, out.rows = count, slices.Repeat([]row{{count, count}}, s.Rows())
	out.Steps = slices.DeleteFunc(slices.Clone(s.Steps), func(x Step) bool { return x.ID == "join" })
	for i, x := range out.Steps {
		if _, ok := x.Values["stitches"].(int); ok {
			out.Steps[i].Values = x.Values.with("stitches", count)
		}
	}
	if count != above && !s.begins() { // else as many more are picked up
		step := rowShaped("join", "first", join)
		step.InRounds = s.InRounds
		out.Steps = slices.Insert(out.Steps, 0, step)
	}
	if err := out.number(0); err != nil {
		return err
	}
	whole, part := 0, 0
	if c.done[s.ID] > 0 {
		whole, part = c.at(s)
	}
	c.keep(s, &out, whole, part, 0)
	return nil
}

// otherRib gives ribbing another count, from its first row.
func (c *changer) otherRib(s *Section, more int) error {
	if strings.HasPrefix(s.Steps[0].Kind, "cast-on") {
		return fmt.Errorf("%s: the work is cast on for it; begin it again, wider with extra", s.ID)
	}
	above := s.From
	for _, x := range s.Steps {
		if x.ID == "join" && x.Across != nil {
			above = x.Across.Stitches
		}
	}
	if s.From+more < 2 {
		return fmt.Errorf("%s: %d stitches are too few", s.ID, s.From+more)
	}
	return c.joinAnew(s, above, s.From+more)
}
