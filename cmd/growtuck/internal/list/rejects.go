package list

import (
	"bufio"
	"os"
	"os/signal"
	"syscall"

	"growtuck/cmd/growtuck/internal/save"
)

// A rejectsFile takes the lines that are rejected. It gets its name when the whole
// list has been read. nil takes nothing.
type rejectsFile struct {
	file *save.Pending
	out  *bufio.Writer
	pipe chan os.Signal
}

// createRejects begins the file; an empty path is none. Until it is finished, a
// reader of the output that goes away is an error of writing, not the end of the
// program.
func createRejects(path string, replace bool) (*rejectsFile, error) {
	if path == "" {
		return nil, nil
	}
	f, err := save.BeginPrivate(path, replace) // the batch itself handles signals to stop
	if err != nil {
		return nil, err
	}
	r := &rejectsFile{f, bufio.NewWriter(f), make(chan os.Signal, 1)}
	signal.Notify(r.pipe, syscall.Signal(13)) // SIGPIPE, which not every system names
	return r, nil
}

func (r *rejectsFile) write(lines []byte) error {
	if r == nil || len(lines) == 0 {
		return nil
	}
	_, err := r.out.Write(lines)
	return err
}

// commit finishes the file and gives it its name.
func (r *rejectsFile) commit() error {
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

// discard removes the unfinished file.
func (r *rejectsFile) discard() {
	if r != nil {
		signal.Stop(r.pipe)
		r.file.Discard()
	}
}
