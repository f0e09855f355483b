package work

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"growtuck/cmd/growtuck/internal/save"
	"growtuck/cmd/growtuck/internal/workbook"
	"growtuck/data/table"
	"growtuck/sizing"
	"growtuck/sizing/plan"
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
			titles, err := titlesOf(p)
			switch {
			case isDraft(titles):
				drafts = append(drafts, p)
			case err == nil && !isChild(titles): // the child's table that a draft names
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

// titlesOf are the titles of the table of a file, those of a draft where a workbook
// has one.
func titlesOf(path string) ([]string, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	head := make([]byte, 4096)
	n, err := io.ReadFull(f, head)
	if err != nil && err != io.EOF && err != io.ErrUnexpectedEOF {
		return nil, err
	}
	if !workbook.Is(head[:n]) {
		return table.TitlesOf(head[:n]), nil
	}
	if is, err := hasDraft(path); !is {
		return nil, err
	}
	return plan.DraftColumns, nil
}

// IsDraft reports whether a table begins as a draft does: with the header of one,
// after comments.
func IsDraft(head []byte) bool { return isDraft(table.TitlesOf(head)) }

func isDraft(titles []string) bool {
	return len(titles) > 0 && strings.EqualFold(titles[0], "field") || has(titles, "field", "part", "value")
}

func isChild(titles []string) bool { return has(titles, "measurement", "value") }

func has(titles []string, wanted ...string) bool {
	return !slices.Contains(table.Columns(titles, wanted), -1)
}

// CheckDraftFile checks the draft of a file; path "-" is stdin. A child's table that
// it names is read from the draft's folder.
func CheckDraftFile(ref *sizing.Reference, path string, stdin io.Reader, known []validate.Exception, decode Decoder) ([]validate.Finding, error) {
	in, name, dir := stdin, "standard input", "."
	if path != "-" {
		f, err := os.Open(path)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		in, name, dir = f, path, filepath.Dir(path)
	}
	return CheckDraft(ref, decode(in), name, validate.Options{Exceptions: known, Open: openChild(dir, decode)})
}

// CorrectDraftFile puts right what was likely typed wrong in the draft of a file. The
// result has the name of the draft with "-corrected" in it; its content is empty
// where nothing was changed.
func CorrectDraftFile(ref *sizing.Reference, path string, known []validate.Exception, decode Decoder) (f save.File, done, left []validate.Finding, err error) {
	if path == "-" {
		return f, nil, nil, errors.New("standard input is no file that a corrected draft can be written beside")
	}
	ext := filepath.Ext(path)
	f.Path = strings.TrimSuffix(path, ext) + "-corrected" + ext
	opts := validate.Options{Exceptions: known, Open: openChild(filepath.Dir(path), decode)}
	in, err := os.Open(path)
	if err != nil {
		return f, nil, nil, err
	}
	defer in.Close()
	if IsWorkbook(path) {
		f.Content, done, left, err = correctWorkbook(ref, in, path, opts)
		return f, done, left, err
	}
	text, err := io.ReadAll(io.LimitReader(decode(in), validate.MaxDraftBytes+1)) // one too long is refused
	if err != nil {
		return f, nil, nil, err
	}
	corrected, done, left, err := validate.Correct(ref, text, path, opts)
	if len(done) > 0 {
		f.Content = corrected
	}
	return f, done, left, err
}

// correctWorkbook puts right the draft of a workbook, leaves the rest of it as it is,
// and checks what came of it.
func correctWorkbook(ref *sizing.Reference, in io.Reader, path string, opts validate.Options) (content []byte, done, left []validate.Finding, err error) {
	w, err := workbook.Open(in, path)
	if err != nil {
		return nil, nil, nil, err
	}
	defer w.Close()
	t, err := w.Draft()
	if err != nil {
		return nil, nil, nil, err
	}
	_, done, left, err = validate.Correct(ref, t.CSV, path, opts)
	if err != nil || len(done) == 0 {
		return nil, nil, t.Findings(left), t.Faults(err)
	}
	if content, err = w.Corrected(t, done); err != nil {
		return nil, nil, nil, err
	}
	left, err = CheckDraft(ref, bytes.NewReader(content), path, opts)
	return content, done, left, err
}

// ReadExceptions reads a file of known findings.
func ReadExceptions(path string, decode Decoder) ([]validate.Exception, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return validate.ReadExceptions(decode(f), path)
}
