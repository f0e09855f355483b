package validate

import (
	"math"

	"growtuck/sizing"
)

// related lists pairs of measurements of which the first is the smaller on any
// child: of the same kind of body, taken as the table of measurements says.
var related = [][2]string{
	{"ankle", "calf"}, {"calf", "thigh"}, {"thigh", "hip"}, {"calf", "hip"},
	{"wrist", "forearm"}, {"wrist", "upper_arm"}, {"wrist", "ankle"}, {"wrist", "hand"}, {"upper_arm", "thigh"}, {"upper_arm", "neck"}, {"upper_arm", "chest"},
	{"neck", "head"}, {"neck", "chest"}, {"waist", "chest"}, {"waist", "hip"}, {"waist_navel", "hip"},
	{"chest", "height"}, {"hip", "height"}, {"cross_back", "chest"}, {"shoulder_breadth", "arm_length"},
	{"sitting_height", "height"}, {"suprasternale_height", "height"}, {"axilla_height", "suprasternale_height"},
	{"waist_height", "axilla_height"}, {"iliocristale_height", "axilla_height"}, {"trochanteric_height", "iliocristale_height"},
	{"gluteal_furrow_height", "trochanteric_height"}, {"knee_height", "gluteal_furrow_height"}, {"foot_length", "knee_height"},
	{"inside_leg", "waist_height"}, {"knee_height", "inside_leg"}, {"crown_to_throat", "sitting_height"}, {"rise", "trunk"},
	{"arm_length", "sitting_height"}, {"arm_to_underarm", "neck_to_wrist"}, {"arm_to_underarm", "arm_length"},
	{"armhole_depth", "back_waist_length"}, {"armhole_depth", "arm_to_underarm"}, {"back_waist_length", "neck_to_wrist"},
	{"hand_breadth", "hand_length"}, {"foot_breadth", "foot_length"}, {"foot_breadth", "hand_length"}, {"hand_length", "foot_length"},
	{"hand_length", "arm_length"}, {"hand_length", "hand"}, {"foot_breadth", "foot"}, {"foot_length", "height"},
}

// relatedPairs indexes related by the smaller measurement.
func (ix *tableIndex) relatedPairs() map[int][]int {
	pairs := make(map[int][]int)
	for _, p := range related {
		a, ok := ix.measurements[p[0]]
		b, ok2 := ix.measurements[p[1]]
		if ok && ok2 {
			pairs[a] = append(pairs[a], b)
		}
	}
	return pairs
}

func (s *bodySet) checkRelated(i int, b *bodyRecord, pairs map[int][]int) {
	if b.key.statistic() == inSD {
		return
	}
	for _, m := range pairs[b.key.measurement()] {
		larger := s.near(i, b.key.withMeasurement(m))
		if larger == nil || b.value < larger.value {
			continue
		}
		far := (b.value/larger.value - 1) / orderSlack
		s.doubt(doubt{"R25", Warn, b, []*bodyRecord{larger}, far}, func(f *Finding) {
			f.Found = b.fact()
			f.Expected = sizing.NewFact("rows.below-that", larger.amount(), s.t.Measurements[m].ID)
			f.Fix = noteFix("R25")
		})
	}
}

// orderSlack is by what share a measurement that should be the smaller may be the
// larger without being misread: half as much as a note explains. The trade chart's
// waists of babies are 12 % larger than their chests.
const orderSlack = 0.075

// The drop from the shoulder to the armpit is what the rows of the arm leave.
// The straight armhole depth is near it.
const (
	leastDrop, mostDrop = 0.5, 1.5 // of armhole depth
)

func (s *bodySet) checkArm(i int, b *bodyRecord) {
	if s.t.Measurements[b.key.measurement()].ID != "neck_to_wrist" {
		return
	}
	get := func(id string) *bodyRecord {
		m, ok := s.measurements[id]
		if !ok {
			return nil
		}
		return s.near(i, b.key.withMeasurement(m))
	}
	back, arm, armhole := get("cross_back"), get("arm_to_underarm"), get("armhole_depth")
	if back == nil || arm == nil || armhole == nil {
		return
	}
	drop := b.value - back.value/2 - arm.value
	if drop >= leastDrop*armhole.value && drop <= mostDrop*armhole.value {
		return
	}
	far := math.Abs(drop/armhole.value-(leastDrop+mostDrop)/2) / ((mostDrop - leastDrop) / 2)
	s.doubt(doubt{"R26", Warn, b, []*bodyRecord{back, arm, armhole}, far}, func(f *Finding) {
		f.Found = sizing.NewFact("rows.leaves-drop", b.amount(), b.amountOf(drop))
		f.Expected = sizing.NewFact("rows.drop-by-armhole", leastDrop*armhole.value, mostDrop*armhole.value, armhole.amount())
		f.Fix = noteFix("R26")
	})
}

