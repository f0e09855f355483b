package validate

import (
	"growtuck/data"
	"growtuck/sizing"
)

// Sexes, statistics and units, in the canonical order of rows.
var (
	bodySexes      = data.Words[data.Body]("sex")
	bodyStatistics = data.Words[data.Body]("statistic")
	bodyUnits      = data.Words[data.Body]("unit")
)

const (
	inGiven = iota
	inLow
	inHigh
	inMean
	inSD
	inP3
	inP5
	inP10
	inP25
	inP50
	inP75
	inP90
	inP95
	inP97
)

const (
	inCm = iota
	inMm
	inInch
	inKg // and what follows: masses
	inPound
	inOunce
)

const inBoth = 2

// ownUnits are what a unit is in cm or kg.
var ownUnits = []float64{1, 0.1, sizing.CmPerInch, 1, sizing.KgPerPound, sizing.KgPerPound / 16}

// isMiddle reports a statistic that a measurement is read from.
func isMiddle(statistic int) bool {
	return statistic == inGiven || statistic == inP50 || statistic == inMean
}

// unitsLike are the units of what a unit is of: lengths or masses.
func unitsLike(unit int) []int {
	if unit < inKg {
		return []int{inCm, inMm, inInch}
	}
	return []int{inKg, inPound, inOunce}
}

// A bodyKey is the key of a body row, packed so that keys in order are rows in
// canonical order: chart 16 bits, size 24, sex 2, measurement 14, statistic 4,
// unit 3. Chart, size and measurement are places in their tables.
type bodyKey uint64

const (
	maxCharts       = 1 << 16
	maxSizes        = 1 << 24
	maxMeasurements = 1 << 14
)

func newBodyKey(chart, size, sex, measurement, statistic, unit int) bodyKey {
	return bodyKey(chart)<<47 | bodyKey(size)<<23 | bodyKey(sex)<<21 | bodyKey(measurement)<<7 | bodyKey(statistic)<<3 | bodyKey(unit)
}

func (k bodyKey) chart() int       { return int(k >> 47) }
func (k bodyKey) size() int        { return int(k >> 23 & (maxSizes - 1)) }
func (k bodyKey) sex() int         { return int(k >> 21 & 3) }
func (k bodyKey) measurement() int { return int(k >> 7 & (maxMeasurements - 1)) }
func (k bodyKey) statistic() int   { return int(k >> 3 & 15) }
func (k bodyKey) unit() int        { return int(k & 7) }

func (k bodyKey) withSize(size int) bodyKey { return k&^((maxSizes-1)<<23) | bodyKey(size)<<23 }
func (k bodyKey) withSex(sex int) bodyKey   { return k&^(3<<21) | bodyKey(sex)<<21 }
func (k bodyKey) withMeasurement(m int) bodyKey {
	return k&^((maxMeasurements-1)<<7) | bodyKey(m)<<7
}
func (k bodyKey) withStatistic(s int) bodyKey { return k&^(15<<3) | bodyKey(s)<<3 }
func (k bodyKey) withUnit(u int) bodyKey      { return k&^7 | bodyKey(u) }
