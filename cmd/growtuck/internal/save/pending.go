package save

import (
	"errors"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
)

// A Pending file is being written, under a name beside its own, which it gets
// when it is committed.
type Pending struct {
	path, target string // as asked for, and with links followed
	mode         fs.FileMode
	replace      bool
	file         *os.File
	guard        *guard
	shared       bool // the guard is that of a set of files
}

// Begin begins a file. It is removed where one of the signals ends the program
// before it is committed or discarded.
func Begin(path string, replace bool, signals ...os.Signal) (*Pending, error) {
	return alone(path, replace, newFiles, signals)
}

// BeginPrivate begins a file that its user alone may read, if it is a new one.
func BeginPrivate(path string, replace bool, signals ...os.Signal) (*Pending, error) {
	return alone(path, replace, private, signals)
}

func alone(path string, replace bool, perm fs.FileMode, signals []os.Signal) (*Pending, error) {
	g := newGuard(signals)
	p, err := begin(path, replace, perm, g)
	if err != nil {
		g.end()
	}
	return p, err
}

// The permissions of new files: as the user lets new files be, or the user's alone.
const (
	newFiles fs.FileMode = 0o666
	private  fs.FileMode = 0o600
)

func begin(path string, replace bool, perm fs.FileMode, g *guard) (*Pending, error) {
	target, mode, err := resolve(path, replace)
	if err != nil {
		return nil, err
	}
	if mode != 0 {
		perm = mode & private // what is replaced is not read by others meanwhile
	}
	f, err := g.create(func() (*os.File, error) { return createBeside(target, perm) })
	if err != nil {
		return nil, writeError(path, err)
	}
	return &Pending{path: path, target: target, mode: mode, replace: replace, file: f, guard: g}, nil
}

// Write adds to the file.
func (p *Pending) Write(b []byte) (int, error) {
	n, err := p.file.Write(b)
	if err != nil {
		err = writeError(p.path, err)
	}
	return n, err
}

// Commit gives the file its name.
func (p *Pending) Commit() error { return p.finish(nil) }

// Discard removes the file instead.
func (p *Pending) Discard() { _ = p.finish(errDiscarded) }

var errDiscarded = errors.New("discarded")

// finish gives the file its name or, where writing it failed with err, removes
// it.
func (p *Pending) finish(err error) error {
	if !p.shared {
		defer p.guard.end()
	}
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
		return errors.Join(writeError(p.path, err), remove(p.file.Name()))
	}
	return nil
}

// createBeside creates a file of a new name in the folder of another, and marks it as
// being written.
func createBeside(path string, perm fs.FileMode) (*os.File, error) {
	for range 1000 {
		name := temporaryName(path, "")
		f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, perm|0o200)
		switch {
		case errors.Is(err, fs.ErrExist):
			continue
		case err != nil:
			return nil, err
		}
		hold(f)
		if there, err := os.Stat(name); err == nil {
			if own, err := f.Stat(); err == nil && os.SameFile(there, own) {
				return f, nil
			}
		}
		_ = f.Close() // another run took it for a leftover before it was marked
	}
	return nil, fs.ErrExist
}

// temporaryName is a name beside a file or folder for what takes its place.
func temporaryName(path, kind string) string {
	return filepath.Join(filepath.Dir(filepath.Clean(path)), Prefix+kind+strconv.FormatUint(rand.Uint64(), 36))
}

// putInPlace gives a written file its name. Without replace, a file that was
// created there meanwhile stays: a link is made, where there are links, as only
// that fails for it.
func putInPlace(written, path string, replace bool) error {
	if !replace {
		switch err := os.Link(written, path); {
		case err == nil:
			return remove(written)
		case errors.Is(err, fs.ErrExist):
			return err
		}
	}
	return os.Rename(written, path)
}

// remove removes a file that may be gone.
func remove(name string) error {
	if err := os.Remove(name); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}
