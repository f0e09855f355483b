package validate_test

import (
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"

	"growtuck/validate"
)

// A typing is a draft at which somebody is typing, and where they go wrong.
type typing struct {
	*rand.Rand
	rows []validate.Row
}

// A kind is a way of going wrong. It reports false where the draft has nothing for it.
type kind struct {
	name string
	put  func(t *typing) bool
}

// pick draws one of the rows that are of a field, and a part if one is named, and
// meet the condition; nil where none does.
func (t *typing) pick(field, part string, is ...func(validate.Row) bool) *validate.Row {
	var at []int
	for i, r := range t.rows {
		if (field == "" || r.Field == field) && (part == "" || r.Part == part) && !slices.ContainsFunc(is, func(is func(validate.Row) bool) bool { return !is(r) }) {
			at = append(at, i)
		}
	}
	if len(at) == 0 {
		return nil
	}
	return &t.rows[at[t.IntN(len(at))]]
}

func counted(r validate.Row) bool {
	return r.Unit == "stitches" || r.Unit == "rows" || r.Unit == "rounds"
}
func inStitches(r validate.Row) bool { return r.Unit == "stitches" }
func inCm(r validate.Row) bool       { return r.Unit == "cm" }
func numeric(r validate.Row) bool    { return r.Value != "" && digit(r.Value[0]) && r.Unit != "" }
func ofSplit(r validate.Row) bool    { return r.Field == "split" }

func amount(r validate.Row) float64 {
	v, err := strconv.ParseFloat(r.Value, 64)
	if err != nil {
		return 0
	}
	return v
}

// to sets a row to a value that it does not have.
func to(r *validate.Row, value string) bool {
	if r == nil || r.Value == value || value == "" || strings.Trim(value, "0.") == "" {
		return false
	}
	r.Value = value
	return true
}

// times multiplies; counts stay whole.
func times(r *validate.Row, by float64) bool {
	if r == nil {
		return false
	}
	if counted(*r) {
		return to(r, strconv.Itoa(int(amount(*r)*by+0.5)))
	}
	return to(r, strconv.FormatFloat(amount(*r)*by, 'f', 2, 64))
}

func plus(r *validate.Row, n int) bool {
	return r != nil && to(r, strconv.Itoa(int(amount(*r))+n))
}

func unit(r *validate.Row, to string) bool {
	if r == nil || r.Unit == to {
		return false
	}
	r.Unit = to
	return true
}

func (t *typing) remove(r *validate.Row) bool {
	if r == nil {
		return false
	}
	i := slices.Index(t.rows, *r)
	t.rows = slices.Delete(t.rows, i, i+1)
	return true
}

func (t *typing) sign() int { return 1 - 2*t.IntN(2) }

// Slips of the hand in one cell.
func exchangeDigits(t *typing, r *validate.Row) bool {
	if r == nil || len(r.Value) < 2 {
		return false
	}
	i := t.IntN(len(r.Value) - 1)
	v := r.Value
	return digit(v[i]) && digit(v[i+1]) && v[i] != v[i+1] && v[i+1] != '0' && to(r, v[:i]+v[i+1:i+2]+v[i:i+1]+v[i+2:])
}

func wrongDigit(t *typing, r *validate.Row) bool {
	if r == nil {
		return false
	}
	i := t.IntN(len(r.Value))
	return digit(r.Value[i]) && to(r, r.Value[:i]+strconv.Itoa(t.IntN(10))+r.Value[i+1:])
}

func missingDigit(t *typing, r *validate.Row) bool {
	if r == nil || len(r.Value) < 2 {
		return false
	}
	i := t.IntN(len(r.Value))
	return digit(r.Value[i]) && to(r, strings.TrimLeft(r.Value[:i]+r.Value[i+1:], "0"))
}

func doubledDigit(t *typing, r *validate.Row) bool {
	if r == nil {
		return false
	}
	i := t.IntN(len(r.Value))
	return digit(r.Value[i]) && to(r, r.Value[:i+1]+r.Value[i:])
}

