//go:build nobooks

package workbook

import (
	"bytes"
	"errors"
	"io"

	"growtuck/sizing"
	"growtuck/validate"
)

// The first program of the site leaves the library of workbooks out, which makes half
// of its size: who asks it for one is asked to ask the second.
var errNoBooks = errors.New("workbooks are read and written by another part of the program")

type (
	File  struct{}
	Table struct{ CSV []byte }
	List  struct{}
)

func Is(head []byte) bool                                           { return bytes.HasPrefix(head, []byte("PK\x03\x04")) }
func Open(io.Reader, string) (*File, error)                         { return nil, errNoBooks }
func (*File) Close() error                                          { return nil }
func (*File) Child() (*Table, error)                                { return nil, errNoBooks }
func (*File) Draft() (*Table, error)                                { return nil, errNoBooks }
func (*File) Corrected(*Table, []validate.Finding) ([]byte, error)  { return nil, errNoBooks }
func (*File) Tables() (map[string]*Table, []string, error)          { return nil, nil, errNoBooks }
func (*File) HasDraft() bool                                        { return false }
func (*Table) Where(place string) string                            { return place }
func (*Table) Faults(err error) error                               { return err }
func (*Table) Findings(f []validate.Finding) []validate.Finding     { return f }
func (*Book) WriteXLSX(io.Writer) error                             { return errNoBooks }
func NewList(_, _, _ string, _ []string, _ []string) (*List, error) { return nil, errNoBooks }
func (*List) Add(string, *sizing.Finished) error                    { return errNoBooks }
func (*List) Discard()                                              {}
func (*List) Write(io.Writer) error                                 { return errNoBooks }
