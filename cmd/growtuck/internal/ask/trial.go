package ask

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"growtuck/sizing"
	"growtuck/sizing/plan"
)

// The fields of work that was tried on.

func (r *Request) setDone(texts []string) error {
	for _, s := range texts {
		id, value, ok := strings.Cut(s, "=")
		n, err := strconv.Atoi(strings.TrimSpace(value))
		if !ok || err != nil {
			return fmt.Errorf("done %.80q: want a section and its rows, such as yoke=12", s)
		}
		r.Trial.Done = append(r.Trial.Done, plan.Done{Section: strings.TrimSpace(id), Rows: n})
	}
	return nil
}

// change is what is changed of the section that a pair names, and the pair's text.
func (r *Request) change(field, text, example string) (*plan.Change, string, error) {
	id, value, ok := strings.Cut(text, "=")
	id, value = strings.TrimSpace(id), strings.TrimSpace(value)
	if !ok || id == "" || value == "" {
		return nil, "", fmt.Errorf("%s %.80q: want a section and %s", field, text, example)
	}
	if !r.Given("done") {
		return nil, "", fmt.Errorf("%s %s: say with done how far the work is, such as yoke=12; what is not begun is planned longer or wider with extra, such as sleeve_length=2", field, text)
	}
	i := slices.IndexFunc(r.Trial.Changes, func(c plan.Change) bool { return c.Section == id })
	if i < 0 {
		i = len(r.Trial.Changes)
		r.Trial.Changes = append(r.Trial.Changes, plan.Change{Section: id})
	}
	return &r.Trial.Changes[i], value, nil
}

// changeBy reads a length by which a section should differ.
func (r *Request) changeBy(field, text, example string, into func(*plan.Change) *float64) error {
	c, value, err := r.change(field, text, example)
	if err != nil {
		return err
	}
	l, err := sizing.ParseLength(strings.TrimPrefix(value, "+"), "cm")
	if err != nil {
		return &pairError{field + " " + c.Section, err}
	}
	*into(c) = float64(l)
	return nil
}

func (r *Request) setLonger(texts []string) error {
	return r.changeBy("longer", texts[0], "a length, such as sleeve=2cm", func(c *plan.Change) *float64 { return &c.LongerCm })
}

func (r *Request) setWider(texts []string) error {
	return r.changeBy("wider", texts[0], "a width, such as body=3cm", func(c *plan.Change) *float64 { return &c.WiderCm })
}

func (r *Request) setEnds(texts []string) error {
	c, value, err := r.change("ends", texts[0], "where, such as sleeve=3cm above wrist")
	if err != nil {
		return err
	}
	end, err := parseEnd(value)
	if err != nil {
		return &pairError{"ends " + c.Section, err}
	}
	c.Ends = &end
	return nil
}

// parseEnd reads "3 cm above the wrist", "2in below waist", "at the floor".
func parseEnd(s string) (plan.End, error) {
	words := strings.Fields(strings.ToLower(s))
	words = slices.DeleteFunc(words, func(w string) bool { return w == "the" })
	bad := fmt.Errorf("%.80q: want a length above or below, or at, one of %s; such as 3 cm above wrist", s, strings.Join(sizing.Words(plan.Landmarks), ", "))
	if len(words) < 2 {
		return plan.End{}, bad
	}
	mark, how, length := plan.Landmark(words[len(words)-1]), words[len(words)-2], strings.Join(words[:len(words)-2], " ")
	if !slices.Contains(plan.Landmarks, mark) {
		return plan.End{}, bad
	}
	end := plan.End{Mark: mark}
	if how == "at" && length == "" {
		return end, nil
	}
	l, err := sizing.ParseLength(length, "cm")
	switch {
	case err != nil || l < 0:
		return end, bad
	case how == "above":
		end.BeyondCm = -float64(l)
	case how == "below":
		end.BeyondCm = float64(l)
	default:
		return end, bad
	}
	return end, nil
}

func (r *Request) setDistance(texts []string) error {
	id, _, _ := strings.Cut(texts[0], "=")
	if !slices.ContainsFunc(r.Trial.Changes, func(c plan.Change) bool { return c.Section == strings.TrimSpace(id) && c.Ends != nil }) {
		return fmt.Errorf("distance %s: say with ends what it was measured to, such as %s=3cm above wrist", texts[0], id)
	}
	return r.changeBy("distance", texts[0], "a length, such as sleeve=14cm", func(c *plan.Change) *float64 {
		c.Ends.FromHereCm = new(float64)
		return c.Ends.FromHereCm
	})
}

func (r *Request) setAsWorked(texts []string) error {
	id, value, _ := strings.Cut(texts[0], "=")
	w := plan.Worked{Section: strings.TrimSpace(id)}
	bad := fmt.Errorf("as-worked %.80q: want a section and the rows it was worked in, such as sleeve=46 or sleeve=46 rows to 26 stitches", texts[0])
	if !r.Given("done") {
		return fmt.Errorf("as-worked %s: say with done how far the work is, such as %s=46", texts[0], w.Section)
	}
	var counts []int
	for _, word := range strings.Fields(value) {
		if n, err := strconv.Atoi(word); err == nil && n > 0 {
			counts = append(counts, n)
		} else if !slices.Contains([]string{"row", "rows", "round", "rounds", "to", "on", "stitches", "sts"}, word) {
			return bad
		}
	}
	switch len(counts) {
	case 2:
		w.Stitches = counts[1]
		fallthrough
	case 1:
		w.Rows = counts[0]
	default:
		return bad
	}
	r.Trial.Worked = append(r.Trial.Worked, w)
	return nil
}

// SplitPairs splits a list of pairs, such as "sleeve=2, body=-1,5 cm": a comma between
// digits is a decimal comma. A length without a unit gets that of the tape.
func (f Field) SplitPairs(s, tape string) []string {
	var all []string
	start := 0
	for i := 0; i <= len(s); i++ {
		if i < len(s) && (s[i] == ',' && i > 0 && i+1 < len(s) && digit(s[i-1]) && digit(s[i+1]) || s[i] != ',' && s[i] != ';') {
			continue
		}
		if one := strings.TrimSpace(s[start:i]); one != "" {
			all = append(all, f.inUnit(one, tape))
		}
		start = i + 1
	}
	return all
}

func (f Field) inUnit(pair, tape string) string {
	id, value, ok := strings.Cut(pair, "=")
	if !ok || f.Name == "as-worked" || f.Name == "weighed" { // no lengths
		return pair
	}
	number, rest := strings.TrimSpace(value), ""
	if f.Name == "ends" {
		words := strings.Fields(value)
		if len(words) < 2 || words[0] == "at" {
			return pair
		}
		if words[1] != "above" && words[1] != "below" {
			return pair // it has a unit
		}
		number, rest = words[0], " "+strings.Join(words[1:], " ")
	}
	return id + "=" + WithUnit(number, tape) + rest
}