func movedPoint(t *typing, r *validate.Row) bool {
	return r != nil && to(r, strconv.FormatFloat(amount(*r)*[]float64{0.1, 10}[t.IntN(2)], 'f', -1, 64))
}

func letterGone(t *typing, cell *string) bool {
	if len(*cell) < 4 {
		return false
	}
	i := 1 + t.IntN(len(*cell)-2)
	*cell = (*cell)[:i] + (*cell)[i+1:]
	return true
}

// byHand are the slips of one cell, for every group of rows.
func byHand() []kind {
	groups := []struct {
		name string
		of   func(validate.Row) bool
	}{
		{"finished count", func(r validate.Row) bool { return r.Field == "finished" && counted(r) }},
		{"finished length", func(r validate.Row) bool { return r.Field == "finished" && inCm(r) }},
		{"yoke", func(r validate.Row) bool { return strings.HasPrefix(r.Field, "yoke") || r.Field == "increase" }},
		{"split", ofSplit},
		{"taper", func(r validate.Row) bool { return r.Field == "decrease" || r.Field == "end" }},
		{"gauge", func(r validate.Row) bool { return strings.HasSuffix(r.Field, "_gauge") && r.Part == "" }},
		{"body", func(r validate.Row) bool { return r.Field == "body" }},
		{"closure", func(r validate.Row) bool {
			return slices.Contains([]string{"zipper", "buttonband", "opening", "edges"}, r.Field)
		}},
	}
	slips := []struct {
		name string
		put  func(*typing, *validate.Row) bool
	}{{"digits exchanged", exchangeDigits}, {"digit wrong", wrongDigit}, {"digit missing", missingDigit}, {"digit doubled", doubledDigit}, {"point moved", movedPoint}}
	var all []kind
	for _, g := range groups {
		for _, s := range slips {
			all = append(all, kind{s.name + ": " + g.name, func(t *typing) bool { return s.put(t, t.pick("", "", g.of, numeric)) }})
		}
	}
	return all
}

