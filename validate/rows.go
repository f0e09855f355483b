package validate

import (
	"io"

	"growtuck/data"
)

// CheckRows checks a proposed table of body rows, of the columns of body.csv,
// against the current tables, in which it adds or changes rows. Rows that
// already exist with the same value are skipped. The findings are
// sorted; an error means that the file cannot be read at all.
func CheckRows(in io.Reader, file string, t *data.Tables) ([]Finding, error) {
	s, rep, err := scanProposal(in, file, t)
	if err != nil {
		return nil, err
	}
	if s != nil {
		s.checkSense()
		s.reportExceptions(false)
	}
	return rep.finish(), nil
}

// scanProposal lays a proposal over the tables. The set is nil if the header
// is not that of body rows.
func scanProposal(in io.Reader, file string, t *data.Tables) (*bodySet, *rowReport, error) {
	ix, err := newTableIndex(t)
	if err != nil {
		return nil, nil, err
	}
	rep := newRowReport("", t.Exceptions)
	s := newBodySet(ix, file, rep)
	s.standing(t.Body)
	if whole, ok := in.(interface{ Len() int }); ok {
		s.records = make([]bodyRecord, 0, whole.Len()/shortRow)
	}
	ok, err := scanTable(formOf(newTableForms(), bodyTable), file, in, rep, s.add)
	if err != nil {
		return nil, nil, err
	}
	if !ok {
		return nil, rep, nil
	}
	s.reportOrder()
	s.settle()
	return s, rep, nil
}

// shortRow is about how many bytes a short row has, to make room for all of them.
const shortRow = 80
