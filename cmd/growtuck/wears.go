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
	cmd := &cobra.Command{
		Use:     "wears GARMENT|draft.csv [child.csv...]",
		GroupID: groupWork,
		Short:   "From when until when a garment fits, and who can wear it next",
		Long: `wears shows from when until when a garment fits a child, part by part, and what is too
small first. The garment is a draft; or its finished measurements, given with
--finished; or else it is made for the child as asked for, with its growth room. For
several children it shows who can wear it next. With --sizes it shows which ages of a
usual child each size covers.`,
		Example: `  growtuck wears cardigan child.csv --growth 2
  growtuck wears draft.csv child.csv
  growtuck wears pullover a.csv b.csv c.csv --finished chest=72,sleeve_length=33cm
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
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		ref, err := a.reference()
		if err != nil {
			return err
		}
		d, err := a.wears(ref, q, args, finished)
		return a.printed(d, err)
	}
	return cmd
}

func (a *app) wears(ref *sizing.Reference, q *question, args, finished []string) (tell.Document, error) {
	sizes, err := finishedSizes(finished)
	if err != nil {
		return tell.Document{}, err
	}
	garment, draft := args[0], strings.EqualFold(filepath.Ext(args[0]), ".csv") || strings.EqualFold(filepath.Ext(args[0]), ".xlsx")
	var wearers []work.Wearer
	var made sizing.Spec
	if draft {
		f, err := os.Open(garment)
		if err != nil {
			return tell.Document{}, err
		}
		defer f.Close()
		d, err := work.ReadMade(ref, f, garment, filepath.Dir(garment), a.decoder())
		if err != nil {
			return tell.Document{}, err
		}
		made, garment, sizes = d.Spec, d.Garment.ID, d.Finished()
		if len(args) == 1 {
			wearers = append(wearers, work.Wearer{Name: d.Child.Name, Child: d.Child, Body: d.Body})
		}
	}
	paths := args[1:]
	if len(paths) == 0 && len(wearers) == 0 {
		paths = []string{""}
	}
	var r *ask.Request
	for _, path := range paths {
		if r, err = a.readGarment(ref, q, garment, path); err != nil {
			return tell.Document{}, err
		}
		if len(r.Run) > 0 {
			return work.WearsSizes(ref, r, a.style())
		}
		b, err := work.Body(ref, r)
		if err != nil {
			return tell.Document{}, err
		}
		name := r.Child.Name
		if name == "" {
			name = filepath.Base(path)
		}
		wearers = append(wearers, work.Wearer{Name: name, Child: r.Child, Body: b})
	}
	if r == nil {
		r = new(ask.Request)
	}
	if draft {
		r.Spec = made
	}
	return work.Wears(ref, r, sizes, wearers, a.style())
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
