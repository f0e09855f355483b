package tell

import (
	"errors"

	"growtuck/sizing"
)

// A DoubtRecord is a doubt about what was said of a child, as JSON.
type DoubtRecord struct {
	Field   string             `json:"field" doc:"id of the body measurement, or age"`
	Given   Figure             `json:"given" doc:"the value that was given, in the unit"`
	Unit    string             `json:"unit" doc:"unit of the values: cm, kg or years"`
	Low     *Figure            `json:"low" doc:"the least that 98 of 100 children measured in 1975–77 and 1999–2016 have who are like the rest of what was said; null where that is not known"`
	High    *Figure            `json:"high" doc:"the most that they have; null where that is not known"`
	Spreads *Figure            `json:"spreads" doc:"how many standard deviations off the value is, below 0 where it is too little; null where that is not known"`
	Where   string             `json:"where" doc:"place in the file where it was given; empty where there is none"`
	Text    string             `json:"text" doc:"the doubt in words"`
	Likely  []CorrectionRecord `json:"likely" doc:"what may have been meant, the likeliest first"`
}

// A CorrectionRecord is what may have been meant by a value in doubt.
type CorrectionRecord struct {
	Slip   string        `json:"slip" doc:"how the value came to be wrong: tenth, ten-times, inches, feet, metres, millimetres, centimetres, pounds, kilograms, grams, months, years, swapped, digits, or usual where none of these"`
	Values []ValueRecord `json:"values" doc:"what to set: the field in doubt, and another where both changed places"`
	Text   string        `json:"text" doc:"the correction in words"`
}

// A ValueRecord is a value that a field may be set to.
type ValueRecord struct {
	Field string `json:"field" doc:"id of the body measurement, or age"`
	Value Figure `json:"value" doc:"the value, in the unit"`
	Unit  string `json:"unit" doc:"unit of the values: cm, kg or years"`
}

// DoubtRecords are doubts as JSON; an empty list, not nil, for none.
func DoubtRecords(doubts []sizing.Doubt) []DoubtRecord {
	all := []DoubtRecord{}
	for _, d := range doubts {
		known := d.High > 0
		r := DoubtRecord{Field: d.Measurement, Given: Figure(d.Given), Unit: d.Unit, Low: Known(d.Low, known), High: Known(d.High, known),
			Spreads: Known(d.Spreads, known), Where: d.Where, Text: Style{}.Fact(d.Fact), Likely: []CorrectionRecord{}}
		for _, c := range d.Likely {
			rec := CorrectionRecord{Slip: string(c.Slip), Text: Style{}.Fact(c.Fact)}
			for _, v := range c.Values {
				rec.Values = append(rec.Values, ValueRecord{v.Measurement, Figure(v.Amount), v.Unit})
			}
			r.Likely = append(r.Likely, rec)
		}
		all = append(all, r)
	}
	return all
}

// checkFirst begins a doubt above a document.
const checkFirst = "Check first: "

// DoubtsOf are the doubts about what was said of a child that an error comes with.
func DoubtsOf(err error) []sizing.Doubt {
	var e *sizing.DoubtError
	if errors.As(err, &e) {
		return e.Doubts
	}
	return nil
}

// CheckFirst are doubts in words, as they are told above all else.
func (st Style) CheckFirst(doubts []sizing.Doubt) []string {
	all := st.Questions(doubts)
	for i := range all {
		all[i] = checkFirst + all[i]
	}
	return all
}

// Doubt tells a doubt, with the place where the value was given.
func (st Style) Doubt(d sizing.Doubt) string {
	text := st.Fact(d.Fact)
	if d.Where != "" {
		return d.Where + ": " + text
	}
	return text
}

// Questions are doubts in words; an empty list, not nil, for none.
func (st Style) Questions(doubts []sizing.Doubt) []string {
	all := []string{}
	for _, d := range doubts {
		all = append(all, st.Doubt(d))
	}
	return all
}
