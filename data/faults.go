package data

import (
	"errors"
	"strconv"
)

// MaxFaults is how many faults of one file are reported.
const MaxFaults = 100

// Faults gathers what is wrong with a file: the first of it, and how much more.
type Faults struct {
	File string
	errs []error
	more int
}

// Add adds a fault.
func (f *Faults) Add(err error) {
	if len(f.errs) == MaxFaults {
		f.more++
		return
	}
	f.errs = append(f.errs, err)
}

// Len is how many faults there are.
func (f *Faults) Len() int { return len(f.errs) + f.more }

// Err is all that is wrong, joined; nil where nothing is.
func (f *Faults) Err() error {
	if f.more > 0 {
		return errors.Join(append(f.errs, &Error{File: f.File, Msg: "and " + strconv.Itoa(f.more) + " more"})...)
	}
	return errors.Join(f.errs...)
}
