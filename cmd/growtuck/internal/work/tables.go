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

	"growtuck/cmd/growtuck/internal/save"
	"growtuck/data"
	"growtuck/data/rules"
	"growtuck/sizing"
	"growtuck/validate"
)

// Tables are the tables in use: those of a folder, or the built-in ones.
type Tables struct{ Folder string }

// files are the tables as files.
func (t Tables) files() fs.FS {
	if t.Folder == "" {
		return data.Embedded()
	}
	return os.DirFS(t.Folder)
}

// Reference returns the tables made ready; those of a folder have passed every
// check.
func (t Tables) Reference() (*sizing.Reference, error) {
	if t.Folder == "" {
		return sizing.Default()
	}
	if info, err := os.Stat(t.Folder); err != nil {
		return nil, err
	} else if !info.IsDir() {
		return nil, Unusable{Faults{fmt.Errorf("%s is not a folder; --tables takes one, with sources.csv, body.csv and so on in it", t.Folder)}}
	}
	tables, err := t.Load()
	if err != nil {
		return nil, err
	}
	ref, err := sizing.New(tables)
	return ref, inFolder(t.Folder, err)
}

// Load reads the tables; those of a folder are checked.
func (t Tables) Load() (*data.Tables, error) {
	tables, err := data.Load(t.files())
	if t.Folder == "" {
		return tables, err
	}
	if err == nil {
		err = tables.Check(rules.Rows(data.Forms()))
	}
	return tables, inFolder(t.Folder, err)
}

// Edition says which edition the tables are.
func (t Tables) Edition() (*data.Edition, error) {
	e, err := data.EditionOf(t.files(), rules.Rows(data.Forms()))
	if t.Folder == "" {
		return e, err
	}
	return e, inFolder(t.Folder, err)
}

// Check checks the tables by the rules for rows; those of a folder also against the
// built-in ones.
func (t Tables) Check() ([]validate.Finding, error) {
	if t.Folder == "" {
		findings, err := validate.CheckTables(data.Embedded(), "", nil)
		return validate.Gather(findings), err
	}
	before, err := data.Load(data.Embedded())
	if err != nil {
		return nil, err
	}
	findings, err := validate.CheckTables(t.files(), filepath.ToSlash(filepath.Clean(t.Folder))+"/", before)
	return validate.Gather(findings), inFolder(t.Folder, err)
}

// Canonical is one table, as it was read from a file, in canonical form. Its rows are
// in the order that the other tables give.
func (t Tables) Canonical(path string, raw []byte) ([]byte, error) {
	name := validate.TableOf(raw)
	if name == "" {
		return nil, fmt.Errorf("%s has the columns of no table", path)
	}
	tables, err := t.around(name, raw)
	if err != nil {
		return nil, err
	}
	canonical, err := validate.Canonical(name, raw, tables)
	return canonical, inFolder(filepath.Dir(path), err)
}

// around returns the tables whose order the rows of a table follow. The table itself
// may be in another form than Load reads.
func (t Tables) around(name string, raw []byte) (*data.Tables, error) {
	if t.Folder == "" {
		return data.Load(data.Embedded())
	}
	loose, err := validate.Canonical(name, raw, new(data.Tables))
	if err != nil {
		return nil, err
	}
	tables, err := data.Load(overlay{t.files(), name, loose})
	return tables, inFolder(t.Folder, err)
}

// An overlay is a folder with one file in it replaced.
type overlay struct {
	fs.FS
	name    string
	content []byte
}

func (o overlay) Open(name string) (fs.File, error) {
	if name != o.name {
		return o.FS.Open(name)
	}
	return replaced{bytes.NewReader(o.content)}, nil
}

type replaced struct{ *bytes.Reader }

func (replaced) Stat() (fs.FileInfo, error) { return nil, errors.New("not on disk") }
func (replaced) Close() error               { return nil }

// BuiltIn are the built-in tables as files of a folder.
func BuiltIn(folder string) ([]save.File, error) {
	entries, err := fs.ReadDir(data.Embedded(), ".")
	if err != nil {
		return nil, err
	}
	var files []save.File
	for _, e := range entries {
		content, err := fs.ReadFile(data.Embedded(), e.Name())
		if err != nil {
			return nil, err
		}
		files = append(files, save.File{Path: filepath.Join(folder, e.Name()), Content: content})
	}
	return files, nil
}

// ReadTable reads a table whole, if it is not too big; path "-" is stdin.
func ReadTable(path string, stdin io.Reader, decode Decoder) ([]byte, error) {
	in := stdin
	if path != "-" {
		f, err := os.Open(path)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		if info, err := f.Stat(); err == nil && info.IsDir() {
			return nil, fmt.Errorf("%s is a folder; growtuck rows --tables %s checks the tables in it", path, path)
		}
		in = f
	}
	raw, err := io.ReadAll(io.LimitReader(decode(in), data.MaxBytes+1))
	if err == nil && len(raw) > data.MaxBytes {
		err = fmt.Errorf("%s is too big: at most %d bytes are read", path, data.MaxBytes)
	}
	return raw, err
}

// inFolder puts the folder before the file name of every fault. Tables that cannot be
// read at all are faults of the folder named.
func inFolder(dir string, err error) error {
	var faults Faults
	unread := false
	for _, e := range Flatten(err) {
		if fault, ok := e.(*data.Error); ok {
			placed := *fault
			placed.File = filepath.Join(dir, fault.File)
			unread = unread || fault.Line == 0
			e = &placed
		}
		faults = append(faults, e)
	}
	switch {
	case len(faults) == 0:
		return nil
	case unread:
		return Unusable{faults}
	}
	return faults
}

// Propose checks the proposed rows of a file against the tables, and reviews them if
// asked to; path "-" is stdin.
func (t Tables) Propose(path string, stdin io.Reader, review bool, decode Decoder) ([]validate.Finding, *validate.Review, error) {
	tables, err := t.Load()
	if err != nil {
		return nil, nil, err
	}
	var raw []byte
	place := func(f []validate.Finding) []validate.Finding { return f }
	if path != "-" && IsWorkbook(path) {
		sheets, _, err := tablesIn(path)
		if err != nil {
			return nil, nil, err
		}
		body := sheets["body.csv"]
		if body == nil || len(sheets) > 1 {
			return nil, nil, Unusable{Faults{fmt.Errorf("%s has rows of other tables than body.csv; --merge checks them together", path)}}
		}
		raw, place = body.CSV, func(f []validate.Finding) []validate.Finding {
			// A sheet has no bytes to be canonical, and its rows find their places when merged.
			f = slices.DeleteFunc(f, func(f validate.Finding) bool { return f.Rule == "R02" || f.Rule == "R08" })
			return body.Findings(f)
		}
	} else if raw, err = ReadTable(path, stdin, decode); err != nil {
		return nil, nil, err
	}
	if path == "-" {
		path = "standard input"
	}
	findings, err := CheckProposal(raw, path, tables)
	findings = place(findings)
	if err != nil || !review {
		return findings, nil, err
	}
	sheet, err := ReviewProposal(raw, path, tables)
	return findings, sheet, err
}
