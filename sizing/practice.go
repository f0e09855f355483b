package sizing

import (
	"fmt"
	"strings"
	"sync"

	"growtuck/data"
)

// A Practice is a figure of the trade, or our own judgement, that garments are
// planned with or drafts checked against.
type Practice struct{ data.Practice }

// Share is the figure as a part of one: 0.08 of 8 %, 2/3 of 2 thirds. A figure
// that is not a share is returned unchanged.
func (p Practice) Share() float64 {
	switch p.Unit {
	case "%":
		return p.Value / 100
	case "thirds":
		return p.Value / 3
	case "sixths":
		return p.Value / 6
	}
	return p.Value
}

// builtinPractice are the figures built into the program. They take the place
// of those that a folder of tables lacks, as editions before 1.1 lack all.
var builtinPractice = sync.OnceValues(func() ([]data.Practice, error) {
	t, err := data.Load(data.Embedded(), data.PracticeFile)
	if err != nil {
		return nil, err
	}
	return t.Practice, nil
})

// practice is the figures of some tables.
type practice struct {
	byID         map[string]*data.Practice
	own, builtin []data.Practice // of the tables, and of the program
}

func newPractice(t *data.Tables) (*practice, error) {
	builtin, err := builtinPractice()
	if err != nil {
		return nil, err
	}
	p := &practice{make(map[string]*data.Practice, len(builtin)), t.Practice, builtin}
	for i := range builtin {
		p.byID[builtin[i].ID] = &builtin[i]
	}
	for i := range t.Practice {
		row := &t.Practice[i]
		if has, ok := p.byID[row.ID]; ok && has.Unit != row.Unit {
			return nil, &data.Error{File: data.PracticeFile, Line: row.Line, Msg: fmt.Sprintf("%s has the unit %s; want %s", row.ID, row.Unit, has.Unit)}
		}
		p.byID[row.ID] = row
	}
	return p, nil
}

// Practice returns a figure by its id. It panics where no table has it, as that
// is a fault of the program and not of its data.
func (ref *Reference) Practice(id string) Practice {
	p, ok := ref.practice().byID[id]
	if !ok {
		panic(fmt.Sprintf("sizing: no row %.80q in practice.csv", id))
	}
	return Practice{*p}
}

// PracticeList returns the figures of one list, whose ids begin with prefix,
// such as "stocked_zipper_". Tables that have any have them all.
func (ref *Reference) PracticeList(prefix string) []Practice {
	var list []Practice
	p := ref.practice()
	for _, rows := range [][]data.Practice{p.own, p.builtin} {
		for _, r := range rows {
			if strings.HasPrefix(r.ID, prefix) {
				list = append(list, Practice{r})
			}
		}
		if len(list) > 0 {
			break
		}
	}
	return list
}

// Practice returns a figure of the tables that the garment was finished with;
// see [Reference.Practice].
func (f *Finished) Practice(id string) Practice { return f.ref.Practice(id) }

// PracticeList returns figures of the tables that the garment was finished
// with; see [Reference.PracticeList].
func (f *Finished) PracticeList(prefix string) []Practice { return f.ref.PracticeList(prefix) }

// Abbreviations are those of the tables that the garment was finished with; see
// [Reference.Abbreviations].
func (f *Finished) Abbreviations(craft, terms string) []data.Abbreviation {
	return f.ref.Abbreviations(craft, terms)
}

// AddedPart returns a kind of part of the tables that the garment was finished
// with; see [Reference.AddedPart].
func (f *Finished) AddedPart(id string) (data.AddedPart, error) { return f.ref.AddedPart(id) }

// YarnClass returns a weight class of yarn of the tables that the garment was
// finished with.
func (f *Finished) YarnClass(class int) (data.Yarn, bool) { return f.ref.YarnClass(class) }
