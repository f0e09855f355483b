package validate

import (
	"fmt"
	"slices"
	"strings"

	"growtuck/sizing"
)

// formRules are about the draft as a table.
func formRules() []draftRule {
	return []draftRule{
		{Rule{"D01", "form", "The file begins with a byte order mark", Note}, byteOrderMark},
		{Rule{"D02", "form", "The file's lines end as Windows ends them", Note}, carriageReturns},
		{Rule{"D03", "form", "A part that the garment cannot do without has no size", Warn}, partsMissing},
		{Rule{"D04", "form", "A size or a body measurement is not known, and is not checked", Note}, notChecked},
		{Rule{"D05", "form", "A measurement of the child is doubtful", Warn}, doubtfulChild},
	}
}

func byteOrderMark(c *checker) {
	if c.d.byteOrderMark {
		c.report(nil, Finding{Found: sizing.Text("begins with a byte order mark, as spreadsheets write it"), Expected: sizing.Text("UTF-8 without one"),
			Fix: sizing.Text("it was read; save without the mark where other tools complain")})
	}
}

func carriageReturns(c *checker) {
	if c.d.carriageReturns {
		c.report(nil, Finding{Found: sizing.Text("has lines that end in carriage return and line feed"), Expected: sizing.Text("line feed alone"),
			Fix: sizing.Text("it was read; nothing needs to be done")})
	}
}

// needed are the parts without which a garment cannot be made; the others may
// follow from the work.
var needed = []string{"chest", "neck", "armhole_depth", "upper_arm", "cuff", "sleeve_length", "body_length", "waist", "hip", "thigh",
	"ankle", "rise", "inside_leg", "trunk", "front_opening", "hood_round", "hood_height", "brim", "hat_height", "hand", "hand_length",
	"thumb_length", "foot", "foot_length", "leg_height", "skirt_hip", "skirt_length"}

func partsMissing(c *checker) {
	parts, err := c.ref.Parts(c.d.Garment.ID)
	if err != nil {
		return // the reader has refused it
	}
	for _, p := range parts {
		if _, _, ok := c.d.size(p.Part); ok {
			continue
		}
		for _, n := range needed {
			if n == p.Part {
				found := "has no size"
				if l, ok := c.want.Line(p.Part); ok {
					found += fmt.Sprintf("; the reference makes it %s", cm(l.Finished))
				}
				c.report(nil, Finding{Subject: p.Part, Found: sizing.Text(found), Fix: sizing.Text(fmt.Sprintf("add a row finished,%s,…", p.Part))})
			}
		}
	}
}

func notChecked(c *checker) {
	var parts, body []string
	for _, p := range c.want.Missing {
		if name := spoken(p.Measurement); !slices.Contains(body, name) {
			body = append(body, name)
		}
	}
	for _, l := range c.want.Lines {
		if _, _, ok := c.d.size(l.Part.Part); !ok {
			parts = append(parts, spoken(l.Part.Part))
		}
	}
	if len(body) > 0 {
		c.report(nil, Finding{Subject: "body", Found: sizing.Text("the body has no " + strings.Join(body, ", ") + " that is known, so what rests on it was not checked"),
			Fix: sizing.Text("measure it and add a row body")})
	}
	if len(parts) > 0 {
		c.report(nil, Finding{Subject: "draft", Found: sizing.Text("has no size for " + strings.Join(parts, ", ") + ", so they were not checked")})
	}
}

func doubtfulChild(c *checker) {
	for _, q := range c.d.Body.Questions {
		e, subject := c.first("child"), "child"
		for _, b := range c.d.all("body") {
			if m, err := c.ref.Measurement(b.Part); err == nil && strings.HasPrefix(q, m.Name+" ") {
				e, subject = b, b.Part
			}
		}
		c.report(e, Finding{Subject: subject, Found: sizing.Text(q), Fix: sizing.Text("measure it again; if it is right, nothing needs to be done")})
	}
}
