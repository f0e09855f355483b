package validate

import (
	"slices"

	"growtuck/sizing"
)

// formRules are about the draft as a table.
func formRules() []draftRule {
	return []draftRule{
		{Rule{"D01", "form", "The file begins with a byte order mark", Note}, byteOrderMark},
		{Rule{"D02", "form", "The file's lines end as Windows ends them", Note}, carriageReturns},
		{Rule{"D03", "form", "A required part has no size", Warn}, partsMissing},
		{Rule{"D04", "form", "A size or a body measurement is not known and was not checked", Note}, notChecked},
		{Rule{"D05", "form", "A measurement of the child is doubtful", Warn}, doubtfulChild},
	}
}

func byteOrderMark(c *checker) {
	if c.d.byteOrderMark {
		c.report(nil, Finding{Found: fact("file.byte-order-mark"), Expected: fact("file.no-mark"), Fix: fact("fix.save-without-mark")})
	}
}

func carriageReturns(c *checker) {
	if c.d.carriageReturns {
		c.report(nil, Finding{Found: fact("file.carriage-returns"), Expected: fact("file.line-feed"), Fix: fact("fix.nothing")})
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
				found := fact("part.no-size")
				if l, ok := c.want.Line(p.Part); ok {
					found = fact("part.no-size-reference", cm(l.Finished))
				}
				c.report(nil, Finding{Subject: p.Part, Found: found, Fix: fact("fix.add-finished", p.Part)})
			}
		}
	}
}

func notChecked(c *checker) {
	var parts, body []string
	for _, p := range c.want.Missing {
		if !slices.Contains(body, p.Measurement) {
			body = append(body, p.Measurement)
		}
	}
	for _, l := range c.want.Lines {
		if _, _, ok := c.d.size(l.Part.Part); !ok {
			parts = append(parts, l.Part.Part)
		}
	}
	if len(body) > 0 {
		c.report(nil, Finding{Subject: "body", Found: fact("body.unknown", body), Fix: fact("fix.measure")})
	}
	if len(parts) > 0 {
		c.report(nil, Finding{Subject: "draft", Found: fact("parts.unknown", parts)})
	}
}

func doubtfulChild(c *checker) {
	for _, q := range c.d.Body.Questions {
		e, subject := c.first("child"), "child"
		for _, b := range c.d.all("body") {
			if b.Part == q.Measurement {
				e, subject = b, b.Part
			}
		}
		if a := c.first("age"); a != nil && q.Measurement == sizing.AgeField {
			e, subject = a, "age"
		}
		c.report(e, Finding{Subject: subject, Found: q.Fact, Fix: likelyFix(q, e)})
	}
}

// likelyFix sets a row of the child to what was likely meant.
func likelyFix(q sizing.Doubt, e *Entry) sizing.Fact {
	if len(q.Likely) == 0 || e == nil || e.Field != "body" && e.Field != "age" {
		return fact("fix.measure-again")
	}
	var edits []any
	for _, v := range q.Likely[0].Values {
		edit := Edit{Field: "body", Part: v.Measurement, To: v.Argument(), Unit: v.Unit}
		if v.Measurement == sizing.AgeField {
			edit.Field, edit.Part = "age", ""
		}
		edits = append(edits, edit)
	}
	if len(edits) > 1 {
		return fact("fix.set-both", edits...)
	}
	return fact("fix.set-likely", edits...)
}
