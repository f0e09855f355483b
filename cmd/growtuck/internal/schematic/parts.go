package schematic

// seated is a child on a stool, from its side, the elbow bent.
func seated(f Figured) *posture {
	p := &posture{id: "seated", title: "sitting upright", reach: 44}
	seat, sole := 108.0, 165.0
	// Head, back, seat, thigh, shin and foot; facing right.
	p.skinned(spline([]point{{2, 0}, {12, 4}, {15, 14}, {16.4, 19}, {14.6, 22}, {14, 28}, {7, 32}, {6.4, 36}, {10, 42}, {14, 54}, {13.4, 66}, {15, 78}, {17, 84}, {30, 85}, {48, 86}, {56, 90}, {57, 98}, {55.6, 112}, {53.6, 130}, {51.6, 150}, {55, 158}, {66, 162}, {67, sole},
		{42, sole}, {41.6, 156}, {42.6, 138}, {42, 120}, {41, 108}, {20, seat}, {2, seat}, {-10, 105}, {-14, 98}, {-11, 86}, {-8.4, 76}, {-11, 60}, {-9, 46}, {-5, 38}, {-5, 32}, {-9.6, 26}, {-12, 16}, {-9, 5}, {2, 0}}...))
	p.line("wear", spline(point{-11.6, 88}, point{2, 87}, point{15, 84}))
	p.line("wear", straight(point{22, 85.4}, point{24, seat}))
	hair := spline(point{13, 8}, point{8, 0}, point{-4, -0.6}, point{-13, 10}, point{-10, 26})
	if f == Girl {
		hair = spline(point{13, 8}, point{8, 0}, point{-4, -0.6}, point{-13.6, 10}, point{-14, 30}, point{-10, 40}, point{-5, 36})
	}
	hair.curve(point{-4, 24}, point{-3, 16}, point{3, 14}).line(point{13, 8})
	p.line("hair", hair)
	p.line("face", circle(point{10.6, 17}, 0.8))
	// The arm hangs, its elbow bent, the hand stretched forward.
	p.skinned(spline([]point{{-4, 44}, {2, 41.5}, {7, 46}, {8, 58}, {7.4, 70}, {20, 72}, {34, 72}, {46, 73}, {47, 75.6}, {36, 78}, {20, 80}, {4, 80}, {-2, 76}, {-3.4, 62}, {-4, 44}}...))
	p.line("face", straight(point{-20, seat}, point{36, seat}, point{36, seat + 5}, point{-20, seat + 5}, point{-20, seat}))
	p.line("face", straight(point{-14, seat + 5}, point{-14, sole}))
	p.line("face", straight(point{30, seat + 5}, point{30, sole}))
	p.line("face", straight(point{-30, sole + 1}, point{72, sole + 1}))
	p.upright("sitting_height", -30, 0, seat, -2)
	p.upright("knee_height", 78, 86, sole, 50)
	p.upright("rise", -19, 77, seat, 0)
	p.straightTape("shoulder_to_elbow", 0, point{1, 43}, point{1, 79})
	p.straightTape("elbow_to_fingertip", 0, point{-2, 84}, point{47, 84})
	p.tapes[len(p.tapes)-1].tag = point{30, 84}
	return p
}

