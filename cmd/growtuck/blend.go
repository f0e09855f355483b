package main

import (
	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/work"
)

func newBlendCommand(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use:     "blend [child.csv]",
		GroupID: groupWork,
		Short:   "A child's measurements, with those not taken filled in",
		Long: `blend fills in the measurements that were not taken on a child.

With --widths and --lengths it takes widths and girths from one size and lengths
from another; the child's own take precedence. Without them it estimates each from
those taken, by how the measurements of surveyed children go together, and gives
the range of about eight of ten US children with the same measurements, of 1975–77
or of 1999–2016. The more is measured, the narrower the range; height and chest, or
height and weight, help most.

The file has the columns measurement,value,unit and a line for each measurement
(growtuck measurements lists them) or for name, sex and age; - reads standard
input. A measurement that hardly any child has is used, and a note says so; one
that the others contradict counts for less, or not at all.`,
		Example: `  growtuck blend child.csv
  growtuck blend child.csv --widths 6 --lengths 10
  growtuck blend --sex f --age 9y3m --set height=141 --set "chest=24 in"`,
		Args: atMostOneChild(0),
	}
	a.ofChild(cmd, ask.BlendFields(), work.Blend)
	return cmd
}
