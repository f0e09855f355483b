package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// writeFile writes a file whole or not at all: under another name beside it,
// then renamed. It refuses to write over a file unless told to replace it.
func writeFile(path string, content []byte, replace bool) error {
	if !replace {
		if _, err := os.Lstat(path); err == nil {
			return existsError(path)
		} else if !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	f, err := os.CreateTemp(filepath.Dir(path), ".growtuck-*")
	if err != nil {
		return err
	}
	err = errors.Join(fill(f, content), f.Close())
	if err == nil {
		err = os.Rename(f.Name(), path)
	}
	if err != nil {
		return errors.Join(err, os.Remove(f.Name()))
	}
	return nil
}

func fill(f *os.File, content []byte) error {
	if _, err := f.Write(content); err != nil {
		return err
	}
	if err := f.Chmod(0o644); err != nil {
		return err
	}
	return f.Sync()
}

func existsError(path string) error {
	return fmt.Errorf("%s is there already; --force writes over it", path)
}
