package sizing

// A Passage is what must go through an edge: a part of the body that is larger
// on the way through than where it is measured, such as a foot, whose heel must
// pass an ankle.
type Passage struct {
	Measurement string
	Times       Practice // its girth on the way, of the measurement
}

// Passage returns what must go through an edge, and by which figure of the trade
// it is larger than its measurement.
func (ref *Reference) Passage(edge string) (Passage, bool) {
	switch edge {
	case "neck":
		return Passage{"head", ref.Practice("head_with_ears")}, true
	case "cuff":
		return Passage{"hand", ref.Practice("hand_with_thumb")}, true
	case "ankle":
		return Passage{"foot", ref.Practice("heel_diagonal")}, true
	}
	return Passage{}, false
}

// Cm is the girth that must go through, of a body measurement in cm.
func (p Passage) Cm(bodyCm float64) float64 { return bodyCm * p.Times.Share() }

// Passage returns what must go through an edge; see [Reference.Passage].
func (f *Finished) Passage(edge string) (Passage, bool) { return f.ref.Passage(edge) }
