package workbook

import "github.com/xuri/excelize/v2"

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

// look is a style as excelize takes it.
func (s style) look() *excelize.Style {
	border := []excelize.Border{{Type: "bottom", Color: line, Style: 1}}
	look := &excelize.Style{
		Font:      &excelize.Font{Family: "DejaVu Sans", Size: 10, Color: ink},
		Alignment: &excelize.Alignment{Vertical: "top"},
	}
	if f, ok := numberFormats[s]; ok {
		look.CustomNumFmt = &f
	}
	input := func() {
		look.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{inputTo}}
		look.Font.Color = inputInk
		look.Border = []excelize.Border{{Type: "left", Color: "E0B84C", Style: 1}, {Type: "right", Color: "E0B84C", Style: 1},
			{Type: "top", Color: "E0B84C", Style: 1}, {Type: "bottom", Color: "E0B84C", Style: 1}}
	}
	switch s {
	case stWrap:
		look.Alignment.WrapText, look.Border, look.Alignment.Indent = true, border, 1
		look.Alignment.Horizontal = "left"
	case stTitle, stTitleLong:
		look.Font.Size, look.Font.Bold = 16, true
		look.Alignment.WrapText = s == stTitleLong
	case stSection:
		look.Font.Size, look.Font.Bold = 12, true
		look.Border = []excelize.Border{{Type: "bottom", Color: headFill, Style: 2}}
	case stHead, stHeadRight, stHeadIndent:
		look.Font.Bold, look.Font.Color = true, "FFFFFF"
		look.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{headFill}}
		look.Alignment.WrapText, look.Alignment.Vertical = true, "center"
		switch s {
		case stHeadRight:
			look.Alignment.Horizontal = "right"
		case stHeadIndent:
			look.Alignment.Horizontal, look.Alignment.Indent = "left", 1
		}
	case stChapter:
		look.Font.Size, look.Font.Bold, look.Alignment.WrapText = 13, true, true
		look.Border = []excelize.Border{{Type: "bottom", Color: headFill, Style: 2}}
	case stWork:
		look.Font.Size, look.Alignment.WrapText, look.Border = 11, true, border
		look.Alignment.Horizontal = "left"
	case stRight:
		look.Font.Size, look.Border, look.Alignment.Horizontal = 11, border, "right"
	case stBox:
		look.Font.Size, look.Border, look.Alignment.Horizontal = 14, border, "center"
	case stAfter:
		look.Font.Size, look.Font.Bold, look.Border, look.Alignment.Horizontal = 12, true, border, "right"
	case stNote:
		look.Font.Color, look.Alignment.WrapText = "52606D", true
	case stInput:
		input()
		look.Alignment.WrapText = true
		look.Alignment.Horizontal = "left"
	case stInputNumber, stInputWhole:
		input()
		look.Alignment.Horizontal = "left"
	case stInputCount:
		input()
	case stRounded:
		look.Border, look.Font.Bold = border, true
	case stFact, stValue:
		look.Border, look.Alignment.Horizontal = border, "left"
	case stSum:
		look.Border, look.Font.Bold = border, true
		look.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{pale}}
	case stStop:
		look.Font.Color, look.Font.Bold = "8B1A1A", true
		look.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"F9D6D5"}}
	case stWarn:
		look.Alignment.WrapText = true
		look.Font.Color = "6B4E00"
		look.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"FFE9B0"}}
	case stGood:
		look.Font.Color = "1B5E20"
		look.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"DDF0DE"}}
	default:
		look.Border = border
	}
	return look
}

// overlay is a look that a condition gives.
func (s style) overlay() *excelize.Style {
	switch s {
	case stInches, stInchesLeast, stInchesRounded:
		f := numberFormats[s]
		return &excelize.Style{CustomNumFmt: &f}
	}
	look := s.look()
	return &excelize.Style{Font: &excelize.Font{Color: look.Font.Color, Bold: look.Font.Bold}, Fill: look.Fill}
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