// slipKinds are the ways of going wrong.
func slipKinds() []kind {
	part := func(part string, by float64) func(*typing) bool {
		return func(t *typing) bool { return times(t.pick("finished", part), by) }
	}
	word := func(field, word string) func(*typing) bool {
		return func(t *typing) bool { return to(t.pick(field, ""), word) }
	}
	without := func(field string, parts ...string) func(*typing) bool {
		return func(t *typing) bool {
			part := ""
			if len(parts) > 0 {
				part = parts[t.IntN(len(parts))]
			}
			return t.remove(t.pick(field, part))
		}
	}
	return append(byHand(), []kind{
		{"count off by one", func(t *typing) bool { return plus(t.pick("finished", "", inStitches), t.sign()) }},
		{"section off by one", func(t *typing) bool { return plus(t.pick("split", ""), t.sign()) }},
		{"underarm counted once", func(t *typing) bool {
			u, b := t.pick("split", "underarm"), t.pick("split", "body")
			return u != nil && b != nil && plus(b, -int(amount(*u)))
		}},
		{"sleeve without underarm", func(t *typing) bool {
			u, s := t.pick("split", "underarm"), t.pick("split", "sleeve")
			return u != nil && s != nil && plus(s, -int(amount(*u)))
		}},
		{"fronts differ", func(t *typing) bool { return plus(t.pick("split", "front_left"), 2*t.sign()) }},
		{"no underarm", func(t *typing) bool {
			u := t.pick("split", "underarm")
			return u != nil && u.Value != "0" && set(u, "0")
		}},
		{"bridge and underarm exchanged", func(t *typing) bool { return exchange(t.pick("split", "bridge"), t.pick("split", "underarm")) }},
		{"two sections exchanged", func(t *typing) bool { return exchange(t.pick("split", ""), t.pick("split", "")) }},
		{"two parts exchanged", func(t *typing) bool {
			a := t.pick("finished", "", counted)
			if a == nil {
				return false
			}
			b := t.pick("finished", "", func(r validate.Row) bool { return r.Unit == a.Unit })
			ratio := amount(*a) / amount(*b)
			return (ratio < 0.8 || ratio > 1.25) && exchange(a, b)
		}},
		{"cm called in", func(t *typing) bool { return unit(t.pick("finished", "", inCm), "in") }},
		{"cm called mm", func(t *typing) bool { return unit(t.pick("", "", inCm, finishedOrClosure), "mm") }},
		{"inches as cm", func(t *typing) bool { return times(t.pick("finished", "", inCm), 1/2.54) }},
		{"stitches called rows", func(t *typing) bool { return unit(t.pick("", "", inStitches), "rows") }},
		{"rows called stitches", func(t *typing) bool {
			return unit(t.pick("finished", "", func(r validate.Row) bool { return r.Unit == "rows" }), "stitches")
		}},
		{"count called cm", func(t *typing) bool { return unit(t.pick("finished", "", counted), "cm") }},
		{"zipper in inches as cm", func(t *typing) bool { return times(t.pick("zipper", ""), 1/2.54) }},
		{"zipper too long", func(t *typing) bool { return times(t.pick("zipper", ""), 1.4) }},
		{"zipper too short", func(t *typing) bool { return times(t.pick("zipper", ""), 0.5) }},
		{"gauges exchanged", func(t *typing) bool { return exchange(t.pick("stitch_gauge", ""), t.pick("row_gauge", "")) }},
		{"gauge over 4 in called 10 cm", func(t *typing) bool {
			return unit(t.pick("stitch_gauge", ""), "4 in") && unit(t.pick("row_gauge", ""), "4 in")
		}},
		{"gauge of an inch", func(t *typing) bool {
			return times(t.pick("stitch_gauge", ""), 0.254) && times(t.pick("row_gauge", ""), 0.254)
		}},
		{"gauge of a looser swatch", func(t *typing) bool {
			return times(t.pick("stitch_gauge", ""), 0.8) && times(t.pick("row_gauge", ""), 0.8)
		}},
		{"lengths by the stitches", func(t *typing) bool {
			s, r := t.pick("stitch_gauge", ""), t.pick("row_gauge", "")
			return s != nil && r != nil && to(r, s.Value)
		}},
		{"fit oversized", word("fit", "oversized")},
		{"fit very close", word("fit", "very-close")},
		{"layer winter", word("layer", "winter")},
		{"another garment", func(t *typing) bool {
			return to(t.pick("garment", ""), []string{"pullover", "trousers", "hat", "one-piece"}[t.IntN(4)])
		}},
		{"another size", func(t *typing) bool { return to(t.pick("size", ""), []string{"2", "4", "8", "12", "16"}[t.IntN(5)]) }},
		{"age in months as years", func(t *typing) bool {
			a := t.pick("age", "")
			return a != nil && to(a, strconv.Itoa(int(amount(*a)*12)))
		}},
		{"height in inches as cm", func(t *typing) bool { return times(t.pick("body", "height"), 1/2.54) }},
		{"weight in pounds as kg", func(t *typing) bool { return times(t.pick("body", "weight"), 2.2046) }},
		{"two measures exchanged", func(t *typing) bool { return exchange(t.pick("body", "chest"), t.pick("body", "head")) }},
		{"opening forgotten", without("finished", "front_opening")},
		{"part forgotten", without("finished", "chest", "upper_arm", "cuff", "hip", "thigh", "brim", "foot", "sleeve_length", "body_length", "inside_leg")},
		{"section forgotten", without("split", "front_left", "front", "back", "sleeve_left", "underarm", "body", "sleeve")},
		{"increase row forgotten", without("increase")},
		{"yoke count forgotten", without("yoke", "start", "end")},
		{"decreases forgotten", without("decrease")},
		{"end forgotten", without("end")},
		{"edges forgotten", without("edges")},
		{"extra forgotten", without("extra")},
		{"gauge forgotten", without("row_gauge")},
		{"size forgotten", without("size")},
		{"fit forgotten", without("fit")},
		{"layer forgotten", without("layer")},
		{"row doubled with another value", func(t *typing) bool {
			r := t.pick("", "", numeric, func(r validate.Row) bool { return r.Field == "finished" || r.Field == "split" })
			if r == nil {
				return false
			}
			i, second := slices.Index(t.rows, *r), *r
			if !times(&second, 0.8) {
				return false
			}
			t.rows = slices.Insert(t.rows, i+1, second)
			return true
		}},
		{"row doubled", func(t *typing) bool {
			r := t.pick("", "", numeric)
			i := slices.Index(t.rows, *r)
			t.rows = slices.Insert(t.rows, i, *r)
			return true
		}},
		{"field misspelt", func(t *typing) bool { return letterGone(t, &t.pick("", "", numeric).Field) }},
		{"part misspelt", func(t *typing) bool {
			return letterGone(t, &t.pick("", "", numeric, func(r validate.Row) bool { return len(r.Part) > 3 }).Part)
		}},
		{"word misspelt", func(t *typing) bool { return letterGone(t, &t.pick("fit", "").Value) }},
		{"letter for a digit", func(t *typing) bool {
			r := t.pick("", "", numeric, func(r validate.Row) bool { return strings.ContainsAny(r.Value, "01") })
			return r != nil && to(r, strings.NewReplacer("0", "O", "1", "l").Replace(r.Value))
		}},
		{"multiple broken", func(t *typing) bool {
			m := t.pick("multiple", "")
			return m != nil && plus(t.pick("finished", m.Part), 1)
		}},
		{"neck too tight", part("neck", 0.6)},
		{"hood round small", part("hood_round", 0.75)},
		{"hood height small", part("hood_height", 0.8)},
		{"hood over the eyes", part("hood_height", 1.3)},
		{"negative ease", part("chest", 0.85)},
		{"leg wrong", part("thigh", 0.85)},
		{"bridge wrong", func(t *typing) bool { return plus(t.pick("split", "bridge"), t.sign()*(1+t.IntN(3))) }},
		{"decreases wrong", func(t *typing) bool { return plus(t.pick("decrease", ""), t.sign()) }},
		{"end wrong", func(t *typing) bool { return plus(t.pick("end", ""), 2*t.sign()) }},
		{"yoke end wrong", func(t *typing) bool { return plus(t.pick("yoke", "end"), t.sign()*(1+t.IntN(9))) }},
		{"yoke rows wrong", func(t *typing) bool { return times(t.pick("yoke_rows", ""), 1.6) }},
		{"yoke rounds wrong", func(t *typing) bool { return plus(t.pick("yoke_rounds", ""), t.sign()) }},
		{"sleeve too long", part("sleeve_length", 1.3)},
		{"body too short", part("body_length", 0.75)},
		{"rise too short", part("rise", 0.7)},
		{"armhole shallow", part("armhole_depth", 0.7)},
		{"cross back wide", part("cross_back", 1.3)},
		{"waist too small", part("waist", 0.6)},
		{"ankle too tight", part("ankle", 0.6)},
		{"cuff too tight", part("cuff", 0.6)},
		{"hip less than waist", part("hip", 0.75)},
		{"opening longer than the body", part("front_opening", 1.4)},
		{"opening too short", part("front_opening", 0.5)},
		{"steep taper", part("sleeve_length", 0.3)},
		{"brim wide", part("brim", 1.3)},
		{"hat shallow", part("hat_height", 0.7)},
		{"foot short", part("foot_length", 0.8)},
		{"thumb long", part("thumb_length", 1.8)},
		{"skirt long", part("skirt_length", 1.9)},
	}...)
}

func finishedOrClosure(r validate.Row) bool {
	return slices.Contains([]string{"finished", "zipper", "edges"}, r.Field)
}

func set(r *validate.Row, value string) bool { r.Value = value; return true }

// exchange makes two rows change places in their values.
func exchange(a, b *validate.Row) bool {
	if a == nil || b == nil || a.Value == b.Value {
		return false
	}
	a.Value, b.Value = b.Value, a.Value
	return true
}
