package main

import (
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"slices"

	"growtuck/data"
	"growtuck/sizing"
)

// judged are the measurements that accuracy is told for.
var judged = []string{"chest", "waist", "hip", "upper_arm", "neck", "wrist", "thigh", "calf", "ankle",
	"head", "arm_length", "inside_leg", "hand_length", "foot_length"}

// A knowledge is what is known of a child before the rest is estimated.
type knowledge struct {
	name string
	own  []string // measurements
	age  bool
}

var knowledges = []knowledge{
	{name: "height", own: []string{"height"}},
	{name: "height, chest", own: []string{"height", "chest"}},
	{name: "height, weight", own: []string{"height", "weight"}},
	{name: "height, chest, weight", own: []string{"height", "chest", "weight"}},
	{name: "height, chest, inside leg", own: []string{"height", "chest", "inside_leg"}},
	{name: "chest alone", own: []string{"chest"}},
	{name: "chest, age", own: []string{"chest"}, age: true},
}

// of returns what is known of the child, or false if some of it was not
// measured.
func (k knowledge) of(c child) (sizing.Child, bool) {
	known := sizing.Child{Sex: sizing.Sex(c.sex), Own: make(map[string]float64)}
	for _, id := range k.own {
		known.Own[id] = c.value(id)
		if math.IsNaN(known.Own[id]) {
			return known, false
		}
	}
	if k.age {
		known.AgeYears = c.age
	}
	return known, !(k.age && math.IsNaN(c.age))
}

// oldestYoung bounds the younger group of children, from 2 to 12 years old.
const oldestYoung = 13.0

// A tally names a score: of a method, for a measurement, among the children of
// one sex, either the young or all of them.
type tally struct {
	method, measurement, sex string
	young                    bool
}

// results are the scores of a whole run, and what did not enter them.
type results struct {
	folds    int
	seed     uint64
	children int
	outside  int            // heights that the measured chart does not have
	dropped  int            // values taken for slips
	refused  map[string]int // knowledge → children not estimated
	beyond   [2]int         // chests below the smallest size, above the largest
	scores   map[tally]*score
	// unseen has the scores of estimates about medians that have not seen the
	// child either, and seen those of the shipped medians for the same values.
	seen, unseen map[tally]*score
	byThird      thirdScores
}

func (r *results) add(in map[tally]*score, method, id string, c child, s score) {
	groups := []bool{false}
	if c.age < oldestYoung {
		groups = append(groups, true)
	}
	for _, young := range groups {
		t := tally{method, id, c.sex, young}
		if in[t] == nil {
			in[t] = new(score)
		}
		in[t].add(s)
	}
}

// printAccuracy judges the estimates on the files of records.
func printAccuracy(survey, nhanes string, folds int, seed uint64, out io.Writer) error {
	children, err := openSurvey(survey)
	if err != nil {
		return err
	}
	today, err := openNHANES(nhanes)
	if err != nil {
		return err
	}
	tables, err := data.Load(data.Embedded())
	if err != nil {
		return err
	}
	r, err := judge(children, today, tables, folds, seed)
	if err != nil {
		return err
	}
	if err := judgeToday(children, today, tables, r.byThird); err != nil {
		return err
	}
	return r.write(out)
}

// judge divides the survey's children at random into folds and estimates the
// children of each by relations fitted to those of the others, and to today's.
func judge(children, today []child, tables *data.Tables, folds int, seed uint64) (*results, error) {
	if folds < 2 || folds > len(children) {
		return nil, fmt.Errorf("accuracy: %d folds; want 2 to %d, the number of children", folds, len(children))
	}
	r := &results{folds: folds, seed: seed, children: len(children), refused: make(map[string]int),
		scores: make(map[tally]*score), seen: make(map[tally]*score), unseen: make(map[tally]*score), byThird: make(thirdScores)}
	median, err := chartMedians(tables)
	if err != nil {
		return nil, err
	}
	clean := slices.Clone(children)
	r.dropped = dropSlips(clean)
	fold := make([]int, len(children))
	for i, j := range rand.New(rand.NewPCG(seed, 0)).Perm(len(children)) {
		fold[j] = i % folds
	}
	youth := slices.Clone(clean)
	for i := range youth {
		if !(youth[i].age < oldestYoung) {
			youth[i].height = math.NaN() // of no third
		}
	}
	third := thirdsOf(youth, median)
	for f := range folds {
		var training, test []child
		var of []string
		for i := range children {
			if fold[i] == f {
				test, of = append(test, clean[i]), append(of, third[i])
			} else {
				training = append(training, children[i])
			}
		}
		ref, err := refitted(tables, training, today)
		if err != nil {
			return nil, fmt.Errorf("accuracy: fold %d of %d: %w", f+1, folds, err)
		}
		for i, c := range test {
			if err := r.judgeChild(ref, c); err != nil {
				return nil, err
			}
			if of[i] == "" {
				continue
			}
			if err := r.byThird.judge(ref.shipped, then, c, of[i], judgedByThird[0].measurements); err != nil {
				return nil, err
			}
		}
	}
	return r, nil
}

