package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
)

// garmentFlags say how a garment is to be made.
type garmentFlags struct {
	body       bodyFlags
	fit, layer string
	nappy      bool
	growth     float64
	options    []string
	extra      []string
	why        bool
}

func newGarmentCommand(a *app) *cobra.Command {
	var f garmentFlags
	cmd := &cobra.Command{
		ValidArgsFunction: a.completeGarment,
		Use:               "garment [GARMENT [child.csv]]",
		GroupID:           groupWork,
		Short:             "Finished measurements of a garment",
		Long: `garment works out the finished measurements of a garment: body + ease +
adjustment = finished, part by part. Without a GARMENT it lists them.

The body is the child's, what was not measured estimated; or blended from
--widths and --lengths; or that of a --size. Ease is that of the --fit, and of
the clothes worn underneath (--layer). --growth adds room for seasons of half a
year, --option what the garment can have, --extra what you want more or less of.
--why prints the reasons and the sources under each part.`,
		Example: `  growtuck garment
  growtuck garment one-piece-hooded child.csv --layer winter --growth 1
  growtuck garment pullover --size 5.5 --fit loose --option fold-back-cuffs
  growtuck garment trousers child.csv --extra inside_leg=2 --why`,
		Args: atMostOneChild(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				ref, err := a.reference()
				if err != nil {
					return err
				}
				if n := cmd.Flags().NFlag() - globalFlags(cmd); n > 0 {
					return usagef("no garment given; growtuck garment lists them")
				}
				return a.listGarments(ref)
			}
			return a.garment(args[0], argument(args, 1), f)
		},
	}
	f.body.add(a, cmd)
	f.body.addSize(cmd)
	f.addMaking(cmd)
	cmd.Flags().BoolVar(&f.why, "why", false, "print the reasons and sources under each part")
	return cmd
}

func (a *app) garment(garment, path string, f garmentFlags) error {
	ref, err := a.reference()
	if err != nil {
		return err
	}
	making, err := f.making(ref, garment)
	if err != nil {
		return err
	}
	child, finished, err := a.finish(ref, path, f.body, making)
	if err != nil {
		return err
	}
	return a.print(a.style().Garment(ref, child, finished, f.why))
}

// addMaking adds the flags that say how a garment is made.
func (f *garmentFlags) addMaking(cmd *cobra.Command) {
	flags := cmd.Flags()
	flags.StringVar(&f.fit, "fit", "classic", "how close: "+strings.Join(sizing.Words(sizing.Fits), ", "))
	flags.StringVar(&f.layer, "layer", "skin", "what it is worn over: "+strings.Join(sizing.Words(sizing.Layers), ", "))
	flags.BoolVar(&f.nappy, "nappy", false, "worn over a nappy")
	flags.Float64Var(&f.growth, "growth", 0, "room to grow for so many `seasons` of half a year, 0 to 4")
	flags.StringArrayVar(&f.options, "option", nil, "`name` of something the garment can have; may be repeated")
	flags.StringArrayVar(&f.extra, "extra", nil, "more or less of a part, as `sleeve_length=2` in cm, or 1in; may be repeated")
	complete(cmd, "fit", sizing.Words(sizing.Fits)...)
	complete(cmd, "layer", sizing.Words(sizing.Layers)...)
}

// globalFlags counts the global flags that were used.
func globalFlags(cmd *cobra.Command) int {
	n := 0
	for _, name := range []string{"format", "unit", "tables"} {
		if cmd.Flags().Changed(name) {
			n++
		}
	}
	return n
}

// making turns the flags into what the engine asks for. It refuses a garment
// that there is not.
func (f *garmentFlags) making(ref *sizing.Reference, garment string) (sizing.Spec, error) {
	m := sizing.Spec{Garment: garment, Nappy: f.nappy, Seasons: f.growth, Options: f.options, Extra: make(map[string]float64)}
	var err error
	if m.Fit, err = sizing.ParseFit(f.fit); err != nil {
		return m, err
	}
	if m.Layer, err = sizing.ParseLayer(f.layer); err != nil {
		return m, err
	}
	for _, e := range f.extra {
		part, value, ok := strings.Cut(e, "=")
		if !ok {
			return m, usagef("--extra %q: want a part and a length, as sleeve_length=2", e)
		}
		part = strings.ReplaceAll(strings.TrimSpace(part), "-", "_")
		if _, dup := m.Extra[part]; dup {
			return m, usagef("--extra %s is given twice", part)
		}
		l, err := sizing.ParseLength(strings.TrimPrefix(strings.TrimSpace(value), "+"), "cm")
		if err != nil {
			return m, fmt.Errorf("--extra %s: %w", part, err)
		}
		m.Extra[part] = float64(l)
	}
	_, err = ref.Parts(garment)
	return m, err
}

// finish works out the garment for the child of a file, or "", and of the flags.
func (a *app) finish(ref *sizing.Reference, path string, f bodyFlags, making sizing.Spec) (sizing.Child, *sizing.Finished, error) {
	child, body, err := a.readBody(ref, path, f)
	if err != nil {
		return child, nil, err
	}
	finished, err := ref.Finish(body, making)
	return child, finished, err
}

func (a *app) listGarments(ref *sizing.Reference) error {
	d, err := tell.Garments(ref)
	if err != nil {
		return err
	}
	return a.print(d)
}
