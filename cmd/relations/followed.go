package main

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"slices"

	"growtuck/data"
	"growtuck/sizing"
)

// A visit is what was measured of a followed child at an age, by id.
type visit struct {
	years float64
	own   map[string]float64
}

// A followed child was measured again and again as it grew.
type followed struct {
	sex    sizing.Sex
	visits []visit
}

// followedColumns are the columns of the file beside child, sex and age_years.
var followedColumns = []variable{{"height", "height_cm"}, {"weight", "weight_kg"}, {"sitting_height", "sitting_height_cm"}, {"calf", "leg_girth_cm"}}

// openFollowed reads the file of children who were followed, at path.
func openFollowed(path string) ([]followed, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return readFollowed(f, path)
}

// readFollowed reads the file described in the package comment.
func readFollowed(r io.Reader, name string) ([]followed, error) {
	cr := csv.NewReader(r)
	wanted := []string{"child", "sex", "age_years"}
	for _, v := range followedColumns {
		wanted = append(wanted, v.column)
	}
	column, err := readHeader(cr, name, wanted)
	if err != nil {
		return nil, err
	}
	children := make(map[string]*followed)
	var order []string
	for {
		record, err := cr.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, csvFault(name, err)
		}
		row := surveyRow{name, cr, record, column}
		id, v := record[column["child"]], visit{own: make(map[string]float64)}
		if children[id] == nil {
			children[id], order = &followed{sex: sizing.Sex(record[column["sex"]])}, append(order, id)
		}
		if c := children[id]; record[column["sex"]] != string(c.sex) || c.sex != sizing.Boy && c.sex != sizing.Girl {
			return nil, row.fault("sex", "m or f, the same for all of a child")
		}
		if v.years, err = row.number("age_years"); err != nil {
			return nil, err
		}
		for _, m := range followedColumns {
			value, err := row.number(m.column)
			if err != nil {
				return nil, err
			}
			if !math.IsNaN(value) {
				v.own[m.id] = value
			}
		}
		if v.years > 0 { // NaN at birth
			children[id].visits = append(children[id].visits, v)
		}
	}
	var all []followed
	for _, id := range order {
		slices.SortFunc(children[id].visits, func(a, b visit) int { return int(math.Copysign(1, a.years-b.years)) })
		all = append(all, *children[id])
	}
	if len(all) == 0 {
		return nil, &data.Error{File: name, Msg: "no child"}
	}
	return all, nil
}

// at is the visit at an age; nil for none.
func (f followed) at(years float64) *visit {
	i := slices.IndexFunc(f.visits, func(v visit) bool { return math.Abs(v.years-years) < 0.01 })
	if i < 0 {
		return nil
	}
	return &f.visits[i]
}

// What a forecast is told of a child beside its age and what was measured at it.
const (
	toldOnce  = "measured once"
	toldTwice = "measured a year before too"
	toldHalf  = "measured half a year before too"
	toldNoAge = "the age not told"
)

var toldAll = []string{toldOnce, toldTwice, toldHalf, toldNoAge}

// ahead scores forecasts so many years ahead, of children of an age above from and up to
// below to, by measurement. What is known is told whole.
func ahead(ref *sizing.Reference, children []followed, from, to, years float64, told string) (map[string]score, error) {
	scores := make(map[string]score)
	for _, f := range children {
		for _, now := range f.visits {
			then := f.at(now.years + years)
			if !(now.years >= from && now.years < to) || then == nil || now.own["height"] == 0 {
				continue
			}
			c := sizing.Child{Sex: f.sex, AgeYears: now.years, Own: now.own}
			switch gap := map[string]float64{toldTwice: 1, toldHalf: 0.5}[told]; {
			case told == toldNoAge:
				c.AgeYears = 0
			case gap > 0:
				before := f.at(now.years - gap)
				if before == nil || before.own["height"] == 0 {
					continue
				}
				c.Earlier = []sizing.Earlier{{Years: gap, Own: before.own}}
			}
			body, err := forecast(ref, c, years)
			var outside *sizing.RangeError
			var tall *sizing.TallError
			var ageless *sizing.FactError
			if errors.As(err, &outside) || errors.As(err, &tall) || told == toldNoAge && errors.As(err, &ageless) {
				continue // taller than the survey, or than any median
			} else if err != nil {
				return nil, err
			}
			for _, m := range followedColumns {
				value, measured := then.own[m.id]
				r, ok := body.Get(m.id)
				if _, had := now.own[m.id]; !measured || !ok || !had {
					continue
				}
				s := scores[m.id]
				s.add(scoreOf(value, r))
				scores[m.id] = s
			}
			if sitting, ok := body.Get("sitting_height"); ok && now.own["sitting_height"] > 0 && then.own["sitting_height"] > 0 {
				h, _ := body.Get("height")
				s := scores["legs"]
				s.add(scoreOf(then.own["height"]-then.own["sitting_height"], sizing.Reading{Value: h.Value - sitting.Value}))
				scores["legs"] = s
			}
		}
	}
	return scores, nil
}

func forecast(ref *sizing.Reference, c sizing.Child, years float64) (*sizing.Body, error) {
	b, err := ref.Estimate(c)
	if err != nil {
		return nil, err
	}
	g, err := ref.Growth(b)
	if err != nil {
		return nil, err
	}
	return g.At(years)
}

// followedAges are the ages from which is looked ahead, from the first and below the
// second.
var followedAges = [][2]float64{{2, 3}, {3, 4}, {4, 8}, {8, 12}, {12, 16}}

// printFollowed prints how close forecasts come to the children of a file.
func printFollowed(path string, out io.Writer) error {
	children, err := openFollowed(path)
	if err != nil {
		return err
	}
	ref, err := sizing.Default()
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "%d children\n\n| told | ages | years ahead | measurement | forecasts | RMS error, cm or kg | bias, %% | in range, %% |\n|---|---|--:|---|--:|--:|--:|--:|\n", len(children))
	for _, told := range toldAll {
		for _, ages := range followedAges {
			for _, years := range []float64{1, 2} {
				scores, err := ahead(ref, children, ages[0], ages[1], years, told)
				if err != nil {
					return err
				}
				for _, m := range []string{"height", "sitting_height", "legs", "calf", "weight"} {
					if s := scores[m]; s.n > 0 {
						inside := "–"
						if s.ranged > 0 {
							inside = fmt.Sprintf("%.0f", s.coverage())
						}
						fmt.Fprintf(out, "| %s | from %g, under %g | %g | %s | %d | %.2f | %.1f | %s |\n", told, ages[0], ages[1], years, m, s.n, s.cm(), s.bias(), inside)
					}
				}
			}
		}
	}
	return nil
}
