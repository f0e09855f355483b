package main

import (
	"bufio"
	"os"
	"os/signal"
	"syscall"

	"growtuck/cmd/growtuck/internal/save"
)

// A rejects file takes the lines that are set aside. It gets its name when the
// whole list has been read.
type rejects struct {
	file *save.Pending
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
	f, err := save.Begin(path, replace)
	if err != nil {
		return nil, err
	}
	r := &rejects{f, bufio.NewWriter(f), make(chan os.Signal, 1)}
	signal.Notify(r.pipe, syscall.SIGPIPE)
	return r, nil
}

func (r *rejects) write(lines []byte) error {
	if r == nil || len(lines) == 0 {
		return nil
	}
	_, err := r.out.Write(lines)
	return err
}

// keep finishes the file and gives it its name.
func (r *rejects) keep() error {
	if r == nil {
		return nil
	}
	signal.Stop(r.pipe)
	if err := r.out.Flush(); err != nil {
		r.file.Discard()
		return err
	}
	return r.file.Commit()
}

// drop takes the unfinished file away.
func (r *rejects) drop() {
	if r != nil {
		signal.Stop(r.pipe)
		r.file.Discard()
	}
}
