package stitch

import (
	"fmt"
	"strconv"
)

// A LegSplit divides the hip stitches into two legs at the crotch, with a bridge
// (chained, cast on or a gusset) between front and back.
type LegSplit struct {
	Hip    int // stitches round the hip, halved
	Bridge int // between the legs, worked by both
	Leg    int // top of each leg: half the hip + bridge
}

// SplitLegs halves the hip and adds the bridge.
func SplitLegs(hip, bridge int) (LegSplit, error) {
	if err := firstError(checkCount("hip stitches", hip, 4), checkCount("bridge", bridge, 0)); err != nil {
		return LegSplit{}, err
	}
	if hip%2 != 0 {
		return LegSplit{}, &InputError{"hip stitches", strconv.Itoa(hip), "an even count, halved at the crotch"}
	}
	return LegSplit{hip, bridge, hip/2 + bridge}, nil
}

// Check verifies that both legs are the hip and twice the bridge.
func (s LegSplit) Check() error {
	if s.Hip%2 != 0 || s.Leg != s.Hip/2+s.Bridge {
		return &InputError{"leg", strconv.Itoa(s.Leg), fmt.Sprintf("half of hip %d + bridge %d = %s", s.Hip, s.Bridge, num(float64(s.Hip)/2+float64(s.Bridge)))}
	}
	return nil
}

// BridgeShare is the bridge as a share of the hip.
func (s LegSplit) BridgeShare() float64 { return float64(s.Bridge) / float64(s.Hip) }

// A LegTarget is the crotch of a one-piece or trousers.
type LegTarget struct {
	Gauge         Gauge
	Hip           int     // stitches, even
	ThighCm       float64 // girth of the top of the leg
	ThighLeastCm  float64 // floor, 0 for none
	BridgeCm      float64 // length of the bridge
	BridgeLeastCm float64 // floor, 0 for none
	WeightThigh   float64 // of a centimetre of error, squared; both 0 are 1 and 1
	WeightBridge  float64
}

// A LegPlan is the split and what it misses.
type LegPlan struct {
	LegSplit
	ThighFit, BridgeFit Finished
	CostThigh           float64 // weight × error²
	CostBridge          float64
}

// cost is the sum that was made least.
func (p LegPlan) cost() float64 { return p.CostThigh + p.CostBridge }

// PlanLegs finds the bridge of least cost. Both floors are always kept.
func PlanLegs(t LegTarget) (LegPlan, error) {
	if err := firstError(t.Gauge.Validate(), checkLength("thigh", t.ThighCm), checkOptionalLength("least thigh", t.ThighLeastCm),
		checkLength("bridge", t.BridgeCm), checkOptionalLength("least bridge", t.BridgeLeastCm),
		checkRange("weight of the thigh", t.WeightThigh, 0, 1e6, ""), checkRange("weight of the bridge", t.WeightBridge, 0, 1e6, "")); err != nil {
		return LegPlan{}, err
	}
	if _, err := SplitLegs(t.Hip, 0); err != nil {
		return LegPlan{}, err
	}
	if t.WeightThigh == 0 && t.WeightBridge == 0 {
		t.WeightThigh, t.WeightBridge = 1, 1
	}
	var best LegPlan
	found := false
	for bridge := 1; bridge <= t.Hip; bridge++ {
		leg := t.Hip/2 + bridge
		p := LegPlan{LegSplit: LegSplit{t.Hip, bridge, leg},
			ThighFit:  Finished{leg, t.Gauge.WidthCm(leg), t.ThighCm},
			BridgeFit: Finished{bridge, t.Gauge.WidthCm(bridge), t.BridgeCm}}
		if p.ThighFit.SizeCm < t.ThighLeastCm*(1-countTolerance) || p.BridgeFit.SizeCm < t.BridgeLeastCm*(1-countTolerance) {
			continue
		}
		p.CostThigh = t.WeightThigh * p.ThighFit.errorCm() * p.ThighFit.errorCm()
		p.CostBridge = t.WeightBridge * p.BridgeFit.errorCm() * p.BridgeFit.errorCm()
		if !found || better(p.cost(), best.cost()) {
			best, found = p, true
		}
	}
	if !found {
		return LegPlan{}, &InputError{"leg", fmt.Sprintf("thigh at least %s cm, on %d hip stitches", num(t.ThighLeastCm), t.Hip),
			"a bridge no longer than the hip that meets them: more hip stitches"}
	}
	return best, nil
}

// ShortRowSets is the number of pairs of short rows that make the back of the
// seat higher than the front by extraCm, as a nappy needs.
func ShortRowSets(g Gauge, extraCm float64) (sets int, fits Finished, err error) {
	if err := firstError(g.Validate(), checkLength("extra height of the back", extraCm)); err != nil {
		return 0, Finished{}, err
	}
	sets = nearestInt(g.Rows(extraCm) / 2)
	return sets, Finished{2 * sets, g.HeightCm(2 * sets), extraCm}, nil
}
