package schematic

// An anatomy is a child standing, or a baby lying, seen from the front: 200 units
// from the top of the head to the floor, x to the side from the middle. Both halves
// are alike.
type anatomy struct {
	outline []point // from the crown down the side, the arm and the leg to the crotch
	hair    map[string][]point
	// Heights of what tapes go by.
	chin, nape, notch, shoulder, armpit, chest, waist, navel, hipBone, thighBone, hip, crotch, midThigh, knee, calf, ankle float64
	tip, elbow, wrist, fingers                                                                                             point    // of the shoulder, and down the arm
	upperArm, forearm, wristRing                                                                                           [2]point // across the arm, outside first
	garment                                                                                                                []point  // briefs or a nappy, half
}

// child is of five years, six heads and a little tall.
var child = anatomy{
	outline: []point{{0, 0}, {8.5, 2.2}, {12.6, 10}, {12.6, 19}, {9.6, 28}, {6.6, 32.5}, {6.8, 36}, {13, 38.7}, {20.5, 40.5}, {24.6, 46}, {27, 56}, {30.5, 67}, {34.5, 79}, {37.3, 96}, {40.6, 104}, {40, 117},
		{36.6, 119}, {35.2, 110}, {31.4, 113}, {30.6, 108}, {32, 97.5}, {27.8, 83}, {23.6, 70}, {17.6, 54}, {17.2, 62}, {15.6, 78}, {18, 96}, {19, 108}, {18.2, 124}, {15.6, 140}, {14.6, 149}, {15.2, 161}, {12, 180}, {11.6, 190}, {14.4, 197}, {12, 200},
		{4.6, 200}, {4.6, 190}, {5.2, 180}, {3.6, 163}, {4, 150}, {2.4, 130}, {0, 113}},
	chin: 33, nape: 36, notch: 40, shoulder: 40.5, armpit: 54, chest: 58.5, waist: 78, navel: 85, hipBone: 89, thighBone: 101, hip: 106, crotch: 113, midThigh: 132, knee: 147, calf: 161, ankle: 184,
	tip: point{21.5, 41.2}, elbow: point{27.4, 69}, wrist: point{34.8, 97}, fingers: point{38.4, 119},
	upperArm: [2]point{{27, 56}, {19.6, 59.5}}, forearm: [2]point{{33.4, 75}, {26.4, 78}}, wristRing: [2]point{{37.3, 96}, {31.9, 98}},
	garment: []point{{0, 92}, {17.6, 92}, {18.9, 105}, {10, 109}, {0, 114}},
	hair: map[string][]point{
		"boy":  {{0, -1.5}, {9.5, 0.8}, {13.8, 8}, {13.2, 15}, {11.6, 11}, {7, 8.6}, {0, 8}},
		"girl": {{0, -1.5}, {10, 0.8}, {14.4, 9}, {15.6, 22}, {15.4, 37}, {11.4, 36}, {11.6, 20}, {10.4, 11.5}, {5, 8.6}, {0, 7.4}},
	},
}

// baby is of half a year, four heads long, in a nappy.
var baby = anatomy{
	outline: []point{{0, 0}, {13, 3}, {21, 15}, {21.6, 29}, {17, 42}, {10, 49}, {9.6, 52}, {17, 54}, {27, 57}, {33, 64}, {38, 74}, {43.5, 85}, {49, 97}, {53, 103}, {53.4, 113},
		{49.6, 117}, {46.4, 111}, {44.2, 104}, {38.4, 94}, {33, 85}, {25, 73}, {24.6, 84}, {25.4, 100}, {27, 116}, {28, 128}, {29, 143}, {27.6, 155}, {24.6, 166}, {24, 174}, {20.6, 184}, {20.4, 190}, {22.4, 197}, {19, 200},
		{10.6, 200}, {11, 191}, {11.4, 184}, {9.4, 174}, {9.6, 165}, {6.4, 152}, {0, 138}},
	chin: 49, nape: 52, notch: 56, shoulder: 57, armpit: 73, chest: 79, waist: 98, navel: 104, hipBone: 110, thighBone: 122, hip: 128, crotch: 138, midThigh: 152, knee: 164, calf: 174, ankle: 187,
	tip: point{27.4, 57.4}, elbow: point{38.2, 85}, wrist: point{46.6, 100.6}, fingers: point{52, 117},
	upperArm: [2]point{{37, 72}, {27.6, 77.4}}, forearm: [2]point{{45.6, 90}, {37.2, 92.2}}, wristRing: [2]point{{49.4, 98}, {43.6, 103}},
	garment: []point{{0, 109}, {26, 109}, {27.8, 122}, {22, 134}, {9, 142}, {0, 144}},
	hair:    map[string][]point{"baby": {{0, -0.8}, {10, 1.4}, {8, 5}, {0, 4}}},
}

// spline is a smooth line through points.
func spline(points ...point) *path {
	p := start(points[0].x, points[0].y)
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		before, after := points[max(i-2, 0)], points[min(i+1, len(points)-1)]
		p.curve(a.plus(b.minus(before).times(1.0/6)), b.minus(after.minus(a).times(1.0/6)), b)
	}
	return p
}

// sides are where the outline is cut at a height: from the middle outward.
func (a anatomy) sides(y float64) []float64 {
	var xs []float64
	points := spline(a.outline...).points()
	for i := 1; i < len(points); i++ {
		p, q := points[i-1], points[i]
		if (p.y <= y) != (q.y <= y) {
			xs = append(xs, p.x+(y-p.y)/(q.y-p.y)*(q.x-p.x))
		}
	}
	return xs
}

// body is half of the trunk's breadth at a height, without the arm.
func (a anatomy) body(y float64) float64 {
	xs := a.sides(y)
	return xs[len(xs)-1]
}

// leg are the sides of a leg at a height, the inner one first.
func (a anatomy) leg(y float64) [2]float64 {
	xs := a.sides(y)
	return [2]float64{xs[len(xs)-1], xs[len(xs)-2]}
}
