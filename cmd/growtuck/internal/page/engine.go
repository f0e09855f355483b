package page

import (
	"net/url"

	"growtuck/data"
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/validate"
)

// An Engine is what the page is a face of.
type Engine struct {
	Reference *sizing.Reference
	Version   string                          // of the program
	Tables    func() (*data.Tables, error)    // as they stand, to propose rows for
	Credits   func(sources []string) []string // lines that sources ask for
	// Draft is a plan as the table of a draft, with who it is for.
	Draft func(*plan.Plan, sizing.Child, BodyFrom) []plan.Row
	// Reasons say how a reading was got, Terms what each term of a finished
	// measurement is and where it comes from; unit is cm, in or both.
	Reasons func(sizing.Reading) []string
	Terms   func(l sizing.Line, unit string) []string
	// Check checks such a draft: what is worth warning of, and the cautions.
	Check     func([]plan.Row) ([]validate.Finding, error)
	Questions []Question          // answered under /api/
	Files     map[string]Question // offered under /files/, by their names
}

// BodyFrom says which sizes of a chart a body was made from, if any.
type BodyFrom struct{ Chart, Size, Widths, Lengths string }

// A Question is something that the program answers as its command does.
type Question struct {
	Name, Summary string
	Method        string // GET or POST
	Media         string // of the answer
	Body          string // what is posted, in words; "" for nothing
	Params        []Param
	Answer        any // a value of the answer's type, a OneOf, or nil where it is no JSON
	// Ask answers. Its errors are faults of what was asked; an Unusable has an
	// answer of its own.
	Ask func(values url.Values, body []byte) ([]byte, error)
}

// OneOf is an answer that has one of several types.
type OneOf []any

// A Param is a parameter of a question.
type Param struct {
	Name, About, Type, Default string // Type is string, number or boolean
	Many, Required             bool   // it may be repeated; it must be given
}

// A ParamError is a fault of one parameter.
type ParamError struct {
	Param string
	Err   error
}

func (e *ParamError) Error() string { return e.Err.Error() }

func (e *ParamError) Unwrap() error { return e.Err }

// Unusable is what was posted and cannot be used, with the findings that say
// why.
type Unusable struct {
	Answer []byte
	Err    error
}

func (e *Unusable) Error() string { return e.Err.Error() }

func (e *Unusable) Unwrap() error { return e.Err }
