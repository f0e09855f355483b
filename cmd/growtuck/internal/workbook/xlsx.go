//go:build !nobooks

package workbook

import (
	"fmt"
	"io"
	"strings"

	"github.com/xuri/excelize/v2"
)

// made is the date of every workbook: the same input gives the same bytes.
const made = "2000-01-01T00:00:00Z"

// WriteXLSX writes the sheets as a workbook. The same book gives the same
// bytes.
func (b *Book) WriteXLSX(w io.Writer) error {
	f := excelize.NewFile()
	defer f.Close()
	f.SetZipWriter(newZipWriter)
	x := &xlsx{file: f, looks: make(map[style]int), overlays: make(map[style]int)}
	if err := f.SetDocProps(&excelize.DocProperties{Title: b.title, Creator: b.by, LastModifiedBy: b.by, Created: made, Modified: made,
		Subject: "Children's garments for crochet and knitting", Description: b.tables, Language: "en"}); err != nil {
		return err
	}
	if err := f.SetAppProps(&excelize.AppProperties{Application: "growtuck"}); err != nil {
		return err
	}
	for i, s := range b.sheets {
		if i == 0 {
			if err := f.SetSheetName("Sheet1", s.name); err != nil {
				return err
			}
		} else if _, err := f.NewSheet(s.name); err != nil {
			return err
		}
	}
	for _, s := range b.sheets {
		if err := x.names(s); err != nil {
			return fmt.Errorf("sheet %s: %w", s.name, err)
		}
	}
	for _, s := range b.sheets {
		if err := x.write(s); err != nil {
			return fmt.Errorf("sheet %s: %w", s.name, err)
		}
	}
	return f.Write(w)
}

// An xlsx is a workbook that is being written. Looks are made once each.
type xlsx struct {
	file            *excelize.File
	looks, overlays map[style]int
}

func (x *xlsx) look(s style) (int, error) {
	if id, ok := x.looks[s]; ok {
		return id, nil
	}
	id, err := x.file.NewStyle(s.look())
	x.looks[s] = id
	return id, err
}

func (x *xlsx) overlay(s style) (int, error) {
	if id, ok := x.overlays[s]; ok {
		return id, nil
	}
	id, err := x.file.NewConditionalStyle(s.overlay())
	x.overlays[s] = id
	return id, err
}

func (x *xlsx) names(s *sheet) error {
	for _, n := range s.names {
		if err := x.file.SetDefinedName(&excelize.DefinedName{Name: n.name, RefersTo: on(s.name, n.cell)}); err != nil {
			return err
		}
	}
	if s.unprinted {
		area := fixed(len(s.widths)+2, 1)
		return x.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Area", RefersTo: on(s.name, area), Scope: s.name})
	}
	if s.head > 0 {
		return x.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: fmt.Sprintf("%s$%d:$%d", on(s.name, ""), s.head, s.head), Scope: s.name})
	}
	return nil
}

// write writes a sheet: how it is printed and what its cells take first, for
// these are in the file before and after the rows.
func (x *xlsx) write(s *sheet) error {
	for _, step := range []func(*sheet) error{x.page, x.lists, x.conditions, x.chart, x.picture, x.rows} {
		if err := step(s); err != nil {
			return err
		}
	}
	return nil
}

func (x *xlsx) page(s *sheet) error {
	f := x.file
	// The filter comes first: setting it puts the properties of the sheet back.
	if s.filter && s.head > 0 {
		last := s.head
		for last < len(s.rows) && len(s.rows[last]) > 1 {
			last++
		}
		if err := f.AutoFilter(s.name, area(1, s.head, len(s.rows[s.head-1]), last), nil); err != nil {
			return err
		}
	}
	yes, no := true, false
	turned, a4, one, high := "landscape", 9, 1, s.pages
	if s.portrait {
		turned = "portrait"
	}
	if err := f.SetSheetProps(s.name, &excelize.SheetPropsOptions{FitToPage: &yes}); err != nil {
		return err
	}
	if err := f.SetSheetView(s.name, 0, &excelize.ViewOptions{ShowGridLines: &no}); err != nil {
		return err
	}
	if err := f.SetPageLayout(s.name, &excelize.PageLayoutOptions{Orientation: &turned, Size: &a4, FitToWidth: &one, FitToHeight: &high}); err != nil {
		return err
	}
	margin, foot := 0.5, 0.3
	if err := f.SetPageMargins(s.name, &excelize.PageLayoutMarginsOptions{Left: &margin, Right: &margin, Top: &margin, Bottom: &margin, Footer: &foot, Header: &foot}); err != nil {
		return err
	}
	return f.SetHeaderFooter(s.name, &excelize.HeaderFooterOptions{OddFooter: "&L&A&RPage &P of &N"})
}

