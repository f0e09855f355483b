package validate

import "growtuck/sizing"

// A CellEdit is a change of a row of a table that a finding proposes: the cell of
// a column goes From one text To another, or, where Column is "", the row goes.
// Edits are arguments of a finding's Fix.
type CellEdit struct {
	Table    string
	Line     int
	Key      []string // the row's cells in the key columns of the table
	Column   string
	From, To string
}

// CellEdits are the changes of a table that the finding proposes.
func (f Finding) CellEdits() []CellEdit {
	var all []CellEdit
	for _, a := range f.Fix.Args {
		if e, ok := a.(CellEdit); ok {
			all = append(all, e)
		}
	}
	return all
}

// doCell is the remedy that an edit alone is.
func doCell(e CellEdit) sizing.Fact { return sizing.NewFact("rows.fix", e) }

// edit sets a cell of the row.
func (row *tableRow) edit(form *tableForm, file string, i int, to string) CellEdit {
	e := CellEdit{Table: file, Line: row.line, Column: form.columns[i].name, From: row.words[i].text, To: to}
	for _, k := range form.key {
		e.Key = append(e.Key, row.words[form.index(k)].text)
	}
	return e
}

// removal takes a row of a table out.
func (line *tableLine) removal(form *tableForm) CellEdit {
	e := CellEdit{Table: form.name, Line: line.line}
	for _, k := range form.key {
		e.Key = append(e.Key, line.cells[form.index(k)])
	}
	return e
}

// removal takes a row of the file out.
func (s *bodySet) removal(b *bodyRecord) CellEdit {
	z, k := &s.t.Sizes[b.key.size()], b.key
	return CellEdit{Table: s.file, Line: int(b.line), Key: []string{z.Chart, z.Size, bodySexes[k.sex()], s.t.Measurements[k.measurement()].ID,
		bodyStatistics[k.statistic()], bodyUnits[k.unit()]}}
}

// remove takes the row out.
func (r rowAt) remove() CellEdit {
	form, line := r.row()
	if line == nil {
		return CellEdit{Table: r.table, Line: r.line}
	}
	return line.removal(form)
}

// set writes a cell of the row.
func (r rowAt) set(column, to string) CellEdit {
	e := r.remove()
	e.Column, e.To = column, to
	if form, line := r.row(); line != nil {
		e.From = line.cells[form.index(column)]
	}
	return e
}

// to is the same row where the remedy is another.
func (r rowAt) to(fix sizing.Fact) rowAt {
	r.fix = fix
	return r
}

// row finds the row's form and cells.
func (r rowAt) row() (*tableForm, *tableLine) {
	return formOf(r.ts.forms, r.table), r.ts.line(r.table, r.line)
}