// references are the engine as fitted to the training children: on the medians
// as shipped, and on medians of the training children.
type references struct {
	shipped, unseen *sizing.Reference
}

func refitted(tables *data.Tables, training, today []child) (references, error) {
	fits, err := fitAll(training, "m", "f")
	if err != nil {
		return references{}, err
	}
	t := *tables
	if t.Relations, err = relationRows(fits); err != nil {
		return references{}, err
	}
	if t.Relations, err = withToday(t.Relations, training, today, tables); err != nil {
		return references{}, err
	}
	var refs references
	if refs.shipped, err = sizing.New(&t); err != nil {
		return references{}, err
	}
	t.Body = withMedians(t.Body, training)
	refs.unseen, err = sizing.New(&t)
	return refs, err
}

// withMedians returns the rows with the class medians of chart measured
// replaced by those of the training children. Classes too small for a median
// keep theirs.
func withMedians(rows []data.Body, training []child) []data.Body {
	type key struct{ sex, size, id string }
	medians := make(map[key]float64)
	for _, sex := range []string{"m", "f"} {
		some := ofSex(training, sex)
		for v := range variables {
			for _, cl := range classesOf(some, v) {
				size := shortest(cl.centre)
				medians[key{sex, size, variables[v].id}] = percentile(cl.values, 0.5)
				medians[key{sex, size, "height"}] = percentile(cl.heights, 0.5)
			}
		}
	}
	rows = slices.Clone(rows)
	for i, row := range rows {
		if row.Chart != "measured" || row.Statistic != "p50" {
			continue
		}
		if v, ok := medians[key{row.Sex, row.Size, row.Measurement}]; ok {
			rows[i].Value = v
		}
	}
	return rows
}

// dropSlips replaces by NaN the values that the fit leaves out as slips, and
// returns how many they were.
func dropSlips(children []child) int {
	dropped := 0
	for _, sex := range []string{"m", "f"} {
		var index []int
		for i, c := range children {
			if c.sex == sex {
				index = append(index, i)
			}
		}
		all := departures(ofSex(children, sex))
		kept := departures(ofSex(children, sex))
		dropOutliers(kept)
		for k, i := range index {
			children[i].values = slices.Clone(children[i].values)
			for v := range variables {
				if !math.IsNaN(all[k][v]) && math.IsNaN(kept[k][v]) {
					children[i].values[v] = math.NaN()
					dropped++
				}
			}
		}
	}
	return dropped
}

// judgeChild adds to the scores one child that the relations have not seen.
func (r *results) judgeChild(refs references, c child) error {
	known, _ := knowledges[0].of(c)
	base, err := refs.shipped.Estimate(known)
	if err != nil { // a height outside the survey's chart
		r.outside++
		return nil
	}
	methods, err := r.chartMethods(refs.shipped, c)
	var outside *sizing.RangeError
	if errors.As(err, &outside) {
		r.outside++
		return nil
	} else if err != nil {
		return err
	}
	for _, k := range knowledges {
		known, ok := k.of(c)
		if !ok {
			continue
		}
		body, err := refs.shipped.Estimate(known)
		if err != nil {
			r.refused[k.name]++
			continue
		}
		methods = append(methods, method{k.name, body, known.Own})
		if strict, err := refs.unseen.Estimate(known); err == nil && known.Own["height"] != 0 {
			r.compare(k.name, c, known.Own, body, strict)
		}
	}
	for _, id := range judged {
		if _, ok := base.Get(id); !ok || math.IsNaN(c.value(id)) {
			continue
		}
		for _, m := range methods {
			if reading, ok := m.estimate(id); ok {
				r.add(r.scores, m.name, id, c, scoreOf(c.value(id), reading))
			}
		}
	}
	return nil
}

// compare adds the values that both bodies estimate to the scores of medians
// that have seen the child and of those that have not.
func (r *results) compare(name string, c child, own map[string]float64, body, strict *sizing.Body) {
	for _, id := range judged {
		a, okA := body.Get(id)
		b, okB := strict.Get(id)
		if _, given := own[id]; given || !okA || !okB || math.IsNaN(c.value(id)) {
			continue
		}
		r.add(r.seen, name, id, c, scoreOf(c.value(id), a))
		r.add(r.unseen, name, id, c, scoreOf(c.value(id), b))
	}
}
