package workbook

// A style is how a cell looks.
type style int

const (
	stText style = iota
	stWrap
	stTitle
	stTitleLong // with names in it, broken into lines
	stSection
	stHead
	stHeadRight  // over numbers
	stHeadIndent // over text beside numbers
	stNote
	stInput       // text to fill in
	stInputNumber // a number to fill in
	stInputCount
	stInputWhole // as stInputCount, beside text
	stInt
	stLength   // a length in the unit chosen: to a tenth of a cm, or a hundredth of an inch
	stLeast    // a length, or nothing for 0
	stRounded  // a length as it is worked to: half a cm, a quarter of an inch
	stCm       // always in cm
	stQuarters // always in inches
	stGauge
	stFact  // of the draft
	stValue // of the draft, in cm or kg
	stPercent
	stOff // more or less than asked
	stSum // a finished length
	stStop
	stWarn
	stGood
	stChapter // of the pattern
	stWork
	stBox
	stAfter  // the count after a row
	stRight  // a figure of the pattern, as text
	stGain   // stitches more or less
	stInches // looks of conditions: numbers only
	stInchesRounded
	stInchesLeast
)

const (
	ink      = "1F2933"
	pale     = "F3F5F7"
	inputInk = "7A4B00"
	inputTo  = "FFF4D6" // what may be filled in
	headFill = "2F4858"
	line     = "C9D1D9"
)

// numberFormats are those of the styles of numbers.
var numberFormats = map[style]string{
	stInputNumber: "0.0##", stInputCount: "0", stInputWhole: "0", stInt: "0",
	stLength: "0.0", stCm: "0.0", stLeast: "0.0;-0.0;", stRounded: "0.0", stSum: "0.0", stOff: "+0.0;-0.0;0.0",
	stQuarters: "# ?/?", stGauge: "0.0#", stValue: "0.0##", stPercent: "0.##\" %\"",
	stGain: "+0;-0", stAfter: "0",
	stInches: "0.00", stInchesLeast: "0.00;-0.00;", stInchesRounded: "# ?/?",
}

// head is the style of the header over cells of the style.
func (s style) head() style {
	switch s {
	case stWrap:
		return stHeadIndent
	case stInt, stLength, stLeast, stRounded, stCm, stQuarters, stGauge, stPercent, stOff, stSum, stInputCount:
		return stHeadRight
	}
	return stHead
}

// wraps reports that text of the style is broken into lines.
func (s style) wraps() bool {
	return s == stWrap || s == stHead || s == stHeadRight || s == stHeadIndent || s == stNote || s == stInput || s == stTitleLong || s == stWarn || s == stWork || s == stChapter
}
