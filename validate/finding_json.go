package validate

import (
	"encoding/json"
	"fmt"
	"math"

	"growtuck/sizing"
)

// UnmarshalText reads the severity's name.
func (s *Severity) UnmarshalText(name []byte) error {
	var err error
	*s, err = ParseSeverity(string(name))
	return err
}

// A findingJSON is a finding as JSON has it.
type findingJSON struct {
	Rule     string    `json:"rule"`
	Severity Severity  `json:"severity"`
	File     string    `json:"file,omitempty"`
	Line     int       `json:"line,omitempty"`
	Column   int       `json:"column,omitempty"`
	Subject  string    `json:"subject,omitempty"`
	Found    *factJSON `json:"found,omitempty"`
	Expected *factJSON `json:"expected,omitempty"`
	By       *factJSON `json:"by,omitempty"`
	Fix      *factJSON `json:"fix,omitempty"`
	Source   string    `json:"source,omitempty"`
	Also     []int     `json:"also,omitempty"`
}

// MarshalJSON writes the finding with its facts as they are, so that it can be read
// back: each argument under the name of its type.
func (f Finding) MarshalJSON() ([]byte, error) {
	out := findingJSON{Rule: f.Rule, Severity: f.Severity, File: f.File, Line: f.Line, Column: f.Column, Subject: f.Subject, Source: f.Source, Also: f.Also}
	for _, x := range []struct {
		from sizing.Fact
		to   **factJSON
	}{{f.Found, &out.Found}, {f.Expected, &out.Expected}, {f.By, &out.By}, {f.Fix, &out.Fix}} {
		if x.from.IsZero() {
			continue
		}
		fact, err := factOut(x.from)
		if err != nil {
			return nil, fmt.Errorf("finding %s: %w", f.Rule, err)
		}
		*x.to = &fact
	}
	return json.Marshal(out)
}

// UnmarshalJSON reads a finding as MarshalJSON writes it.
func (f *Finding) UnmarshalJSON(text []byte) error {
	var in findingJSON
	if err := json.Unmarshal(text, &in); err != nil {
		return err
	}
	*f = Finding{Rule: in.Rule, Severity: in.Severity, File: in.File, Line: in.Line, Column: in.Column, Subject: in.Subject,
		Found: in.Found.fact(), Expected: in.Expected.fact(), By: in.By.fact(), Fix: in.Fix.fact(), Source: in.Source, Also: in.Also}
	return nil
}

type factJSON struct {
	ID   string         `json:"id"`
	Args []argumentJSON `json:"args,omitempty"`
}

// An argumentJSON is an argument of a fact: one of its fields is set.
type argumentJSON struct {
	Text   *string     `json:"text,omitempty"`
	Texts  []string    `json:"texts,omitempty"`
	Count  *int        `json:"count,omitempty"`
	Number *float64    `json:"number,omitempty"`
	Cm     *float64    `json:"cm,omitempty"`
	Kg     *float64    `json:"kg,omitempty"`
	Years  *float64    `json:"years,omitempty"`
	Range  []*float64  `json:"range,omitempty"` // cm; the second is null where there is no upper end
	Fact   *factJSON   `json:"fact,omitempty"`
	Facts  *[]factJSON `json:"facts,omitempty"`
	Edit   *editJSON   `json:"edit,omitempty"`
	Row    *RowEdit    `json:"row,omitempty"`
	Cell   *CellEdit   `json:"cell,omitempty"`
}

type editJSON struct {
	Field string        `json:"field"`
	Part  string        `json:"part,omitempty"`
	From  *argumentJSON `json:"from,omitempty"`
	To    *argumentJSON `json:"to,omitempty"`
	Unit  string        `json:"unit,omitempty"`
}

func factOut(f sizing.Fact) (factJSON, error) {
	out := factJSON{ID: f.ID}
	for _, a := range f.Args {
		x, err := argumentOut(a)
		if err != nil {
			return out, fmt.Errorf("fact %s: %w", f.ID, err)
		}
		out.Args = append(out.Args, x)
	}
	return out, nil
}

func number[T ~float64](v T) *float64 {
	f := float64(v)
	return &f
}

func argumentOut(a any) (out argumentJSON, err error) {
	switch a := a.(type) {
	case string:
		out.Text = &a
	case []string:
		out.Texts = a
	case int:
		out.Count = &a
	case float64:
		out.Number = number(a)
	case sizing.Length:
		out.Cm = number(a)
	case sizing.Weight:
		out.Kg = number(a)
	case sizing.Age:
		out.Years = number(a)
	case sizing.Range:
		out.Range = []*float64{number(a.Low), number(a.High)}
		if math.IsInf(float64(a.High), 1) {
			out.Range[1] = nil
		}
	case sizing.Fact:
		var f factJSON
		f, err = factOut(a)
		out.Fact = &f
	case []sizing.Fact:
		all := make([]factJSON, len(a))
		for i := range a {
			if all[i], err = factOut(a[i]); err != nil {
				return out, err
			}
		}
		out.Facts = &all
	case Edit:
		out.Edit, err = editOut(a)
	case RowEdit:
		out.Row = &a
	case CellEdit:
		out.Cell = &a
	default:
		err = fmt.Errorf("an argument is a %T, which JSON does not have", a)
	}
	return out, err
}

func editOut(e Edit) (*editJSON, error) {
	out := &editJSON{Field: e.Field, Part: e.Part, Unit: e.Unit}
	for _, v := range []struct {
		from any
		to   **argumentJSON
	}{{e.From, &out.From}, {e.To, &out.To}} {
		if v.from == nil {
			continue
		}
		x, err := argumentOut(v.from)
		if err != nil {
			return nil, err
		}
		*v.to = &x
	}
	return out, nil
}

func (f *factJSON) fact() sizing.Fact {
	if f == nil {
		return sizing.Fact{}
	}
	out := sizing.Fact{ID: f.ID}
	for _, a := range f.Args {
		out.Args = append(out.Args, a.argument())
	}
	return out
}

// argument is nil where no field is set.
func (a *argumentJSON) argument() any {
	switch {
	case a == nil:
		return nil
	case a.Text != nil:
		return *a.Text
	case a.Texts != nil:
		return a.Texts
	case a.Count != nil:
		return *a.Count
	case a.Number != nil:
		return *a.Number
	case a.Cm != nil:
		return sizing.Length(*a.Cm)
	case a.Kg != nil:
		return sizing.Weight(*a.Kg)
	case a.Years != nil:
		return sizing.Age(*a.Years)
	case len(a.Range) == 2 && a.Range[0] != nil:
		r := sizing.Range{Low: sizing.Length(*a.Range[0]), High: sizing.Length(math.Inf(1))}
		if a.Range[1] != nil {
			r.High = sizing.Length(*a.Range[1])
		}
		return r
	case a.Fact != nil:
		return a.Fact.fact()
	case a.Facts != nil:
		all := make([]sizing.Fact, len(*a.Facts))
		for i := range all {
			all[i] = (*a.Facts)[i].fact()
		}
		return all
	case a.Edit != nil:
		return Edit{a.Edit.Field, a.Edit.Part, a.Edit.From.argument(), a.Edit.To.argument(), a.Edit.Unit}
	case a.Row != nil:
		return *a.Row
	case a.Cell != nil:
		return *a.Cell
	}
	return nil
}
