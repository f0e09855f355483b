package page

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
)

// A concern is an entry that needs a look: wrong or in doubt.
type concern struct {
	field
	To      string // the id that it is found at
	Section string // the first part of the answer that leaves it out: child, finished, plan, left; "" for none
}

// Left are the controls that are left out with it.
func (c concern) Left() string { return strings.Join(with(c.Name), " ") }

// Takes are the parts of the page that an entry is left out of.
func (c concern) Takes() string {
	all := []string{"r-child", "r-garment", "r-plan", "r-checks", "r-files", "r-bar"}
	switch c.Section {
	case "child":
		return strings.Join(all, " ")
	case "finished":
		return strings.Join(all[1:], " ")
	case "plan":
		return strings.Join(all[2:], " ")
	case "left":
		return "r-left"
	}
	return ""
}

// Concerns are the entries that need a look, in the order of the form.
func (f form) Concerns() []concern {
	var all []concern
	said := make(map[string]bool)
	section := map[ask.Group]string{ask.Child: "child", ask.Sizes: "child", ask.Garment: "finished", ask.Swatch: "plan", ask.Making: "plan", ask.Progress: "left"}
	for _, one := range f.st.fields {
		if !one.AppliesTo(f.ref, f.st.Garment) {
			continue
		}
		for _, c := range one.Controls(f.ref, f.st.Garment) {
			x := concern{field: f.field(c)}
			if said[c.Name] || x.Fault == "" && x.Doubt == nil {
				continue
			}
			said[c.Name] = true
			x.To = x.ID
			if c.Tick != "" && slices.Contains(manyTicks, c.Name) {
				x.Label, x.To = tell.Capital(one.Label), "options"
			}
			if slices.Contains(f.st.left, c.Name) && !one.Beside {
				x.Section = section[one.Group]
			}
			all = append(all, x)
		}
	}
	for _, control := range slices.Sorted(maps.Keys(f.st.faults)) { // of what the form does not show
		if !said[control] {
			all = append(all, concern{field: field{Control: ask.Control{Name: control, Label: tell.Capital(control)}, ID: control, Fault: f.st.faults[control]}})
		}
	}
	return all
}

// lookSentence names the entries that need a look.
func lookSentence(all []concern) string {
	var names []string
	for _, l := range all {
		names = append(names, l.Label)
	}
	return strings.TrimSuffix(entriesToLookAt(len(all)), ".") + ": " + strings.Join(names, ", ") + "."
}

func entriesToLookAt(n int) string {
	if n == 1 {
		return "One entry needs a look."
	}
	return strconv.Itoa(n) + " entries need a look."
}
