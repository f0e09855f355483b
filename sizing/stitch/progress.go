package stitch

// Remaining is what is left of a section.
type Remaining struct {
	Name     string
	Rows     int // over all copies
	Stitches float64
}

// A Progress is how far the work is.
type Progress struct {
	Left           []Remaining // sections not finished
	RowsLeft       int
	StitchesDone   float64
	StitchesLeft   float64
	DoneShare      float64 // by stitches, as yarn goes
	RowsDone, Rows int
}

// YarnLeft is yarn against what remains.
type YarnLeft struct {
	NeedMetres float64 // for the rest, margin included
	HaveMetres float64
	SpareBalls float64 // of the yarn at hand, once done; negative: to buy
	Enough     bool
}

// YarnToGo tells whether the yarn at hand finishes the work. It goes by what
// was used so far per stitch, which is better than any estimate once a few
// thousand stitches are done. Metres follow from weighing: grams × metres of a
// ball ÷ grams of a ball.
func (p Progress) YarnToGo(usedMetres, haveMetres, margin float64, b Ball) (YarnLeft, error) {
	if err := firstError(checkRange("yarn used", usedMetres, 0.001, 1e7, "m"), checkRange("yarn at hand", haveMetres, 0, 1e7, "m"),
		checkRange("margin", margin, 0, 1, ""), checkBall(b)); err != nil {
		return YarnLeft{}, err
	}
	if p.StitchesDone <= 0 {
		return YarnLeft{}, &InputError{"work done", "nothing", "some rows, to know what a stitch takes"}
	}
	y := YarnLeft{NeedMetres: usedMetres / p.StitchesDone * p.StitchesLeft * (1 + margin), HaveMetres: haveMetres}
	y.SpareBalls = (haveMetres - y.NeedMetres) / b.Metres
	y.Enough = y.NeedMetres <= haveMetres
	return y, nil
}
