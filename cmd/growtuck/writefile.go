package main

import (
	"errors"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/signal"
	"path/filepath"
	"strconv"
	"sync"
	"syscall"
)

// unfinished begins the name of a file that is being written. One that stays
// behind is of a run that was killed, and may be deleted.
const unfinished = ".growtuck-"

// writeFile writes a file whole or not at all. It refuses to write over a file
// unless told to replace it; then a link is followed, and the file it leads to
// keeps its permissions.
func writeFile(path string, content []byte, replace bool) error {
	p, err := beginFile(path, replace, os.Interrupt, syscall.SIGTERM)
	if err != nil {
		return err
	}
	_, err = p.file.Write(content)
	return p.finish(err)
}

// A pending file is written under another name beside its own, which it gets
// when it is whole.
type pending struct {
	path, target string // as asked for, and with links followed
	mode         fs.FileMode
	replace      bool
	file         *os.File
	guard        *guard
}

// beginFile begins a file that is removed where one of the signals ends the
// program before it is finished.
func beginFile(path string, replace bool, signals ...os.Signal) (*pending, error) {
	target, mode, err := whereTo(path, replace)
	if err != nil {
		return nil, err
	}
	g := newGuard(signals)
	f, err := createBeside(target)
	if err != nil {
		g.end()
		return nil, writeError(path, err)
	}
	g.removes(f.Name())
	return &pending{path, target, mode, replace, f, g}, nil
}

// finish gives the file its name or, where writing it failed with err, removes
// it.
func (p *pending) finish(err error) error {
	defer p.guard.end()
	if err == nil && p.mode != 0 {
		err = p.file.Chmod(p.mode)
	}
	if err == nil {
		err = p.file.Sync()
	}
	err = errors.Join(err, p.file.Close())
	if err == nil {
		err = putInPlace(p.file.Name(), p.target, p.replace)
	}
	if err != nil {
		return errors.Join(writeError(p.path, err), removed(p.file.Name()))
	}
	return nil
}

// whereTo returns the file to write, links followed, and its permissions where
// it is there to be replaced, 0 where it is not.
func whereTo(path string, replace bool) (string, fs.FileMode, error) {
	info, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return path, 0, nil
	case err != nil:
		return "", 0, writeError(path, err)
	case info.IsDir():
		return "", 0, usagef("%s is a folder; want the name of a file", path)
	case !replace:
		return "", 0, existsError(path)
	}
	if info.Mode()&fs.ModeSymlink != 0 {
		target, err := filepath.EvalSymlinks(path)
		if err == nil {
			info, err = os.Stat(target)
		}
		if err != nil {
			return "", 0, usagef("%s is a link that leads to no file; delete it, or make what it leads to", path)
		}
		path = target
	}
	if !info.Mode().IsRegular() {
		return "", 0, usagef("%s is no file that can be written over", path)
	}
	return path, info.Mode().Perm(), nil
}

// createBeside creates a file of a new name in the folder of another, readable
// as the user lets new files be, which os.CreateTemp's are not.
func createBeside(path string) (*os.File, error) {
	for range 1000 {
		name := filepath.Join(filepath.Dir(path), unfinished+strconv.FormatUint(rand.Uint64(), 36))
		f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if !errors.Is(err, fs.ErrExist) {
			return f, err
		}
	}
	return nil, fs.ErrExist
}

// putInPlace gives a written file its name. Without replace a file that came to
// be there meanwhile stays: a link is made, where there are links, as only that
// fails for it.
func putInPlace(written, path string, replace bool) error {
	if !replace {
		switch err := os.Link(written, path); {
		case err == nil:
			return removed(written)
		case errors.Is(err, fs.ErrExist):
			return err
		}
	}
	return os.Rename(written, path)
}

// A guard holds back signals that stop the program, until what is being written has been
// removed or is in its place.
type guard struct {
	signals  chan os.Signal
	finished chan struct{}
	ended    sync.WaitGroup
}

func newGuard(signals []os.Signal) *guard {
	g := &guard{signals: make(chan os.Signal, 1), finished: make(chan struct{})}
	for _, s := range signals {
		if !signal.Ignored(s) { // in the background of a shell that is so
			signal.Notify(g.signals, s)
		}
	}
	return g
}

// removes removes the file when the program is told to stop, and stops it.
func (g *guard) removes(name string) {
	g.ended.Go(func() {
		select {
		case s := <-g.signals:
			_ = removed(name)
			stopBy(s)
		case <-g.finished:
		}
	})
}

// end lets signals through again, with one that came meanwhile.
func (g *guard) end() {
	signal.Stop(g.signals)
	close(g.finished)
	g.ended.Wait()
	select {
	case s := <-g.signals:
		stopBy(s)
	default:
	}
}

// stopBy ends the program as the signal would have.
func stopBy(s os.Signal) {
	signal.Reset(s)
	if self, err := os.FindProcess(os.Getpid()); err != nil || self.Signal(s) != nil {
		os.Exit(exitUsage)
	}
	select {} // until it arrives
}

// removed removes a file that may be gone.
func removed(name string) error {
	if err := os.Remove(name); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

// writeError names the file that was asked for, in place of the one beside it.
func writeError(path string, err error) error {
	var at *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &at):
		err = at.Err
	case errors.As(err, &link):
		err = link.Err
	}
	return &fs.PathError{Op: "write", Path: path, Err: err}
}

func existsError(path string) error {
	return usagef("%s is there already; --force writes over it", path)
}

// cannotReadOrWrite reports whether an error is of a file, not of what is in it.
func cannotReadOrWrite(err error) bool {
	var at *fs.PathError
	var link *os.LinkError
	var call *os.SyscallError
	return errors.As(err, &at) || errors.As(err, &link) || errors.As(err, &call)
}
