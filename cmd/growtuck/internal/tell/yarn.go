package tell

import "growtuck/sizing/plan"

type yarnRecord struct {
	AreaCm2 Figure         `json:"area_cm2" doc:"area of the fabric, cm²"`
	Margin  Figure         `json:"margin" doc:"safety share of the yarn, such as 0.1"`
	Grams   Figure         `json:"grams" doc:"grams of yarn, the margin included"`
	Metres  Figure         `json:"metres" doc:"metres of yarn, the margin included"`
	Balls   int            `json:"balls" doc:"whole balls to buy"`
	OneMore bool           `json:"one_more" doc:"the last ball is nearly used up: buy one more of the dye lot"`
	Parts   []yarnPart     `json:"parts" doc:"the yarn of each section"`
	Colours []colourRecord `json:"colours" doc:"the yarn of each colour"`
}

type yarnPart struct {
	Section  string `json:"section" doc:"id of the section"`
	Stitches int    `json:"stitches" doc:"stitches of all its rows"`
	Grams    Figure `json:"grams" doc:"grams of yarn, the margin included"`
	Metres   Figure `json:"metres" doc:"metres of yarn, the margin included"`
}

type colourRecord struct {
	Colour  string `json:"colour" doc:"the colour; empty where there is one"`
	Grams   Figure `json:"grams" doc:"grams of yarn, the margin included"`
	Metres  Figure `json:"metres" doc:"metres of yarn, the margin included"`
	Balls   int    `json:"balls" doc:"whole balls to buy"`
	OneMore bool   `json:"one_more" doc:"the last ball is nearly used up: buy one more of the dye lot"`
}

func newYarnRecord(p *plan.Plan) *yarnRecord {
	y := p.Yarn
	if y == nil {
		return nil
	}
	r := &yarnRecord{AreaCm2: Figure(y.AreaCm2), Margin: Figure(y.Margin), Grams: Figure(y.Need.Grams), Metres: Figure(y.Need.Metres), Balls: y.Need.Balls, OneMore: y.OneMore}
	for _, part := range y.Parts {
		r.Parts = append(r.Parts, yarnPart{part.Section.ID, part.Section.Stitches(), Figure(part.Grams), Figure(part.Metres)})
	}
	for _, c := range y.Colours {
		r.Colours = append(r.Colours, colourRecord{c.Colour, Figure(c.Need.Grams), Figure(c.Need.Metres), c.Need.Balls, c.OneMore})
	}
	return r
}

type timeRecord struct {
	Stitches  int     `json:"stitches" doc:"stitches to work"`
	Hours     Figure  `json:"hours" doc:"hours that they take at the pace"`
	Days      int     `json:"days" doc:"days that is at the hours a day; 0 where they are not known"`
	Ready     string  `json:"ready" doc:"the last of these days; empty where it is not known"`
	HoursADay *Figure `json:"hours_a_day_needed" doc:"hours a day that it takes to be ready in time; null where no day was given"`
	InTime    *bool   `json:"in_time" doc:"whether it can be ready in time; null where no day was given"`
}

func newTimeRecord(pace plan.Pace, stitches int) *timeRecord {
	t := pace.For(stitches)
	if t == nil {
		return nil
	}
	r := &timeRecord{Stitches: t.Stitches, Hours: Figure(t.Hours), Days: t.Days, HoursADay: Known(t.ADay, t.DaysLeft > 0)}
	if !t.Ready.IsZero() {
		r.Ready = t.Ready.Format(plan.Day)
	}
	if t.DaysLeft > 0 {
		in := !t.Late(pace)
		r.InTime = &in
	}
	return r
}
