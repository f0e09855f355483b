//go:build !nobooks

package workbook

import "github.com/xuri/excelize/v2"

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
