package page

import (
	"strings"

	"growtuck/cmd/growtuck/internal/tell"
)

// A shared is what the numbers of a row of sizes say of where they come from:
// what several of them say alike stands once, with the sizes it is about.
type shared struct {
	order []string
	sizes map[string][]string
}

// reading adds what a size's number says: the number with how it was got, and a
// formula and notes as lines of their own.
func (s *shared) reading(size, value string, why tell.Reason) {
	if why.Formula != "" {
		s.once(size, value+", "+why.How+", "+why.From)
		s.once(size, why.Formula)
	} else {
		s.once(size, value+", "+tell.Reason{How: why.How, From: why.From}.Lines()[0])
	}
	for _, line := range why.Notes {
		s.once(size, line)
	}
}

// once adds a line of a size.
func (s *shared) once(size, line string) {
	if s.sizes == nil {
		s.sizes = map[string][]string{}
	}
	if _, said := s.sizes[line]; !said {
		s.order = append(s.order, line)
	}
	s.sizes[line] = append(s.sizes[line], size)
}

// lines are the lines, each after the sizes it is about.
func (s *shared) lines() []string {
	var out []string
	for _, line := range s.order {
		out = append(out, strings.Join(s.sizes[line], ", ")+": "+line)
	}
	return out
}
