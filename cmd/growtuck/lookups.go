package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
)

// A lookUp is a command that prints what the tables or the program know, and asks
// for nothing.
type lookUp struct {
	name, short, long, example string
	document                   func(*app) (tell.Document, error)
}

var lookUps = []lookUp{
	{"charts", "The charts, their sizes and what to know about them",
		`charts lists the size charts: the scale of their sizes (months or years of age,
height in cm, or names only), the first and the last size, and for whom they are.`,
		`  growtuck charts
  growtuck charts --format json`,
		ofTables(tell.Charts)},
	{"measurements", "The measurements, their ids, and how to take them",
		`measurements lists the body measurements by the ids that files and flags use, with
how each is taken on the child.`,
		`  growtuck measurements
  growtuck measurements --format csv`,
		ofTables(tell.Measurements)},
	{"additions", "Parts to sew on: their kinds, shapes and places",
		`additions lists the parts that plan --add can work on their own and place on a
garment, by the kinds that it takes: ears, a tail, pads, and plain shapes.`,
		`  growtuck additions
  growtuck plan hat --size 6 --craft crochet --gauge 16x18/10cm --add ear=6cm`,
		ofTables(tell.Additions)},
	{"sources", "Where the figures come from, with credit lines",
		`sources lists where the figures come from, by the ids that the other commands
print: the document, its edition, the rights in it, and the credit line.`,
		`  growtuck sources
  growtuck sources --format markdown`,
		ofTables(tell.Sources)},
	{"rules", "The rules for drafts and for tables",
		`rules lists every rule with its code, which never changes its meaning, and the
highest severity that it reports: stop (do not start), warn (likely to
disappoint) or note (worth knowing).`,
		`  growtuck rules
  growtuck rules --format markdown`,
		func(*app) (tell.Document, error) { return tell.Rules(), nil }},
}

// ofTables makes a document of the tables in use.
func ofTables(of func(*sizing.Reference) tell.Document) func(*app) (tell.Document, error) {
	return func(a *app) (tell.Document, error) {
		ref, err := a.reference()
		if err != nil {
			return tell.Document{}, err
		}
		return of(ref), nil
	}
}

func (l lookUp) command(a *app) *cobra.Command {
	return &cobra.Command{
		Use: l.name, GroupID: groupLookUp, Short: l.short, Long: l.long, Example: l.example,
		Args: noArguments,
		RunE: func(*cobra.Command, []string) error { return a.printed(l.document(a)) },
	}
}

func noArguments(cmd *cobra.Command, args []string) error {
	if len(args) > 0 {
		return fmt.Errorf("%s takes no arguments, but got %.80q", cmd.Name(), args[0])
	}
	return nil
}
