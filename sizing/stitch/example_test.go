package stitch_test

import (
	"fmt"

	"growtuck/sizing/stitch"
)

// A girth in stitches of a repeat, never under the body with its least ease.
func ExampleGauge_FitWidthAtLeast() {
	gauge, err := stitch.Swatch{Stitches: 22, WidthCm: 10, Rows: 30, HeightCm: 10}.Gauge()
	if err != nil {
		fmt.Println(err)
		return
	}
	repeat, _ := stitch.ParseMultiple("6n+2")
	chest, err := gauge.FitWidthAtLeast(69, 68, repeat)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d stitches, %.1f cm, %+.1f cm\n", chest.Count, chest.SizeCm, chest.SizeCm-chest.WantCm)
	// Output: 152 stitches, 69.1 cm, +0.1 cm
}

func ExampleTaper_Schedule() {
	sleeve, err := stitch.Taper{From: 60, To: 38, Rows: 62, InRounds: true, LongGapsFirst: true}.Schedule()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range sleeve.Steps {
		fmt.Println("every", s.Every, "rounds,", s.Times, "times")
	}
	fmt.Println("to", sleeve.To())
	// Output:
	// every 6 rounds, 7 times
	// every 5 rounds, 4 times
	// to 38
}

// A jacket yoke from the neck down, opening in front.
func ExamplePlanCircularYoke() {
	gauge, err := stitch.Per10Cm(15, 8)
	if err != nil {
		fmt.Println(err)
		return
	}
	yoke, err := stitch.PlanCircularYoke(stitch.YokeTarget{
		Gauge: gauge, NeckCm: 32, BodyCm: 66.5, BodyLeastCm: 66, SleeveCm: 21.5, DepthCm: 17.5, UnderarmCm: 5.5, FrontOpening: true, IncreaseMost: 1.5,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	first := yoke.Phases[0]
	fmt.Println("neck", yoke.Neck, "yoke", yoke.Yoke, "fronts", yoke.Front, "back", yoke.Back, "sleeves", yoke.SleevePart, "underarm", yoke.Underarm)
	fmt.Println("body", yoke.Body, "sleeve", yoke.Sleeve, "in", yoke.Rows, "rows,", yoke.PerRound, "more in each of", len(yoke.Rounds))
	fmt.Println("row", first.Row, "works", first.Lead, "before the first increase,", first.Between, "between two,", first.Trail, "after the last")
	fmt.Println("the same every", first.Every, "rows,", first.Times, "times, with 1 more between")
	// Output:
	// neck 48 yoke 132 fronts 21 back 42 sleeves 24 underarm 8
	// body 100 sleeve 32 in 14 rows, 6 more in each of 14
	// row 1 works 4 before the first increase, 7 between two, 3 after the last
	// the same every 1 rows, 14 times, with 1 more between
}
