package main

import (
	"bufio"
	"errors"
	"os"
	"os/signal"
	"syscall"
)

// A rejects file takes the lines that are set aside. It gets its name when the
// whole list has been read.
type rejects struct {
	file *pending
	out  *bufio.Writer
	pipe chan os.Signal
}

// openRejects begins a file; an empty path is none. It refuses to write over a
// file unless told to. The batch itself minds the signals to stop. Until the file
// is finished a reader of the output that goes away is an error of writing, not
// the end of the program.
func openRejects(path string, replace bool) (*rejects, error) {
	if path == "" {
		return nil, nil
	}
	f, err := beginFile(path, replace)
	if err != nil {
		return nil, err
	}
	r := &rejects{f, bufio.NewWriter(f.file), make(chan os.Signal, 1)}
	signal.Notify(r.pipe, syscall.SIGPIPE)
	return r, nil
}

func (r *rejects) write(lines []byte) error {
	if r == nil || len(lines) == 0 {
		return nil
	}
	if _, err := r.out.Write(lines); err != nil {
		return writeError(r.file.path, err)
	}
	return nil
}

// keep finishes the file and gives it its name.
func (r *rejects) keep() error {
	if r == nil {
		return nil
	}
	signal.Stop(r.pipe)
	return r.file.finish(r.out.Flush())
}

var errDropped = errors.New("not finished")

// drop takes the unfinished file away.
func (r *rejects) drop() {
	if r != nil {
		signal.Stop(r.pipe)
		_ = r.file.finish(errDropped)
	}
}
