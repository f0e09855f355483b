package work

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"growtuck/cmd/growtuck/internal/save"
	"growtuck/cmd/growtuck/internal/workbook"
	"growtuck/sizing"
	"growtuck/validate"
)

// Drafts finds the drafts that the paths name. In a folder every CSV file is one
// whose header begins like a draft's, with any separator, and every
// workbook that has the table of a draft; the other files of these kinds are passed.
func Drafts(paths []string) (drafts, passed []string, faults Faults) {
	for _, path := range paths {
		info, err := os.Stat(path)
		switch {
		case path == "-":
			drafts = append(drafts, path)
			continue
		case err != nil:
			faults = append(faults, err)
			continue
		case !info.IsDir():
			drafts = append(drafts, path)
			continue
		}
		before := len(drafts)
		err = filepath.WalkDir(path, func(p string, d fs.DirEntry, err error) error {
			if err != nil || !d.Type().IsRegular() || !slices.Contains([]string{".csv", ".xlsx"}, strings.ToLower(filepath.Ext(p))) {
				return err
			}
			isDraft, err := hasDraftHeader(p)
			if isDraft {
				drafts = append(drafts, p)
			} else if err == nil {
				passed = append(passed, p)
			}
			return err
		})
		if err != nil {
			faults = append(faults, err)
		} else if len(drafts) == before {
			faults = append(faults, fmt.Errorf("%s has no draft in it", path))
		}
	}
	return drafts, passed, faults
}

func hasDraftHeader(path string) (bool, error) {
	f, err := os.Open(path)
	if err != nil {
		return false, err
	}
	defer f.Close()
	head := make([]byte, 4096)
	n, err := io.ReadFull(f, head)
	if err != nil && err != io.EOF && err != io.ErrUnexpectedEOF {
		return false, err
	}
	if workbook.Is(head[:n]) {
		return hasDraft(path)
	}
	return IsDraft(head[:n]), nil
}

// IsDraft reports whether a table begins as a draft does: with the header of one,
// after comments.
func IsDraft(head []byte) bool {
	for line := range bytes.Lines(bytes.TrimPrefix(head, []byte("\ufeff"))) {
		if line = bytes.TrimSpace(line); len(line) > 0 && line[0] != '#' {
			return bytes.HasPrefix(bytes.TrimLeft(line, `"`), []byte("field"))
		}
	}
	return false
}

// CheckDraftFile checks the draft of a file; path "-" is stdin. A child's table that
// it names is read from the draft's folder.
func CheckDraftFile(ref *sizing.Reference, path string, stdin io.Reader, known []validate.Exception) ([]validate.Finding, error) {
	in, name, dir := stdin, "standard input", "."
	if path != "-" {
		f, err := os.Open(path)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		in, name, dir = f, path, filepath.Dir(path)
	}
	return CheckDraft(ref, in, name, validate.Options{Exceptions: known, Open: openChild(dir)})
}

// CorrectDraftFile puts right what was likely typed wrong in the draft of a file. The
// result has the name of the draft with "-corrected" in it; its content is empty
// where nothing was changed.
func CorrectDraftFile(ref *sizing.Reference, path string, known []validate.Exception) (f save.File, done, left []validate.Finding, err error) {
	if path == "-" || IsWorkbook(path) {
		return f, nil, nil, fmt.Errorf("%s is not a file of CSV: its corrected draft cannot be written beside it", path)
	}
	in, err := os.Open(path)
	if err != nil {
		return f, nil, nil, err
	}
	defer in.Close()
	text, err := io.ReadAll(io.LimitReader(in, validate.MaxDraftBytes+1)) // one too long is refused
	if err != nil {
		return f, nil, nil, err
	}
	ext := filepath.Ext(path)
	f.Path = strings.TrimSuffix(path, ext) + "-corrected" + ext
	corrected, done, left, err := validate.Correct(ref, text, path, validate.Options{Exceptions: known, Open: openChild(filepath.Dir(path))})
	if len(done) > 0 {
		f.Content = corrected
	}
	return f, done, left, err
}

// ReadExceptions reads a file of known findings.
func ReadExceptions(path string) ([]validate.Exception, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return validate.ReadExceptions(f, path)
}
