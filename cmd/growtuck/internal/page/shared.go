package page

import "strings"

// A shared is what the numbers of a row of sizes say of where they come from:
// what several of them say alike stands once, with the sizes it is about.
type shared struct {
	order []string
	sizes map[string][]string
}

// reading adds what a size's number says: its first line with the number, and
// what follows after a colon as a line of its own, as formulas do.
func (s *shared) reading(size, value string, why []string) {
	for i, line := range why {
		if i > 0 {
			s.once(size, line)
			continue
		}
		got, from, _ := strings.Cut(line, ": ")
		place, formula, ok := strings.Cut(from, ": ")
		if !ok {
			s.once(size, value+", "+line)
			continue
		}
		s.once(size, value+", "+got+", "+place)
		s.once(size, formula)
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
