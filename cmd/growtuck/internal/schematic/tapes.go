package schematic

// A Figured is whom the places of the tape are shown on.
type Figured string

// The figures.
const (
	Girl Figured = "girl"
	Boy  Figured = "boy"
	Baby Figured = "baby"
)

// Figures are all figures.
var Figures = []Figured{Girl, Boy, Baby}

// A laidTape is where the tape lies for one measurement.
type laidTape struct {
	id     string
	seen   []*path // the tape
	hidden []*path // behind the body
	tag    point   // of its number; anchored beside the figure, in its column
	column int     // 0: the tag is where it is; 1: to the right of the figure; -1: to the left
}

// beside is 1 for a tape that is held upright beside the body.
func (t laidTape) beside() int {
	if t.column == 0 && len(t.hidden) > 0 {
		return 1
	}
	return 0
}

// A posture is one view of a figure with its tapes.
type posture struct {
	id, title string
	skin      []*path // filled
	lines     []line  // on it
	tapes     []laidTape
	reach     float64 // half of its breadth, beyond which numbers are
}

func (p *posture) skinned(s *path) { s.closed = true; p.skin = append(p.skin, s) }
func (p *posture) line(kind string, s *path) {
	p.lines = append(p.lines, line{s, kind})
}

// ring is a tape round something, between two sides; its front hangs a little.
func (p *posture) ring(id string, a, b point, column int) {
	hang := point{0, b.minus(a).long() * 0.13}
	along := b.minus(a).times(0.3)
	front := start(a.x, a.y).curve(a.plus(along).plus(hang), b.minus(along).plus(hang), b)
	back := start(a.x, a.y).curve(a.plus(along).minus(hang), b.minus(along).minus(hang), b)
	p.tapes = append(p.tapes, laidTape{id: id, seen: []*path{front}, hidden: []*path{back}, tag: b, column: column})
}

// straightTape is a tape along points, with strokes across its ends.
func (p *posture) straightTape(id string, column int, points ...point) {
	t := laidTape{id: id, seen: []*path{straight(points...)}, column: column}
	a, b := points[0], points[len(points)-1]
	t.seen = append(t.seen, ends(a, points[1], 1.6, false)[0], ends(points[len(points)-2], b, 1.6, false)[1])
	t.tag = between(points[0], points[1], 0.5)
	p.tapes = append(p.tapes, t)
}

// upright is a tape straight up beside the body, with thin lines to the heights
// that it is between.
func (p *posture) upright(id string, x, from, to, reach float64) {
	p.straightTape(id, 0, point{x, from}, point{x, to})
	t := &p.tapes[len(p.tapes)-1]
	for _, y := range []float64{from, to} {
		t.hidden = append(t.hidden, straight(point{x, y}, point{reach, y}))
	}
}

// postures are the views of a figure.
func postures(f Figured) []*posture {
	a := child
	if f == Baby {
		a = baby
	}
	all := []*posture{a.front(f), a.back(f)}
	if f != Baby {
		all = append(all, seated(f))
	} else {
		all = append(all, seatedBaby())
	}
	return append(all, handView(), footView())
}

// standing is the figure without its tapes.
func (a anatomy) standing(f Figured) *posture {
	p := &posture{}
	right := spline(a.outline...)
	p.skinned(right.whole())
	wear := spline(a.garment[1:4]...)
	pants := straight(a.garment[0], a.garment[1])
	pants.segments = append(pants.segments, wear.segments...)
	pants.line(a.garment[len(a.garment)-1])
	p.line("wear", pants.whole())
	return p
}

func (p *posture) hair(points []point) {
	if len(points) > 0 {
		p.line("hair", spline(points...).whole())
	}
}