// seatedBaby is a baby held sitting on a table, its legs forward.
func seatedBaby() *posture {
	p := &posture{id: "seated", title: "sitting, held upright", reach: 44}
	seat := 130.0
	p.skinned(spline([]point{{0, 0}, {16, 4}, {22, 18}, {23.6, 27}, {21, 32}, {19, 40}, {10, 47}, {11, 54}, {17, 66}, {19, 82}, {24, 98}, {40, 102}, {58, 106}, {60, 116}, {70, 112}, {84, 106}, {90, 112}, {88, 128}, {72, seat},
		{20, seat}, {-10, seat}, {-20, 122}, {-18, 104}, {-14, 88}, {-15, 70}, {-9, 56}, {-8, 49}, {-16, 40}, {-20, 22}, {-14, 6}, {0, 0}}...))
	p.line("wear", spline(point{-17.6, 100}, point{2, 98}, point{23, 97}))
	p.line("wear", spline(point{34, 101}, point{33, 116}, point{38, seat}))
	p.line("face", circle(point{15, 24}, 0.9))
	p.skinned(spline([]point{{-4, 62}, {3, 58}, {9, 64}, {10, 78}, {22, 84}, {36, 86}, {46, 88}, {46, 93}, {34, 95}, {16, 94}, {2, 90}, {-4, 78}, {-4, 62}}...))
	p.line("face", straight(point{-34, seat + 1}, point{96, seat + 1}))
	p.upright("sitting_height", -34, 0, seat, -4)
	p.upright("rise", -25, 98, seat, 0)
	p.upright("knee_height", 100, 104, seat, 88)
	p.straightTape("shoulder_to_elbow", 0, point{2, 60}, point{2, 90})
	p.straightTape("elbow_to_fingertip", 0, point{0, 99}, point{46, 99})
	p.tapes[len(p.tapes)-1].tag = point{28, 99}
	return p
}

// handView is a hand seen from its palm.
func handView() *posture {
	p := &posture{id: "hand", title: "the hand", reach: 25}
	p.skinned(spline([]point{{-10, 66}, {-10.5, 54}, {-13, 44}, {-14, 34}, {-14, 18}, {-11.6, 16}, {-9, 18}, {-8.4, 30}, {-8, 10}, {-5.4, 7}, {-2.6, 10}, {-2.2, 29}, {-1, 5}, {1.6, 2}, {4.4, 5}, {4.6, 29}, {6.4, 9}, {9, 7}, {11.4, 10}, {10.6, 32}, {12, 40},
		{18, 33}, {22, 33}, {21, 38}, {14, 50}, {10, 57}, {9.6, 66}}...))
	p.ring("hand", point{-14, 38}, point{11.4, 38}, 1)
	p.straightTape("hand_breadth", -1, point{-14, 31.5}, point{10.8, 31.5})
	p.tapes[len(p.tapes)-1].tag = point{-14, 31.5}
	p.straightTape("hand_length", 0, point{1.6, 2}, point{1.6, 60})
	p.tapes[len(p.tapes)-1].tag = point{1.6, 50}
	return p
}

// footView is a foot from above, and from its side in a sock.
func footView() *posture {
	p := &posture{id: "foot", title: "the foot", reach: 22}
	p.skinned(spline([]point{{0, 56}, {-6, 54}, {-8, 44}, {-7.4, 30}, {-11, 18}, {-10, 8}, {-7, 6.4}, {-3, 5}, {2, 3}, {6, 0.6}, {9.4, 2}, {10.6, 10}, {9.6, 24}, {7, 36}, {7.4, 48}, {5, 54.6}, {0, 56}}...))
	p.ring("foot", point{-10.6, 16}, point{10.4, 16}, 1)
	p.straightTape("foot_breadth", -1, point{-11, 20}, point{10, 20})
	p.tapes[len(p.tapes)-1].tag = point{-11, 20}
	p.upright("foot_length", 17, 0.4, 56, 0)
	// The side of the lower leg.
	at := func(x, y float64) point { return point{x - 4, y + 66} }
	p.skinned(spline([]point{at(-7, 0), at(-7.6, 14), at(-5.4, 28), at(-9, 38), at(-8, 44), at(0, 45), at(20, 45), at(23, 42), at(18, 37), at(8, 33), at(5, 26), at(7, 12), at(6.6, 0)}...))
	p.line("wear", straight(at(-7.4, 8), at(6.8, 8)))
	p.upright("sock_height", at(-15, 0).x, at(0, 8).y, at(0, 40).y, at(-6, 0).x)
	return p
}
