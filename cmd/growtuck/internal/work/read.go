package work

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"growtuck/cmd/growtuck/internal/workbook"
	"growtuck/data"
	"growtuck/sizing"
	"growtuck/validate"
)

// peek reports whether what is read is a workbook, by how it begins.
func peek(in io.Reader) (*bufio.Reader, bool) {
	b := bufio.NewReader(in)
	head, _ := b.Peek(4)
	return b, workbook.Is(head)
}

// ReadChild reads a child's table, as CSV or from a workbook.
func ReadChild(ref *sizing.Reference, in io.Reader, name string) (sizing.Child, error) {
	b, is := peek(in)
	if _, err := b.Peek(1); err == io.EOF {
		_, err := ref.ReadChild(b, name)
		return sizing.Child{}, Unusable{Faults: Flatten(err)}
	}
	if !is {
		return ref.ReadChild(b, name)
	}
	w, err := workbook.Open(b, name)
	if err != nil {
		return sizing.Child{}, err
	}
	defer w.Close()
	t, err := w.Child()
	if err != nil {
		return sizing.Child{}, err
	}
	c, err := ref.ReadChild(bytes.NewReader(t.CSV), name)
	for id, place := range c.Where {
		c.Where[id] = t.Where(place)
	}
	return c, t.Faults(err)
}

// CheckDraft checks a draft, as CSV or from a workbook.
func CheckDraft(ref *sizing.Reference, in io.Reader, name string, opts validate.Options) ([]validate.Finding, error) {
	b, is := peek(in)
	if !is {
		return validate.CheckDraft(ref, b, name, opts)
	}
	w, err := workbook.Open(b, name)
	if err != nil {
		return nil, err
	}
	defer w.Close()
	t, err := w.Draft()
	if err != nil {
		return nil, err
	}
	findings, err := validate.CheckDraft(ref, bytes.NewReader(t.CSV), name, opts)
	return t.Findings(findings), t.Faults(err)
}

// openChild opens the child's table that a draft names: a regular file inside the
// draft's folder, whatever links lead to it. A workbook's is given as CSV.
func openChild(dir string, decode Decoder) validate.Opener {
	return func(p string) (io.ReadCloser, error) {
		f, err := openInside(dir, p)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		b, is := peek(decode(f))
		if !is {
			text, err := io.ReadAll(io.LimitReader(b, validate.MaxDraftBytes+1)) // ReadChild refuses what is longer
			return io.NopCloser(bytes.NewReader(text)), err
		}
		w, err := workbook.Open(b, p)
		if err != nil {
			return nil, err
		}
		defer w.Close()
		t, err := w.Child()
		if err != nil {
			return nil, err
		}
		return io.NopCloser(bytes.NewReader(t.CSV)), nil
	}
}

// openInside opens a regular file inside a folder.
func openInside(dir, p string) (*os.File, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, err
	}
	defer root.Close()
	name := filepath.FromSlash(p)
	info, err := root.Stat(name) // first: opening a pipe waits for its other end
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fmt.Errorf("there is no file %.80q in the draft's folder", p)
	case err != nil:
		return nil, fmt.Errorf("%.80q cannot be read inside the draft's folder: %w", p, errors.Unwrap(err))
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("%.80q is not a regular file", p)
	}
	return root.Open(name)
}

// A Decoder gives a file's text in UTF-8, or as it is.
type Decoder func(io.Reader) io.Reader

// IsWorkbook reports whether a path is a workbook's: by its name, for one that is
// not there or is empty must be called so, or by how the file begins.
func IsWorkbook(path string) bool {
	if strings.EqualFold(filepath.Ext(path), ".xlsx") {
		return true
	}
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	_, is := peek(f)
	return is
}

// hasDraft reports whether the workbook at a path has a draft in it.
func hasDraft(path string) (bool, error) {
	f, err := os.Open(path)
	if err != nil {
		return false, err
	}
	defer f.Close()
	w, err := workbook.Open(f, path)
	if err != nil {
		return false, err
	}
	defer w.Close()
	return w.HasDraft(), nil
}

// CheckProposal checks proposed rows of the table of bodies against the tables as
// they are. name is what the file is called in findings.
func CheckProposal(raw []byte, name string, tables *data.Tables) ([]validate.Finding, error) {
	if table := validate.TableOf(raw); table != "" && table != "body.csv" {
		return nil, fmt.Errorf("%s has the columns of %s; rows are proposed for body.csv: put this table into a folder with the others, and check that with --tables", name, table)
	}
	findings, err := validate.CheckRows(bytes.NewReader(raw), name, tables)
	return validate.Gather(findings), err
}

// ReviewProposal reviews proposed rows.
func ReviewProposal(raw []byte, name string, tables *data.Tables) (*validate.Review, error) {
	return validate.ReviewRows(bytes.NewReader(raw), name, tables)
}

// Headless is the error of findings in a table without its header; nil where it
// has one.
func Headless(findings []validate.Finding) error {
	if slices.ContainsFunc(findings, func(f validate.Finding) bool { return f.Rule == "R01" && f.Severity == validate.Stop }) {
		return errors.New("a table without its header cannot be used")
	}
	return nil
}
