package work

import (
	"errors"

	"growtuck/sizing"
)

// Faults are several errors, each on its own line.
type Faults []error

func (f Faults) Error() string { return errors.Join(f...).Error() }

// Unwrap returns each fault.
func (f Faults) Unwrap() []error { return f }

// Unusable are the faults of input that cannot be used at all: a file that is not a
// table, a draft that cannot be read. Input that is read and found wrong is not.
type Unusable struct{ Faults }

// inDoubt adds to an error the doubts about the body that it came of.
func inDoubt(b *sizing.Body, err error) error {
	if err == nil || len(b.Questions) == 0 {
		return err
	}
	return &sizing.DoubtError{Doubts: b.Questions, Err: err}
}

// Flatten splits joined errors. An error that says more than those it wraps is
// left whole.
func Flatten(err error) []error {
	joined, ok := err.(interface{ Unwrap() []error })
	switch {
	case err == nil:
		return nil
	case !ok || err.Error() != errors.Join(joined.Unwrap()...).Error():
		return []error{err}
	}
	var all []error
	for _, e := range joined.Unwrap() {
		all = append(all, Flatten(e)...)
	}
	return all
}
