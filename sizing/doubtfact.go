package sizing

// amountOf is an amount in the unit of a measurement, as an argument of a fact.
func amountOf(unit string, v float64) any {
	switch unit {
	case "kg":
		return Weight(v)
	case "years":
		return Age(v)
	}
	return Length(v)
}

// Argument is the value as an argument of a fact: a [Length], a [Weight] or an [Age].
func (v Value) Argument() any { return amountOf(v.Unit, v.Amount) }

// fact tells a doubt: what was given, what children have, and what was likely
// meant. alone says that nothing else is known of the child.
func (d *doubter) fact(out *Doubt, alone bool) Fact {
	amount := func(v float64) any { return amountOf(out.Unit, v) }
	var remedy Fact
	switch {
	case len(out.Likely) > 0:
		remedy = NewFact("doubt.likely", out.Likely[0].Fact)
	case out.Unit == "kg":
		remedy = NewFact("doubt.scale")
	}
	span := NewFact("doubt.span", amount(out.Low), amount(out.High))
	id, by := "doubt.much", out.Given-out.High
	switch {
	case out.High == 0:
		return NewFact("doubt.alone", out.Name, amount(out.Given), remedy)
	case out.Low <= out.Given && out.Given <= out.High:
		return NewFact("doubt.within", out.Name, amount(out.Given), span, remedy)
	case out.Given < out.Low && alone:
		id, by = "doubt.little-of-all", out.Low-out.Given
	case out.Given < out.Low:
		id, by = "doubt.little", out.Low-out.Given
	case alone:
		id = "doubt.much-of-all"
	}
	return NewFact(id, out.Name, amount(out.Given), amount(by), span, remedy)
}

// correction is a correction with its fact.
func (d *doubter) correction(slip Slip, values []Value) Correction {
	first := values[0].Argument()
	f := NewFact("slip."+string(slip), first)
	if slip == SlipSwapped {
		f = NewFact("slip.swapped", first, d.nameOf(values[1].Measurement))
	}
	return Correction{slip, values, f}
}

func (d *doubter) nameOf(id string) string {
	if m := d.ref.measurements[id]; m != nil {
		return m.Name
	}
	return id
}
