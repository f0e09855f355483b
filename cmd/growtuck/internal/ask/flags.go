package ask

import (
	"strings"

	"github.com/spf13/cobra"

	"growtuck/sizing"
)

// AddFlags adds a flag for each field to a command. What is said with them is
// added to the values that are returned. reference reads the tables that some
// fields are completed from.
func AddFlags(cmd *cobra.Command, fields []Field, reference func() (*sizing.Reference, error)) Values {
	values := make(Values)
	for _, f := range fields {
		if f.Argument {
			continue
		}
		v := &flagValue{field: f, values: values}
		help := f.Help
		if f.Listed != "" {
			help += "; growtuck " + strings.Replace(f.Listed, "garments", "garment", 1) + " lists them"
		}
		flag := cmd.Flags().VarPF(v, f.Name, "", help)
		if f.Kind == YesNo {
			flag.NoOptDefVal = "true"
		}
		if len(f.Choices) > 0 || f.Known != nil {
			offer := func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
				return f.offers(reference), cobra.ShellCompDirectiveNoFileComp
			}
			if err := cmd.RegisterFlagCompletionFunc(f.Name, offer); err != nil {
				panic(err) // cannot fail: the flag was added above
			}
		}
	}
	return values
}

// offers are what a shell completes a field by; nothing where the tables cannot be
// read.
func (f Field) offers(reference func() (*sizing.Reference, error)) []string {
	if f.Known == nil {
		return f.Choices
	}
	ref, err := reference()
	if err != nil {
		return nil
	}
	return f.Known(ref)
}

// A flagValue is a field as a flag: it keeps what is said, to be read with the rest.
type flagValue struct {
	field  Field
	values Values
}

func (v *flagValue) String() string {
	if said := v.values[v.field.Name]; len(said) > 0 {
		return strings.Join(said, ",")
	}
	return v.field.Usual
}

func (v *flagValue) Set(s string) error {
	if said := v.values[v.field.Name]; len(said) > 0 && !v.field.Many && v.field.Kind != List {
		return errTwice
	}
	v.values[v.field.Name] = append(v.values[v.field.Name], s)
	return nil
}

// Type is what pflag calls the value in help.
func (v *flagValue) Type() string {
	switch v.field.Kind {
	case YesNo:
		return "bool"
	case Number:
		return "float64"
	case List:
		return "stringSlice"
	}
	if v.field.Many {
		return "stringArray"
	}
	return "string"
}

type twiceError struct{}

func (twiceError) Error() string { return "is given twice" }

var errTwice = twiceError{}