func (x *xlsx) lists(s *sheet) error {
	for _, l := range s.lists {
		v := excelize.NewDataValidation(true)
		v.Sqref = l.cells
		if len(l.words) > 0 {
			if err := v.SetDropList(l.words); err != nil {
				return err
			}
			v.SetError(excelize.DataValidationErrorStyleStop, l.hint, "One of "+strings.Join(l.words, ", ")+".")
		} else {
			if err := v.SetRange(l.low, l.high, excelize.DataValidationTypeDecimal, excelize.DataValidationOperatorBetween); err != nil {
				return err
			}
			v.SetError(excelize.DataValidationErrorStyleWarning, l.hint, fmt.Sprintf("From %g to %g.", l.low, l.high))
		}
		if err := x.file.AddDataValidation(s.name, v); err != nil {
			return err
		}
	}
	return nil
}

func (x *xlsx) conditions(s *sheet) error {
	for _, c := range s.conds {
		look, err := x.overlay(c.look)
		if err != nil {
			return err
		}
		if err := x.file.SetConditionalFormat(s.name, c.cells, []excelize.ConditionalFormatOptions{{Type: "formula", Criteria: c.formula, Format: &look}}); err != nil {
			return err
		}
	}
	return nil
}

func (x *xlsx) picture(s *sheet) error {
	if s.picture == nil {
		return nil
	}
	return x.file.AddPictureFromBytes(s.name, s.place, &excelize.Picture{Extension: ".png", File: s.picture(),
		Format: &excelize.GraphicOptions{AltText: "The garment, drawn to scale", ScaleX: pictureScale, ScaleY: pictureScale, Positioning: "oneCell"}})
}

func (x *xlsx) rows(s *sheet) error {
	sw, err := x.begin(s)
	if err != nil {
		return err
	}
	return sw.Flush()
}

// begin writes the rows of a sheet, and leaves it open for more.
func (x *xlsx) begin(s *sheet) (*excelize.StreamWriter, error) {
	sw, err := x.file.NewStreamWriter(s.name)
	if err != nil {
		return nil, err
	}
	for i, w := range s.widths {
		if err := sw.SetColWidth(i+1, i+1, w); err != nil {
			return nil, err
		}
	}
	if s.head > 0 {
		if err := sw.SetPanes(&excelize.Panes{Freeze: true, XSplit: s.freeze, YSplit: s.head, TopLeftCell: at(s.freeze+1, s.head+1), ActivePane: pane(s.freeze)}); err != nil {
			return nil, err
		}
	}
	merged := make(map[int]span)
	for _, m := range s.merges {
		merged[m.row] = m
	}
	var cells []any
	for i, row := range s.rows {
		cells = cells[:0]
		for k, c := range row {
			if c.style == stHead && i+1 < len(s.rows) && k < len(s.rows[i+1]) {
				c.style = s.rows[i+1][k].style.head()
			}
			v, err := x.cell(c)
			if err != nil {
				return nil, err
			}
			cells = append(cells, v)
		}
		if err := sw.SetRow(at(1, i+1), cells, excelize.RowOpts{Height: s.height(row, merged[i+1])}); err != nil {
			return nil, err
		}
	}
	for _, row := range s.breaks {
		if err := sw.InsertPageBreak(at(1, row)); err != nil {
			return nil, err
		}
	}
	for _, m := range s.merges {
		if err := sw.MergeCell(at(m.from, m.row), at(m.to, m.row)); err != nil {
			return nil, err
		}
	}
	return sw, nil
}

func pane(frozenColumns int) string {
	if frozenColumns > 0 {
		return "bottomRight"
	}
	return "bottomLeft"
}

func (x *xlsx) cell(c cell) (any, error) {
	id, err := x.look(c.style)
	if err != nil {
		return nil, err
	}
	value := c.value
	if v, ok := value.(float64); ok {
		value = firm(v)
	}
	return excelize.Cell{StyleID: id, Formula: c.formula, Value: value}, nil
}
