package work

import (
	"bytes"
	"io/fs"
	"path"
	"slices"
	"time"
)

// memory is a folder of files that are not on the disk.
type memory map[string][]byte

// Open opens a file.
func (m memory) Open(name string) (fs.File, error) {
	content, ok := m[name]
	if !ok {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	return memoryFile{bytes.NewReader(content), memoryInfo{name, int64(len(content))}}, nil
}

// Glob finds files by a pattern, in the order of their names.
func (m memory) Glob(pattern string) ([]string, error) {
	var names []string
	for name := range m {
		ok, err := path.Match(pattern, name)
		if err != nil {
			return nil, err
		}
		if ok {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return names, nil
}

type memoryFile struct {
	*bytes.Reader
	info memoryInfo
}

func (f memoryFile) Stat() (fs.FileInfo, error) { return f.info, nil }
func (memoryFile) Close() error                 { return nil }

type memoryInfo struct {
	name string
	size int64
}

func (i memoryInfo) Name() string     { return i.name }
func (i memoryInfo) Size() int64      { return i.size }
func (memoryInfo) Mode() fs.FileMode  { return 0o444 }
func (memoryInfo) ModTime() time.Time { return time.Time{} }
func (memoryInfo) IsDir() bool        { return false }
func (memoryInfo) Sys() any           { return nil }
