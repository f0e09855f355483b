package plan

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A hand works a section by what its steps say and nothing else.
type hand struct {
	t    *testing.T
	rows []row
	on   int // stitches on the work
}

// A turn of the work: a row that ends on some stitches, all of which were worked.
func (h *hand) to(stitches int) {
	h.on = stitches
	h.rows = append(h.rows, row{stitches, stitches})
}

func (h *hand) short(worked int) { h.rows = append(h.rows, row{h.on, worked}) }

// until works plain rows until so many are done.
func (h *hand) until(done int) {
	for len(h.rows) < done {
		h.to(h.on)
	}
}

// every changes the stitches in a row and in each so many rows after it, so often.
func (h *hand) every(first, every, times, change int) {
	for i := range times {
		h.until(first + i*every - 1)
		h.to(h.on + change)
	}
}

func (x Step) n(name string) int { n, _ := x.Values[name].(int); return n }

func (x Step) is(kinds ...string) bool {
	for _, k := range kinds {
		if strings.HasPrefix(x.Kind, k) {
			return true
		}
	}
	return false
}

// step works a step whose rows begin after those that are done.
func (h *hand) step(s *Section, x Step, knit bool) {
	done := len(h.rows)
	switch {
	case x.Shaping != nil:
		at := x.Offset + x.Shaping.FirstRow
		for i, gap := range x.Shaping.Steps { // the first counts from before the first row
			for k := range gap.Times {
				if i > 0 || k > 0 {
					at += gap.Every
				}
				h.until(at - 1)
				h.to(h.on + x.Shaping.Change)
			}
		}
	case x.is("crown-decrease"):
		h.every(x.n("row"), x.n("every"), x.n("times"), -x.n("change"))
	case x.is("crown-increase", "yoke-repeat", "raglan-repeat"):
		h.every(x.n("row"), x.n("every"), x.n("times"), x.n("change"))
	case x.Across != nil:
		require.Equal(h.t, 1, x.Rows)
		h.to(x.Across.After())
	case x.is("armhole-increase-every-row"):
		h.every(done+x.Rows-x.n("last")+1, 1, x.n("last"), 2)
	case x.is("armhole-increase-every-2nd"): // on the right side
		first := done + x.Rows - x.n("last") + 1
		if s.WrongSide != (first%2 == 0) {
			first++
		}
		h.every(first, 2, x.n("last")/2, 2)
	case x.is("neck-increase-every-row"):
		h.every(done+x.Rows-x.n("then")+1, 1, x.n("then"), 1)
	case x.is("neck-increase-every-nth"): // with the last row of each
		h.every(done+x.Rows-x.n("then")+x.n("every"), x.n("every"), x.n("then")/x.n("every"), 1)
	case x.is("tip-turned-every"):
		first := done + 1
		if s.WrongSide != (first%2 == 0) {
			first++
		}
		h.every(first, 2, x.n("rows")/2, -4)
	case x.is("tip"):
		h.every(done+1, 1, x.n("rows"), -4)
	case x.is("short-rows-neck-end", "short-rows-neck-join"): // from the last turn to the other end
		for _, first := range s.Steps {
			if first.Kind == "short-rows-neck" {
				h.short(s.From - first.n("lead") + (first.n("pairs")-1)*h.further(s))
			}
		}
	case x.is("short-rows-neck"):
		h.short(x.n("start_at"))
		h.short(x.n("first"))
	case x.is("short-rows-seat-end"):
		h.short(x.n("half"))
	case x.is("short-rows-seat"):
		h.short(x.n("half"))
		h.short(x.n("first"))
	case x.is("short-rows-further"):
		for range x.n("rows") {
			h.short(h.rows[len(h.rows)-1].worked + x.n("further"))
		}
	case x.is("heel-leave"):
		h.heel(s, x)
	case x.is("heel-take-up"): // as they were left, back to front, and all of them at last
		for r := x.Rows - 3; r >= 0; r-- {
			h.to(h.rows[r].worked)
		}
		h.to(s.From)
		h.to(s.From)
	}
	h.until(done + x.Rows)
}

