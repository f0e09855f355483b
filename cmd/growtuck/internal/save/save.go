// Package save writes files whole or not at all. A file gets its name when all of
// it is on the disk; until then it is written beside its place, under a name that
// begins with [Prefix]. A run that fails or is told to stop removes it; only one
// that is killed leaves it behind, for [Sweep].
package save

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
)

// Prefix begins the name of a file that is being written. One that stays behind
// may be deleted.
const Prefix = ".growtuck-"

// A File is a file to write.
type File struct {
	Path    string
	Content []byte
}

// All writes files. It writes none of them if one would replace a file, unless told
// to replace, or if one of them cannot be written: they get their names when all of them
// are on the disk. Several files of a folder are written as one, also where the run is
// killed. The folder is created where it does not exist; "" is none.
func All(folder string, files []File, replace bool) error {
	var refused []error
	for _, f := range files {
		if _, _, err := resolve(f.Path, replace); err != nil {
			refused = append(refused, err)
		}
	}
	if len(refused) > 0 {
		return errors.Join(refused...)
	}
	g := newGuard([]os.Signal{os.Interrupt, syscall.SIGTERM})
	defer g.end()
	switch {
	case folder == "":
	case len(files) > 1:
		return inFolder(folder, files, g)
	default:
		if err := os.MkdirAll(folder, 0o755); err != nil {
			return err
		}
	}
	var staged []*Pending
	discard := func(rest []*Pending) {
		for _, p := range rest {
			p.Discard()
		}
	}
	for _, f := range files {
		p, err := begin(f.Path, replace, newFiles, g)
		if err == nil {
			p.shared = true
			staged = append(staged, p)
			_, err = p.Write(f.Content)
		}
		if err == nil {
			err = p.file.Sync()
		}
		if err != nil { // none of them then
			discard(staged)
			return err
		}
	}
	g.hold() // a signal to stop waits until all have their names
	for i, p := range staged {
		if err := p.Commit(); err != nil {
			discard(staged[i+1:])
			return err
		}
	}
	return nil
}

// One writes a file. It refuses to replace a file unless told to; then a link is
// followed, and the file that it points to keeps its permissions.
func One(f File, replace bool) error {
	p, err := Begin(f.Path, replace, os.Interrupt, syscall.SIGTERM)
	if err != nil {
		return err
	}
	_, err = p.file.Write(f.Content)
	return p.finish(err)
}

// A TargetError is a path that no file can be written to as asked.
type TargetError struct{ Path, Reason string }

func (e *TargetError) Error() string { return e.Path + " " + e.Reason }

// Why a path cannot be written to.
const (
	exists     = "already exists; use --force to overwrite"
	isFolder   = "is a folder; want the name of a file"
	brokenLink = "is a link that points to no file; delete it, or create what it points to"
	notRegular = "is not a file that can be overwritten"
)

// resolve returns the file to write, links followed, and its permissions where
// it exists and is to be replaced, 0 where it does not.
func resolve(path string, replace bool) (string, fs.FileMode, error) {
	info, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return path, 0, nil
	case err != nil:
		return "", 0, writeError(path, err)
	case info.IsDir():
		return "", 0, &TargetError{path, isFolder}
	case !replace:
		return "", 0, &TargetError{path, exists}
	}
	target := path
	if info.Mode()&fs.ModeSymlink != 0 {
		if target, err = filepath.EvalSymlinks(path); err == nil {
			info, err = os.Stat(target)
		}
		if err != nil {
			return "", 0, &TargetError{path, brokenLink}
		}
	}
	if !info.Mode().IsRegular() {
		return "", 0, &TargetError{target, notRegular}
	}
	return target, info.Mode().Perm(), nil
}

// writeError names the file that was asked for instead of the temporary one.
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
