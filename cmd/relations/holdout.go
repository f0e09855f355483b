package main

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"growtuck/data"
	"growtuck/sizing"
)

// A holdout is cycles of examinations that are judged by a fit to the others, and
// the measurements judged.
type holdout struct {
	cycles       []string
	measurements []string
}

// holdouts are the last cycles of the file; and, for what was no longer taken
// then, the last in which it was.
var holdouts = []holdout{
	{[]string{"2011-2012", "2015-2016"}, []string{"upper_arm", "waist_navel"}},
	{[]string{"2005-2006"}, []string{"calf"}},
}

// judgeToday adds to the scores estimates of children examined in cycles that the
// fit has not seen. What the survey alone gives stays as it is in the tables.
func judgeToday(survey, today []child, tables *data.Tables, scores thirdScores) error {
	median, err := chartMedians(tables)
	if err != nil {
		return err
	}
	for _, h := range holdouts {
		var training, test []child
		for _, c := range today {
			switch {
			case !slices.Contains(h.cycles, c.cycle):
				training = append(training, c)
			case c.age < oldestYoung:
				test = append(test, c)
			}
		}
		if len(test) == 0 {
			return fmt.Errorf("no child of 2 to 12 years in the cycles %s", strings.Join(h.cycles, ", "))
		}
		t := *tables
		if t.Relations, err = withToday(ofSurvey(tables.Relations), survey, training, tables); err != nil {
			return err
		}
		ref, err := sizing.New(&t)
		if err != nil {
			return err
		}
		third := thirdsOf(test, median)
		for i, c := range test {
			if third[i] == "" {
				continue
			}
			if err := scores.judge(ref, now, c, third[i], h.measurements); err != nil {
				return err
			}
		}
	}
	return nil
}

// judge adds the scores of one child. One of a height that the survey does not
// cover has none.
func (t thirdScores) judge(ref *sizing.Reference, era string, c child, third string, measurements []string) error {
	for _, k := range knowledges {
		known, ok := k.of(c)
		if !ok || !slices.Contains(thirdKnowledges, k.name) {
			continue
		}
		body, err := ref.Estimate(known)
		var outside *sizing.RangeError
		if errors.As(err, &outside) {
			return nil
		} else if err != nil {
			return err
		}
		for _, id := range measurements {
			if reading, ok := body.Get(id); ok && !math.IsNaN(c.value(id)) {
				t.add(thirdTally{era, k.name, id, c.sex, third}, scoreOf(c.value(id), reading))
			}
		}
	}
	return nil
}
