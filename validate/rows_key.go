package validate

import "growtuck/data"

// Sexes, statistics and units, in the canonical order of rows.
var (
	bodySexes      = data.Words[data.Body]("sex")
	bodyStatistics = data.Words[data.Body]("statistic")
	bodyUnits      = data.Words[data.Body]("unit")
)

const (
	inGiven, inLow, inHigh           = 0, 1, 2
	inP5, inP25, inP50, inP75, inP95 = 3, 4, 5, 6, 7
	inCm, inInch, inKg               = 0, 1, 2
	inBoth                           = 2
)

// A bodyKey is the key of a body row, packed so that keys in order are rows in
// canonical order: chart 16 bits, size 24, sex 2, measurement 14, statistic 4,
// unit 2. Chart, size and measurement are places in their tables.
type bodyKey uint64

const (
	maxCharts       = 1 << 16
	maxSizes        = 1 << 24
	maxMeasurements = 1 << 14
)

func newBodyKey(chart, size, sex, measurement, statistic, unit int) bodyKey {
	return bodyKey(chart)<<46 | bodyKey(size)<<22 | bodyKey(sex)<<20 | bodyKey(measurement)<<6 | bodyKey(statistic)<<2 | bodyKey(unit)
}

func (k bodyKey) chart() int       { return int(k >> 46) }
func (k bodyKey) size() int        { return int(k >> 22 & (maxSizes - 1)) }
func (k bodyKey) sex() int         { return int(k >> 20 & 3) }
func (k bodyKey) measurement() int { return int(k >> 6 & (maxMeasurements - 1)) }
func (k bodyKey) statistic() int   { return int(k >> 2 & 15) }
func (k bodyKey) unit() int        { return int(k & 3) }

func (k bodyKey) withSize(size int) bodyKey { return k&^((maxSizes-1)<<22) | bodyKey(size)<<22 }
func (k bodyKey) withSex(sex int) bodyKey   { return k&^(3<<20) | bodyKey(sex)<<20 }
func (k bodyKey) withMeasurement(m int) bodyKey {
	return k&^((maxMeasurements-1)<<6) | bodyKey(m)<<6
}
func (k bodyKey) withStatistic(s int) bodyKey { return k&^(15<<2) | bodyKey(s)<<2 }
func (k bodyKey) withUnit(u int) bodyKey      { return k&^3 | bodyKey(u) }
