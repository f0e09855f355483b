package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
)

// howFlags say how a garment is worked.
type howFlags struct {
	craft, gauge, before, rib string
	yoke, multiple, closure   string
	hood                      string
	yarn, swatch              string
	stretch                   []string
	zippers                   []float64
	ribShare, margin          float64
	knitPer4In                float64
	turned                    bool
}

func (f *howFlags) add(cmd *cobra.Command) {
	flags := cmd.Flags()
	flags.StringVar(&f.craft, "craft", "", strings.Join(sizing.Words(plan.Crafts), " or "))
	flags.StringVar(&f.gauge, "gauge", "", "`stitches x rows` of the washed swatch, as 18x24/10cm or 20x28/4in")
	flags.StringVar(&f.before, "before-washing", "", "`stitches x rows` of the same swatch before it was washed")
	flags.StringVar(&f.rib, "rib", "", "`stitches x rows` of the ribbing, washed; else the gauge of the fabric")
	flags.StringVar(&f.yoke, "yoke", string(plan.Circular), "how body and sleeves meet: "+strings.Join(sizing.Words(plan.Constructions), ", "))
	flags.StringVar(&f.multiple, "multiple", "", "`form` of the body's stitches: 4n, 6n+2, even, odd")
	flags.Float64Var(&f.ribShare, "rib-share", 0, "`share` of the stitches that ribbing is worked on, 0.5 to 1 (0.9)")
	flags.BoolVar(&f.turned, "turned", false, "work sleeves, legs and other narrow tubes in turned rows, with a seam")
	flags.StringArrayVar(&f.stretch, "stretch", nil, "how many `times` edges stretch, as measured: 1.5, or neck=1.4; may be repeated")
	flags.StringVar(&f.hood, "hood", string(plan.ShapedCrown), "how the top of a hood is made: "+strings.Join(sizing.Words(plan.Hoods), ", "))
	flags.StringVar(&f.closure, "closure", string(plan.Zip), "what closes a front: "+strings.Join(sizing.Words(plan.Closures), ", "))
	flags.Float64SliceVar(&f.zippers, "zippers", nil, "stocked zippers, in `inches`, parted by commas")
	flags.StringVar(&f.yarn, "yarn", "", "grams and metres of a `ball`, as \"50g 125m\"")
	flags.StringVar(&f.swatch, "swatch", "", "`size and weight` or yarn of a swatch, as \"10x10cm 4g\" or \"10x10cm 9.5m\"")
	flags.Float64Var(&f.margin, "margin", 0, "safety `share` of yarn (0.1, or 0.2 with a hood)")
	flags.Float64Var(&f.knitPer4In, "knits-to", 0, "`stitches` over 4 in that the yarn knits to, to check the yarn by")
	complete(cmd, "craft", sizing.Words(plan.Crafts)...)
	complete(cmd, "yoke", sizing.Words(plan.Constructions)...)
	complete(cmd, "hood", sizing.Words(plan.Hoods)...)
	complete(cmd, "closure", sizing.Words(plan.Closures)...)
}

// how turns the flags into what the planner asks for.
func (f *howFlags) how() (plan.How, error) {
	h := plan.How{Craft: plan.Craft(f.craft), Construction: plan.Construction(f.yoke), Closure: plan.Closure(f.closure), Hood: plan.Hood(f.hood),
		RibShare: f.ribShare, Turned: f.turned, ZippersIn: f.zippers, Margin: f.margin, KnitPer4In: f.knitPer4In}
	if f.craft == "" {
		return h, usagef("no craft given; add --craft crochet or --craft knit")
	}
	if f.gauge == "" {
		return h, usagef("no gauge given; add --gauge, as 18x24/10cm: stitches and rows of the washed swatch")
	}
	var err error
	if h.Gauge, err = plan.ParseGauge(f.gauge); err != nil {
		return h, err
	}
	for _, g := range []struct {
		flag, text string
		into       **stitch.Gauge
	}{{"--before-washing", f.before, &h.Before}, {"--rib", f.rib, &h.Rib}} {
		if g.text == "" {
			continue
		}
		v, err := plan.ParseGauge(g.text)
		if err != nil {
			return h, fmt.Errorf("%s: %w", g.flag, err)
		}
		*g.into = &v
	}
	if h.Multiple, err = stitch.ParseMultiple(f.multiple); err != nil {
		return h, err
	}
	if f.yarn != "" {
		if h.Ball, err = plan.ParseBall(f.yarn); err != nil {
			return h, err
		}
	}
	if f.swatch != "" {
		if h.Swatch, err = plan.ParseSwatch(f.swatch); err != nil {
			return h, err
		}
	}
	h.Stretch, err = readStretch(f.stretch)
	return h, err
}

// readStretch reads 1.5, for all edges, and neck=1.4.
func readStretch(given []string) (map[string]float64, error) {
	if len(given) == 0 {
		return nil, nil
	}
	all := make(map[string]float64)
	for _, s := range given {
		edges, v, err := plan.ParseStretch(s)
		if err != nil {
			return nil, usagef("--%v", err)
		}
		for _, e := range edges {
			all[e] = v
		}
	}
	return all, nil
}
