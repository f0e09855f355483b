package main

import (
	"bufio"
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/workbook"
	"growtuck/sizing"
	"growtuck/validate"
)

// peek reports whether what is read is a workbook, by how it begins.
func peek(in io.Reader) (*bufio.Reader, bool) {
	b := bufio.NewReader(in)
	head, _ := b.Peek(4)
	return b, workbook.Is(head)
}

// readChildFrom reads a child's table, as CSV or from a workbook.
func readChildFrom(ref *sizing.Reference, in io.Reader, name string) (sizing.Child, error) {
	b, is := peek(in)
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
	return c, t.Faults(err)
}

// checkDraftFrom checks a draft, as CSV or from a workbook.
func checkDraftFrom(ref *sizing.Reference, in io.Reader, name string, opts validate.Options) ([]validate.Finding, error) {
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

// openChild opens the child's table that a draft names; a workbook's is given
// as CSV.
func openChild(dir string) validate.Opener {
	return func(p string) (io.ReadCloser, error) {
		path := filepath.Join(dir, filepath.FromSlash(p))
		f, err := os.Open(path)
		if err != nil {
			return nil, err
		}
		b, is := peek(f)
		if !is {
			return struct {
				io.Reader
				io.Closer
			}{b, f}, nil
		}
		defer f.Close()
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

// isWorkbook reports whether a path is a workbook's: by its name, for one that is
// not there or is empty must be called so, or by how the file begins.
func isWorkbook(path string) bool {
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

// planSource says what to plan and for whom: as the arguments say, or as the
// workbook of a plan does that stands in place of the garment.
func (a *app) planSource(cmd *cobra.Command, args []string, f *planFlags) (garment, path string, err error) {
	if !isWorkbook(args[0]) {
		return args[0], argument(args, 1), nil
	}
	if len(args) > 1 {
		return "", "", usagef("%s says for whom it is; fill the sheet Child in, and leave %q out", args[0], args[1])
	}
	for _, name := range []string{"fit", "layer", "nappy", "growth", "option", "extra", "gauge", "before-washing", "craft", "rib", "rib-share", "multiple", "yoke", "hood", "closure",
		"turned", "stretch", "zippers", "yarn", "swatch", "margin", "knits-to", "size", "widths", "lengths", "set", "sex", "age", "chart", "linear"} {
		if fl := cmd.Flags().Lookup(name); fl != nil && fl.Changed {
			return "", "", usagef("%s says how it is made; change it there, and leave --%s out", args[0], name)
		}
	}
	in, err := os.Open(args[0])
	if err != nil {
		return "", "", err
	}
	defer in.Close()
	w, err := workbook.Open(in, args[0])
	if err != nil {
		return "", "", err
	}
	defer w.Close()
	settings, err := w.Settings()
	if err != nil {
		return "", "", err
	}
	ref, err := a.reference()
	if err != nil {
		return "", "", err
	}
	read := *f
	if garment, err = read.fromSettings(ref, w, settings); err != nil {
		return "", "", err
	}
	if !cmd.Flags().Changed("sizes") && settings["sizes"] != "" && cmd.Name() == "export" {
		read.sizes = splitList(settings["sizes"])
	} else {
		read.sizes = f.sizes
	}
	*f = read
	// Ease of one's own is the fit's and so much extra.
	if err := f.ownEase(a, ref, w, settings, garment, args[0]); err != nil {
		return "", "", err
	}
	return garment, args[0], nil
}
