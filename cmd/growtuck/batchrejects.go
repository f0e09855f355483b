package main

import (
	"bufio"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
)

// A rejects file takes the lines that are set aside. It is written under
// another name beside its own, and gets that when the whole list has been read.
type rejects struct {
	path string
	file *os.File
	out  *bufio.Writer
}

// openRejects begins a file; an empty path is none. It refuses to write over a
// file unless told to.
func openRejects(path string, replace bool) (*rejects, error) {
	if path == "" {
		return nil, nil
	}
	if !replace {
		if _, err := os.Lstat(path); err == nil {
			return nil, existsError(path)
		} else if !errors.Is(err, fs.ErrNotExist) {
			return nil, err
		}
	}
	f, err := os.CreateTemp(filepath.Dir(path), ".growtuck-*")
	if err != nil {
		return nil, err
	}
	return &rejects{path, f, bufio.NewWriter(f)}, nil
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
	err := errors.Join(r.out.Flush(), r.file.Chmod(0o644), r.file.Sync(), r.file.Close())
	if err == nil {
		err = os.Rename(r.file.Name(), r.path)
	}
	if err != nil {
		return errors.Join(err, os.Remove(r.file.Name()))
	}
	return nil
}

// drop takes the unfinished file away.
func (r *rejects) drop() {
	if r != nil {
		r.file.Close()
		os.Remove(r.file.Name())
	}
}
