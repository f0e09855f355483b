package main

import (
	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
)

func newGarmentCommand(a *app) *cobra.Command {
	cmd := &cobra.Command{
		ValidArgsFunction: a.completeGarment,
		Use:               "garment [GARMENT [child.csv]]",
		GroupID:           groupWork,
		Short:             "Finished measurements of a garment",
		Long: `garment works out the finished measurements of a garment: body + ease +
adjustment = finished, part by part. Without a GARMENT it lists them.

The body is the child's, with what was not measured estimated; or blended from
--widths and --lengths; or that of a --size. Ease is that of the --fit, and of
the clothes worn underneath (--layer). --growth adds room for seasons of half a
year, --option a choice that the garment offers, --extra a longer or shorter part.
--why prints the reasons and the sources under each part.`,
		Example: `  growtuck garment
  growtuck garment cardigan child.csv --layer indoor --growth 1
  growtuck garment pullover --size 5.5 --fit loose --option fold-back-cuffs
  growtuck garment trousers child.csv --nappy --extra inside_leg=2 --why`,
		Args: atMostOneChild(1),
	}
	q := a.asks(cmd, ask.GarmentFields())
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		ref, err := a.reference()
		switch {
		case err != nil:
			return err
		case len(args) == 0 && len(q.values) > 0:
			return noGarment()
		case len(args) == 0:
			return a.printed(tell.Garments(ref))
		}
		r, err := a.readGarment(ref, q, args[0], argument(args, 1))
		if err != nil {
			return err
		}
		return a.printed(work.Garment(ref, r, a.style()))
	}
	return cmd
}
