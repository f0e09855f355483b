package page

import (
	"growtuck/cmd/growtuck/internal/tell"
)

// style says how facts are told: on the page, in the unit of the tape.
func (st *state) style() tell.Style {
	style := tell.Style{Unit: "cm", Place: tell.Page}
	if st.Value("tape") == "in" {
		style.Unit = "in"
	}
	return style
}

// A sourceView is a source as numbers name it in brackets, and in full.
type sourceView struct{ ID, Title string }

// sourceViews names sources in full, each once.
func (s *site) sourceViews(ids []string) []sourceView {
	var all []sourceView
	for _, id := range tell.InOrder(ids) {
		if src, err := s.engine.Reference.Source(id); err == nil {
			all = append(all, sourceView{id, src.Title + ", " + src.Publisher})
		}
	}
	return all
}
