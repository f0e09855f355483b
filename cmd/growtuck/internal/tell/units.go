package tell

import (
	"strings"

	"growtuck/sizing"
)

// amount prints a value of a measurement, in cm or kg, or the imperial one
// beside it, for a table: cm to the nearest half, inches to the nearest
// quarter, kg and lb to a tenth.
func amount(r sizing.Reading, unit string) string {
	switch {
	case r.Measurement.Unit == "kg" && unit == "in":
		return fixed(r.Imperial, 1)
	case r.Measurement.Unit == "kg":
		return fixed(r.Value, 1)
	case unit == "in":
		return sizing.FormatQuarters(r.Imperial)
	}
	return sizing.FormatHalves(r.Value)
}

// LengthIn prints a length given in cm in the unit.
func LengthIn(cm float64, unit string) string {
	if unit == "in" {
		return sizing.FormatQuarters(cm / sizing.CmPerInch)
	}
	return sizing.FormatHalves(cm)
}

// signed prints what is added to a length or taken away; nothing for nothing.
func signed(cm float64, unit string) string {
	s := LengthIn(cm, unit)
	switch {
	case s == "0.0" || s == "0":
		return ""
	case cm > 0:
		return "+" + s
	}
	return minus(s)
}

// minus writes a number below 0 with the minus sign of words and tables.
func minus(s string) string {
	if number, below := strings.CutPrefix(s, "-"); below {
		return "−" + number
	}
	return s
}

// quantity prints a length in words: in full in cm, to a quarter in inches.
func quantity(cm float64, unit string) string {
	inches := minus(sizing.FormatQuarters(cm/sizing.CmPerInch)) + " in"
	metric := minus(Figure(cm).String()) + " cm"
	switch unit {
	case "in":
		return inches
	case "both":
		return metric + " (" + inches + ")"
	}
	return metric
}

// spread prints the range of a reading: "47.8–50.2 (p25–p75)".
func spread(r sizing.Reading, unit string) string {
	if r.Spread == "" {
		return ""
	}
	return ends(r, unit) + " (" + string(r.Spread) + ")"
}

// ends prints the ends of the range of a reading.
func ends(r sizing.Reading, unit string) string {
	end := func(v float64) string {
		switch {
		case r.Measurement.Unit == "kg" && unit == "in":
			return fixed(v/sizing.KgPerPound, 1)
		case r.Measurement.Unit == "kg" || unit != "in":
			return fixed(v, 1)
		}
		return sizing.FormatQuarters(v / sizing.CmPerInch)
	}
	return end(r.Low) + "–" + end(r.High)
}

// title names a measurement for a table in the unit; weight says its own.
func title(r sizing.Reading, inUnits []string) string {
	if r.Measurement.Unit != "kg" {
		return r.Measurement.Name
	}
	var own []string
	for _, u := range inUnits {
		own = append(own, map[string]string{"cm": "kg", "in": "lb"}[u])
	}
	return r.Measurement.Name + " (" + strings.Join(own, ", ") + ")"
}

// Named names a measurement for a table; weight says its unit.
func (st Style) Named(r sizing.Reading) string { return title(r, st.Units()) }

// Measured prints the value of a measurement for a table.
func (st Style) Measured(r sizing.Reading) string { return amount(r, st.Units()[0]) }

// UnitWord is a unit of length in a sentence.
func UnitWord(unit string) string {
	if unit == "in" {
		return "inches"
	}
	return unit
}

// Units lists the units that tables show: cm, in, or both.
func (st Style) Units() []string {
	switch st.Unit {
	case "both":
		return []string{"cm", "in"}
	case "":
		return []string{"cm"}
	}
	return []string{st.Unit}
}
