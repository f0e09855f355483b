package main

import (
	"fmt"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"growtuck/sizing"
)

// childFlags are the flags that say what is known of a child beside its file.
type childFlags struct {
	sex, age string
	set      []string
}

func (f *childFlags) add(cmd *cobra.Command) {
	cmd.Flags().StringVar(&f.sex, "sex", "", "m, f or both; before what the file says")
	cmd.Flags().StringVar(&f.age, "age", "", "age as 4.5, 4y6m or 30m; before what the file says")
	cmd.Flags().StringArrayVar(&f.set, "set", nil, "a measurement of the child, as `chest=53cm`; may be repeated")
	complete(cmd, "sex", "m", "f", "both")
}

// none reports that no flag was used.
func (f *childFlags) none() bool { return f.sex == "" && f.age == "" && len(f.set) == 0 }

// readChild reads the child from a file, "-" for standard input, or "" for no
// file, and then from the flags.
func (a *app) readChild(ref *sizing.Reference, path string, f childFlags) (sizing.Child, error) {
	c := sizing.Child{Sex: sizing.Both, Own: make(map[string]float64)}
	if path != "" {
		var err error
		if c, err = a.readChildFile(ref, path); err != nil {
			return c, err
		}
	}
	given := f.set
	if f.sex != "" {
		given = append(given, "sex="+f.sex)
	}
	if f.age != "" {
		given = append(given, "age="+f.age)
	}
	for _, s := range given {
		id, value, ok := strings.Cut(s, "=")
		if !ok {
			return c, usagef("--set %q: want a measurement and its value, as chest=53cm", s)
		}
		id = strings.ReplaceAll(strings.TrimSpace(id), "-", "_")
		if err := ref.Set(&c, id, strings.TrimSpace(value), ""); err != nil {
			return c, fmt.Errorf("%s: %w", s, err)
		}
	}
	return c, nil
}

func (a *app) readChildFile(ref *sizing.Reference, path string) (sizing.Child, error) {
	if path == "-" {
		return readChildFrom(ref, a.stdin, "standard input")
	}
	f, err := os.Open(path)
	if err != nil {
		return sizing.Child{}, err
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return sizing.Child{}, usagef("%s is a folder; want the file of a child", path)
	}
	return readChildFrom(ref, f, path)
}

// atMostOneChild is the argument check of commands that take a child's file
// after before other arguments, or none.
func atMostOneChild(before int) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) > before+1 {
			return fmt.Errorf("one child at a time; %q is too much", args[before+1])
		}
		return nil
	}
}
