package main

import (
	"fmt"
	"io"
)

// A resultWriter is where results go. It keeps the first error of writing, as help
// is written by code that does not look at it.
type resultWriter struct {
	to  io.Writer
	err error
}

func (w *resultWriter) Write(p []byte) (int, error) {
	n, err := w.to.Write(p)
	if err == nil {
		return n, nil
	}
	if w.err == nil {
		w.err = fmt.Errorf("standard output: %w", err)
	}
	return n, w.err
}