func (a anatomy) front(f Figured) *posture {
	p := a.standing(f)
	p.id, p.title, p.reach = "front", "from the front", a.fingers.x+3
	p.hair(a.hair[string(f)])
	eye := a.chin * 0.55
	for _, x := range []float64{-1, 1} {
		p.line("face", circle(point{x * a.chin * 0.16, eye}, 0.8))
	}
	p.line("face", start(-a.chin*0.1, a.chin*0.8).curve(point{-a.chin * 0.05, a.chin * 0.85}, point{a.chin * 0.05, a.chin * 0.85}, point{a.chin * 0.1, a.chin * 0.8}))
	p.line("face", circle(point{0, a.navel}, 0.7))
	if f == Baby { // lying on its back, between two boards
		p.line("face", straight(point{-28, -1.5}, point{28, -1.5}))
	}
	p.line("face", straight(point{-30, 201}, point{30, 201}))

	across := func(id string, y float64, column int) {
		half := a.body(y)
		p.ring(id, point{-half, y}, point{half, y}, column)
	}
	brow := a.chin * 0.36
	half := a.sides(brow)[0]
	p.ring("head", point{-half, brow}, point{half, brow}, 1)
	neck := a.sides(a.nape - 1)[0]
	p.ring("neck", point{-neck, a.nape - 1}, point{neck, a.nape - 1}, 1)
	p.ring("upper_arm", a.upperArm[1], a.upperArm[0], 1)
	p.ring("forearm", a.forearm[1], a.forearm[0], 1)
	p.ring("wrist", a.wristRing[1], a.wristRing[0], 1)
	across("chest", a.chest, 1)
	across("waist", a.waist, 1)
	across("waist_navel", a.navel, 1)
	across("hip", a.hip, 1)
	leg := func(id string, y float64) {
		x := a.leg(y)
		p.ring(id, point{x[0], y}, point{x[1], y}, 1)
	}
	leg("thigh", a.crotch+4)
	leg("mid_thigh", a.midThigh)
	leg("calf", a.calf)
	leg("ankle", a.ankle)
	p.straightTape("inside_leg", 0, point{0, a.crotch}, point{0, 200})
	p.tapes[len(p.tapes)-1].tag = point{0, a.calf + 14}
	p.straightTape("armhole_depth", -1, point{-a.tip.x + 2, a.tip.y}, point{-a.tip.x + 2, a.armpit})
	p.straightTape("waist_to_knee", 0, point{-a.body(a.waist) * 0.7, a.waist}, point{-a.body(a.waist) * 0.7, a.knee})
	p.tapes[len(p.tapes)-1].tag = point{-a.body(a.waist) * 0.7, a.midThigh}
	x := -p.reach - 12
	p.upright("crown_to_throat", -a.sides(brow)[0]-7, 0, a.notch, 0)
	for i, h := range []struct {
		id string
		y  float64
	}{{"trochanteric_height", a.thighBone}, {"iliocristale_height", a.hipBone}, {"waist_height", a.navel}, {"axilla_height", a.armpit}, {"suprasternale_height", a.notch}, {"height", 0}} {
		p.upright(h.id, x-11*float64(i), h.y, 200, 0)
		p.tapes[len(p.tapes)-1].tag = point{x - 11*float64(i), max(h.y+9, 60-14*float64(i))}
	}
	scales := straight(point{-24, 203}, point{24, 203}, point{24, 209}, point{-24, 209}, point{-24, 203})
	p.tapes = append(p.tapes, laidTape{id: "weight", seen: []*path{scales}, tag: point{0, 206}})
	return p
}

func (a anatomy) back(f Figured) *posture {
	p := a.standing(f)
	p.id, p.title, p.reach = "back", "from the back", a.fingers.x+3
	// The head from behind: hair all over, down to the neck.
	head := []point{{0, -1}, a.outline[1], a.outline[2], a.outline[3], a.outline[4], {a.outline[4].x * 0.5, a.outline[4].y + 2}, {0, a.outline[4].y + 2}}
	if f == Girl {
		head = []point{{0, -1.5}, {10, 0.8}, {14.4, 9}, {15.2, 22}, {14.6, 35}, {7, 37}, {0, 36}}
	}
	p.hair(head)
	fold := a.crotch + 1
	p.line("face", start(0, a.hip-6).line(point{0, a.crotch}))
	for _, x := range []float64{-1, 1} {
		p.line("face", start(x*1.5, fold).curve(point{x * 4, fold + 3}, point{x * 9, fold + 3}, point{x * a.body(a.hip) * 0.7, fold}))
	}
	p.line("face", circle(point{0, a.nape}, 0.8))
	p.straightTape("shoulder_breadth", 1, point{-a.tip.x, a.tip.y}, point{a.tip.x, a.tip.y})
	p.tapes[len(p.tapes)-1].tag = point{a.tip.x, a.tip.y}
	mid := (a.shoulder + a.armpit) / 2
	p.straightTape("cross_back", 1, point{-a.body(a.armpit + 1), mid}, point{a.body(a.armpit + 1), mid})
	p.tapes[len(p.tapes)-1].tag = point{a.body(a.armpit + 1), mid}
	p.straightTape("back_waist_length", 0, point{0, a.nape}, point{0, a.waist})
	p.straightTape("hip_breadth", 1, point{-a.body(a.hip), a.hip}, point{a.body(a.hip), a.hip})
	p.tapes[len(p.tapes)-1].tag = point{a.body(a.hip), a.hip}
	p.straightTape("neck_to_wrist", -1, point{0, a.nape}, point{-a.tip.x, a.tip.y - 1}, point{-a.elbow.x - 1, a.elbow.y}, point{-a.wrist.x, a.wrist.y})
	p.tapes[len(p.tapes)-1].tag = point{-a.tip.x * 0.8, a.tip.y - 1.5}
	p.straightTape("arm_length", 1, a.tip, point{a.elbow.x + 1.5, a.elbow.y}, point{a.wrist.x + 1, a.wrist.y})
	p.tapes[len(p.tapes)-1].tag = between(a.elbow, a.wrist, 0.4)
	inner := point{-a.body(a.armpit + 1), a.armpit}
	p.straightTape("arm_to_underarm", -1, inner, point{-a.elbow.x + 3, a.elbow.y}, point{-a.wrist.x + 2, a.wrist.y})
	p.tapes[len(p.tapes)-1].tag = between(inner, point{-a.elbow.x + 3, a.elbow.y}, 0.7)
	for i, h := range []struct {
		id       string
		from, to float64
	}{{"nape_to_waist", a.nape, a.waist}, {"nape_to_hip", a.nape, a.hip}, {"trunk", a.nape, a.crotch}, {"nape_to_knee", a.nape, a.knee}} {
		x := p.reach + 19 + 12*float64(i)
		p.upright(h.id, x, h.from, h.to, 0)
		p.tapes[len(p.tapes)-1].tag = point{x, a.nape + 16 + 13*float64(i)}
	}
	p.upright("gluteal_furrow_height", -p.reach, fold, 200, -4)
	p.line("face", straight(point{-30, 201}, point{30, 201}))
	return p
}
