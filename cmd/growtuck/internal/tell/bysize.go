package tell

import "strings"

// A bySize is what the numbers of a row of sizes say of where they come from: what
// several of them say alike is there once, with the sizes it is about.
type bySize struct {
	order []string
	sizes map[string][]string
}

// reading adds how a size's number was got: the number with its first line, and a
// formula and notes on separate lines.
func (s *bySize) reading(size, value string, why Reason) {
	if why.Formula != "" {
		s.add(size, value+", "+why.How+", "+why.From, why.Formula)
	} else {
		s.add(size, value+", "+Reason{How: why.How, From: why.From}.Lines()[0])
	}
	s.add(size, why.Notes...)
}

// add adds lines of a size.
func (s *bySize) add(size string, lines ...string) {
	if s.sizes == nil {
		s.sizes = make(map[string][]string)
	}
	for _, line := range lines {
		if _, said := s.sizes[line]; !said {
			s.order = append(s.order, line)
		}
		s.sizes[line] = append(s.sizes[line], size)
	}
}

// lines are the lines, each after the sizes it is about.
func (s *bySize) lines() []string {
	var out []string
	for _, line := range s.order {
		out = append(out, strings.Join(s.sizes[line], ", ")+": "+line)
	}
	return out
}
