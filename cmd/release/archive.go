package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/gzip"
	"io"
	"io/fs"
	"slices"
	"strings"
	"time"
)

// made is the date of every file: the same source gives the same archive.
var made = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

func (f file) mode() int64 {
	if f.runs {
		return 0o755
	}
	return 0o644
}

func sorted(files []file) []file {
	slices.SortFunc(files, func(a, b file) int { return strings.Compare(a.name, b.name) })
	return files
}

func tarGz(files []file) ([]byte, error) {
	var out bytes.Buffer
	z, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	w := tar.NewWriter(z)
	for _, f := range sorted(files) {
		if err := w.WriteHeader(&tar.Header{Name: f.name, Mode: f.mode(), Size: int64(len(f.content)), ModTime: made, Format: tar.FormatUSTAR}); err != nil {
			return nil, err
		}
		if _, err := w.Write(f.content); err != nil {
			return nil, err
		}
	}
	for _, c := range []io.Closer{w, z} {
		if err := c.Close(); err != nil {
			return nil, err
		}
	}
	return out.Bytes(), nil
}

func zipped(files []file) ([]byte, error) {
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, f := range sorted(files) {
		h := &zip.FileHeader{Name: f.name, Method: zip.Deflate, Modified: made}
		h.SetMode(fs.FileMode(f.mode()))
		entry, err := w.CreateHeader(h)
		if err != nil {
			return nil, err
		}
		if _, err := entry.Write(f.content); err != nil {
			return nil, err
		}
	}
	err := w.Close()
	return out.Bytes(), err
}
