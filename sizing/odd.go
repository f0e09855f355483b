package sizing

import "math"

// How many spreads a measurement lies from what the others say of it: beyond
// farOut it counts as if it were there, since of a normal sample one in sixteen
// thousand is; beyond slip, as the fit of the relations has it, it is not taken
// for the child's.
const (
	farOut = 4
	slip   = 6
)

// anyBuild is how much wider than among heavy children the weights are taken to
// spread that contradict nothing: any build can be. Where a height is looked for,
// a build as rare as that is a child of another height.
const anyBuild = 2

// odd returns which of the evidence the others contradict most, -1 where none is
// contradicted, and by how much its logarithm is to change. wide is how much wider
// than among heavy children builds are taken to spread. The height is among the
// others. z and room are scratch space of the length of what was taken
// but weight.
func (c *conditional) odd(l *level, wide float64, logs, z, room []float64) (worst int, change float64) {
	k := len(z)
	said := c.departures(l, logs, z)
	free := 1 / (wide * l.high * wide * l.high) // precision
	mean, variance := said/(free+l.told), 1/(free+l.told)
	if c.weighed {
		mean, variance = logs[0]-l.weight, 0
	}
	total := mean * mean * free
	for j := range z {
		z[j] -= mean * l.b[j]
		total += z[j] * z[j]
	}
	if total <= farOut*farOut {
		return -1, 0
	}
	// What each has beside what the others say of it, over its spread given them,
	// is a row of the inverse of the correlations.
	worst = -1
	far := farOut + 1e-9
	consider := func(i int, t, spread float64) {
		if math.Abs(t) <= far {
			return
		}
		worst, far, change = i, math.Abs(t), -t*spread
		if far <= slip {
			change += math.Copysign(farOut, t) * spread
		}
	}
	if c.weighed {
		precision := free + l.told
		consider(0, (mean*precision-said)/math.Sqrt(precision), 1/math.Sqrt(precision))
	}
	first := len(logs) - k
	inverse := room[:k]
	for j := range k {
		clear(inverse)
		inverse[j] = 1
		forward(l.l, k, inverse)
		own, against, precision := 0.0, 0.0, 0.0
		for i, x := range inverse {
			own += x * z[i]
			against += x * l.b[i]
			precision += x * x
		}
		precision -= against * against * variance
		consider(first+j, own/math.Sqrt(precision), l.rest[j]/math.Sqrt(precision))
	}
	return worst, change
}