// further is how much further each short row of a section goes.
func (h *hand) further(s *Section) int {
	for _, x := range s.Steps {
		if x.Kind == "short-rows-further" {
			return x.n("further")
		}
	}
	return 0
}

// heel leaves stitches at both ends, in pairs of rows: in some pairs one more than in others.
func (h *hand) heel(s *Section, x Step) {
	pairs := x.n("rows") / 2
	others, worked := 0, s.From
	for i := range pairs {
		r := s.rows[2*i].worked
		by := (worked - r) / 2
		require.True(h.t, by == x.n("each") || by == x.n("each_other"), "pair %d leaves %d at each end", i+1, by)
		if by != x.n("each") {
			others++
		}
		worked -= 2 * by
		h.to(worked)
		h.to(worked)
	}
	require.Equal(h.t, x.n("pairs_other"), others)
	require.Equal(h.t, x.n("middle"), worked)
}

// everyRowIsInOneStep claims that the steps of a section work its rows, each once and in
// their order, with the stitches that the section has after it; that a step knows what it
// begins and ends on, and the side of its first row; and that it works as many rows as it
// says, with that which begins it and that which ends it where the steps beside it do.
func everyRowIsInOneStep(t *testing.T, p *Plan) {
	wrong := false // the next row of turned work is a wrong-side row
	for i, s := range p.Sections {
		first := s.Steps[0]
		anew := i == 0 || first.Kind == "heel" || first.is("cast-on", "pick-up", "hood-pick-up", "sleeve-from-yoke", "start-") || first.is("divide", "leg-round") && !first.is("divide-legs")
		if anew || s.InRounds || p.Sections[i-1].InRounds {
			wrong = s.ID == "back-neck" && len(s.rows)%2 == 1 && !p.Sections[i+1].InRounds // the yoke begins on the right side
		}
		require.Equal(t, wrong, s.WrongSide, s.ID)
		h := &hand{t: t, on: s.From}
		begun := false // by the step before
		for k, x := range s.Steps {
			what := s.ID + " " + x.ID
			require.GreaterOrEqual(t, x.Rows, 0, what)
			if x.Rows > 0 {
				require.Equal(t, len(h.rows)+1, x.Row, what)
				require.Equal(t, wrong != (x.Row%2 == 0), x.WrongSide, what)
				if x.Across == nil {
					require.Equal(t, h.on, x.From, what)
				}
				h.step(s, x, p.How.Craft == Knit)
				require.Equal(t, h.on, x.To, what)
				require.Equal(t, x.Row+x.Rows-1, len(h.rows), what)
			}
			if x.Across != nil {
				require.Equal(t, x.Across.Stitches+x.Across.Change, x.Across.After(), what)
				require.Equal(t, []int{x.Across.Stitches, x.Across.After()}, []int{x.From, x.To}, what)
			}
			says, counted := x.Values["rows"].(int)
			if _, summary := x.Values["increase_rows"]; summary {
				require.Zero(t, x.Rows, what)
			} else if counted && x.Values["row"] == nil {
				says += x.n("then")
				if begun && x.Kind != "plain" { // rows between others are those alone
					says--
				}
				if x.Kind != "plain" && k+1 < len(s.Steps) && strings.HasSuffix(s.Steps[k+1].Kind, "-last") {
					says--
				}
				require.Equal(t, says, x.Rows, what)
			}
			if x.Shaping != nil {
				require.Equal(t, x.Row+x.Rows-1, x.Offset+x.Shaping.Rows, what)
			}
			if x.Rows > 0 {
				begun = x.Rows == 1 && (x.firstRow() || strings.HasSuffix(x.Kind, "-first"))
			}
		}
		require.Equal(t, s.rows, h.rows, s.ID)
		wrong = wrong != (len(s.rows)%2 == 1)
	}
}