// A ratioBand is what share of height nearly all children of a height have.
type ratioBand struct{ from, to, low, high float64 }

// expected is what nearly all children of a height have: a length, or a mass.
func (r ratioBand) expected(height float64, mass bool) sizing.Fact {
	low, high := r.low*height, r.high*height
	if mass {
		return sizing.NewFact("rows.mass-at-height", sizing.Weight(low), sizing.Weight(high), sizing.Length(height))
	}
	return sizing.NewFact("rows.length-at-height", sizing.Range{Low: sizing.Length(low), High: sizing.Length(high)}, sizing.Length(height))
}

type ratioOf struct{ sex, measurement int }

func (ix *tableIndex) ratioBands() map[ratioOf][]ratioBand {
	bands := make(map[ratioOf][]ratioBand)
	for _, r := range ix.t.Ratios {
		m, ok := ix.measurements[r.Measurement]
		if !ok {
			continue
		}
		for sex, name := range bodySexes {
			if name == r.Sex {
				of := ratioOf{sex, m}
				bands[of] = append(bands[of], ratioBand{r.LowCm, r.HighCm, r.P1, r.P99})
			}
		}
	}
	return bands
}

// statureChart has the median heights that labels of age stand for.
const statureChart = "stature"

// labelHeights returns the median height at an age in years, for each sex and
// both. A chart without heights of its own is read at these.
func (s *bodySet) labelHeights(places []sizePlace) func(sex int, years float64) float64 {
	height, ok := s.measurements["height"]
	chart, ok2 := s.charts[statureChart]
	if !ok || !ok2 {
		return func(int, float64) float64 { return math.NaN() }
	}
	var x, y [2][]float64
	for i, z := range s.t.Sizes { // in canonical order, so by age
		if z.Chart != statureChart || z.Scale != "years" {
			continue
		}
		for sex := range 2 {
			if b := s.find(newBodyKey(chart, i, sex, height, inP50, inCm)); b != nil {
				x[sex], y[sex] = append(x[sex], places[i].position), append(y[sex], b.value)
			}
		}
	}
	var curves [2]*sizing.Curve
	for sex := range 2 {
		var err error
		if curves[sex], err = sizing.NewCurve(x[sex], y[sex]); err != nil {
			return func(int, float64) float64 { return math.NaN() }
		}
	}
	return func(sex int, years float64) float64 {
		if sex == inBoth {
			return (curves[0].At(years) + curves[1].At(years)) / 2
		}
		return curves[sex].At(years)
	}
}

func (s *bodySet) checkRatio(i int, b *bodyRecord, ratios map[ratioOf][]ratioBand, heights func(int, float64) float64, places []sizePlace) {
	if !isMiddle(b.key.statistic()) {
		return
	}
	bands := ratios[ratioOf{b.key.sex(), b.key.measurement()}]
	if bands == nil {
		return
	}
	cm := math.NaN()
	if m, ok := s.measurements["height"]; ok {
		for _, unit := range unitsLike(inCm) {
			if h := s.near(i, b.key.withMeasurement(m).withUnit(unit)); h != nil && math.IsNaN(cm) {
				cm = h.cm()
			}
		}
	}
	if p := places[b.key.size()]; math.IsNaN(cm) && p.scale == 1 {
		cm = heights(b.key.sex(), p.position)
	}
	for _, band := range bands {
		if !(cm >= band.from && cm < band.to) {
			continue
		}
		if r := b.cm() / cm; r < band.low || r > band.high {
			far := math.Abs(r-(band.low+band.high)/2) / ((band.high - band.low) / 2)
			s.doubt(doubt{"R27", Warn, b, nil, far}, func(f *Finding) {
				f.Found = b.fact()
				f.Expected = band.expected(cm, b.key.unit() >= inKg)
				f.Fix, f.Source = noteFix("R27"), "cpsc-1977"
			})
		}
		return
	}
}
