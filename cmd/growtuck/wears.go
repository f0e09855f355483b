package main

import (
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/sizing"
)

func newWearsCommand(a *app) *cobra.Command {
	var finished []string
	var listed string
	cmd := &cobra.Command{
		Use:     "wears GARMENT|draft.csv [child.csv...]",
		GroupID: groupWork,
		Short:   "From when until when a garment fits, and who can wear it next",
		Long: `wears shows from when until when a garment fits a child, part by part, and what is too
small first. The garment is a draft; or its finished measurements, given with
--finished; or else it is made for the child as asked for, with its growth room. For
several children, in files or in a list with a line for each, it shows who can wear it
next. With --sizes it shows which ages of a usual child each size covers.`,
		Example: `  growtuck wears cardigan child.csv --growth 2
  growtuck wears draft.csv child.csv
  growtuck wears pullover a.csv b.csv c.csv --finished chest=72,sleeve_length=33cm
  growtuck wears draft.csv --list children.csv
  growtuck wears cardigan --sizes 2,4,6,8`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return noGarment()
			}
			return nil
		},
		ValidArgsFunction: a.completeGarment,
	}
	q := a.asks(cmd, ask.WearsFields())
	cmd.Flags().StringSliceVar(&finished, "finished", nil, "finished measurements of the garment, by part: `chest=72`,sleeve_length=33cm")
	cmd.Flags().StringVar(&listed, "list", "", "`file` of a list of children, a line each, as growtuck batch takes it")
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		ref, err := a.reference()
		if err != nil {
			return err
		}
		d, rejected, err := a.wears(ref, q, args, finished, listed)
		if err = a.printed(d, err); err != nil {
			return err
		}
		return rejectedError(rejected, "")
	}
	return cmd
}

func (a *app) wears(ref *sizing.Reference, q *question, args, finished []string, listed string) (d tell.Document, rejected int, err error) {
	sizes, err := finishedSizes(finished)
	if err != nil {
		return d, 0, err
	}
	garment, draft := args[0], strings.EqualFold(filepath.Ext(args[0]), ".csv") || strings.EqualFold(filepath.Ext(args[0]), ".xlsx")
	var wearers []work.Wearer
	var made sizing.Spec
	if draft {
		f, err := os.Open(garment)
		if err != nil {
			return d, 0, err
		}
		defer f.Close()
		m, err := work.ReadMade(ref, f, garment, filepath.Dir(garment), a.decoder())
		if err != nil {
			return d, 0, err
		}
		made, garment, sizes = m.Spec, m.Garment.ID, m.Finished()
		if len(args) == 1 && listed == "" {
			wearers = append(wearers, work.Wearer{Name: m.Child.Name, Child: m.Child, Body: m.Body})
		}
	}
	paths := args[1:]
	if len(paths) == 0 && len(wearers) == 0 {
		paths = []string{""}
	}
	r := new(ask.Request)
	for _, path := range paths {
		if r, err = a.readGarment(ref, q, garment, path); err != nil {
			return d, 0, err
		}
		if len(r.Run) > 0 {
			d, err = work.WearsSizes(ref, r, a.style())
			return d, 0, err
		}
		if path == "" && listed != "" {
			continue
		}
		b, err := work.Body(ref, r)
		if err != nil {
			return d, 0, err
		}
		name := r.Child.Name
		if name == "" {
			name = filepath.Base(path)
		}
		wearers = append(wearers, work.Wearer{Name: name, Child: r.Child, Body: b})
	}
	if draft {
		r.Spec = made
	}
	if listed != "" {
		of, n, err := a.listedWearers(ref, r, listed)
		if err != nil {
			return d, 0, err
		}
		wearers, rejected = append(wearers, of...), n
	}
	d, err = work.Wears(ref, r, sizes, wearers, a.style())
	return d, rejected, err
}

// listedWearers reads the children of a list. Those who cannot be forecast are named on
// standard error, and counted.
func (a *app) listedWearers(ref *sizing.Reference, r *ask.Request, path string) (wearers []work.Wearer, rejected int, err error) {
	list := *r
	list.List.Header, list.List.Unit = true, "cm"
	in, closeList, err := a.openList(ref, &list, path, nil)
	if err != nil {
		return nil, 0, err
	}
	defer closeList()
	to, done := a.listener(in, false)
	defer done()
	wearers, wrong, err := work.ListedWearers(ref, r, in)
	to.Rejected(wrong)
	return wearers, len(wrong), err
}

// finishedSizes reads finished measurements by part; nil where none is given.
func finishedSizes(pairs []string) (map[string]float64, error) {
	var sizes map[string]float64
	for _, p := range pairs {
		part, value, ok := strings.Cut(p, "=")
		l, err := sizing.ParseLength(value, "cm")
		switch {
		case !ok:
			return nil, usagef("--finished %q: want a part and a length, such as chest=72", p)
		case err != nil:
			return nil, usagef("--finished %s: %v", p, err)
		case l <= 0:
			return nil, usagef("--finished %s: must be greater than 0", p)
		case sizes == nil:
			sizes = make(map[string]float64)
		}
		sizes[strings.ReplaceAll(strings.TrimSpace(part), "-", "_")] = float64(l)
	}
	return sizes, nil
}
