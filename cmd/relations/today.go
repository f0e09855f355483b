package main

import (
	"fmt"
	"math"
	"slices"

	"growtuck/data"
	"growtuck/sizing"
)

// todayBands are the bands in which children of today are told apart: the
// survey's, and its lowest in two.
var todayBands = []band{{83, 100}, {100, 115}, {115, 130}, {130, 150}, {150, 185}}

// todayMinimum is the fewest children that a figure of a band is read from.
const todayMinimum = 150

// oldestToday bounds the ages of the examined children that are read: with older
// ones the tallest bands would be of grown men and women.
const oldestToday = 18.0

// yearsShare is how much of the difference between today's girths and those of
// 1977, at the same height and weight, is taken for the years. The rest may be
// the place of the tape, which the two did not put at the same place; the records
// do not tell which it is, so half is taken for each.
const yearsShare = 0.5

// zTenth is how many spreads of a normal sample lie from the middle to p10 and p90.
const zTenth = 1.2815515655446004

// A medianReader gives the median of a measurement at a height, NaN where it is
// not known.
type medianReader func(sex, measurement string, height float64) float64

// chartMedians reads the medians of chart measured.
func chartMedians(tables *data.Tables) (medianReader, error) {
	t := *tables
	t.Relations = nil // they are being made
	ref, err := sizing.New(&t)
	if err != nil {
		return nil, err
	}
	chart, err := ref.Chart("measured")
	if err != nil {
		return nil, err
	}
	return func(sex, measurement string, height float64) float64 {
		run, ok := chart.Run(sizing.Height, sizing.Sex(sex))
		if !ok {
			return math.NaN()
		}
		return run.Value(measurement, height)
	}, nil
}

// todayRows returns the rows of the table of relations that say how children of
// today, of one sex or of both, differ from those of the survey.
func todayRows(sex string, survey, today []child, median medianReader) []data.Relation {
	survey, today = ofSex(survey, sex), ofSex(today, sex)
	var rows []data.Relation
	add := func(a, statistic string, b band, value float64, n int, source string) {
		low, high := b.low, b.high
		rows = append(rows, data.Relation{Sex: sex, A: a, B: "weight", Statistic: statistic, LowCm: &low, HighCm: &high,
			Value: round(value), N: float64(n), Source: source, Basis: basis})
	}
	for _, b := range todayBands {
		then, now := weightDepartures(survey, sex, b, median), weightDepartures(today, sex, b, median)
		if len(then) > 0 && percentile(then, 0.1) < percentile(now, 0.1) { // the ranges are to hold both
			add("weight", "low", b, -percentile(then, 0.1)/zTenth, len(then), sourceID)
		} else {
			add("weight", "low", b, -percentile(now, 0.1)/zTenth, len(now), todayID)
		}
	}
	for _, b := range todayBands {
		now := weightDepartures(today, sex, b, median)
		add("weight", "high", b, percentile(now, 0.9)/zTenth, len(now), todayID)
	}
	var lines [][]bandLine
	for _, v := range examined[1:] {
		lines = append(lines, bandLines(today, sex, v.id, median))
	}
	for _, statistic := range []string{"slope", "rest", "shift"} {
		for i, v := range examined[1:] {
			for _, l := range lines[i] {
				add(v.id, statistic, l.band, map[string]float64{"slope": l.slope, "rest": l.rest, "shift": l.shift}[statistic], l.n, todayID)
			}
		}
	}
	return rows
}

// weightDepartures are the log departures of the weights of children of a band
// from the median at their height, ascending.
func weightDepartures(children []child, sex string, b band, median medianReader) []float64 {
	var all []float64
	for _, c := range children {
		d := math.Log(c.value("weight") / median(sex, "weight", c.height))
		if b.holds(c.height) && c.age < oldestToday && !math.IsNaN(d) {
			all = append(all, d)
		}
	}
	slices.Sort(all)
	return all
}

// A bandLine says how a girth goes with weight in a band of heights: the log
// departure from the median is about shift + slope × that of the weight. rest is
// the root mean square about that line.
type bandLine struct {
	band
	slope, shift, rest float64
	n                  int
}

// bandLines fits the line of each band that has children enough, by least
// squares, and keeps yearsShare of its height above the median's children.
func bandLines(children []child, sex, id string, median medianReader) []bandLine {
	var lines []bandLine
	for _, b := range todayBands {
		var x, y []float64
		for _, c := range children {
			w, g := math.Log(c.value("weight")/median(sex, "weight", c.height)), math.Log(c.value(id)/median(sex, id, c.height))
			if b.holds(c.height) && c.age < oldestToday && !math.IsNaN(w+g) {
				x, y = append(x, w), append(y, g)
			}
		}
		for range 2 { // the second time without slips
			if len(x) < todayMinimum {
				break
			}
			l := fitLine(x, y)
			rest := make([]float64, len(x))
			for i := range x {
				rest[i] = y[i] - l.shift - l.slope*x[i]
			}
			low, high := robustLimits(rest)
			var keptX, keptY []float64
			for i, r := range rest {
				if r >= low && r <= high {
					keptX, keptY = append(keptX, x[i]), append(keptY, y[i])
				}
			}
			x, y = keptX, keptY
		}
		if len(x) < todayMinimum {
			continue
		}
		l := fitLine(x, y)
		l.band, l.n = b, len(x)
		l.shift *= yearsShare
		sum := 0.0
		for i := range x {
			r := y[i] - l.shift - l.slope*x[i]
			sum += r * r
		}
		l.rest = math.Sqrt(sum / float64(len(x)))
		lines = append(lines, l)
	}
	return lines
}

// fitLine is the line of least squares.
func fitLine(x, y []float64) bandLine {
	n := float64(len(x))
	var sx, sy, sxx, sxy float64
	for i := range x {
		sx, sy, sxx, sxy = sx+x[i], sy+y[i], sxx+x[i]*x[i], sxy+x[i]*y[i]
	}
	slope := (sxy - sx*sy/n) / (sxx - sx*sx/n)
	return bandLine{slope: slope, shift: (sy - slope*sx) / n}
}

// ofSurvey are the rows that the survey alone gives.
func ofSurvey(rows []data.Relation) []data.Relation {
	var some []data.Relation
	for _, row := range rows {
		if row.Statistic == "sd" || row.Statistic == "r" {
			some = append(some, row)
		}
	}
	return some
}

// withToday returns the fitted rows with those of examined children, in the order
// of the table.
func withToday(rows []data.Relation, survey, today []child, tables *data.Tables) ([]data.Relation, error) {
	median, err := chartMedians(tables)
	if err != nil {
		return nil, fmt.Errorf("the medians of the survey: %w", err)
	}
	var all []data.Relation
	for i, row := range rows {
		all = append(all, row)
		if i == len(rows)-1 || rows[i+1].Sex != row.Sex {
			all = append(all, todayRows(row.Sex, survey, today, median)...)
		}
	}
	return all, nil
}
