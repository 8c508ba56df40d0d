package example

import "firstbolt/cmd/firstbolt/internal/answer"

func benefit() *answer.Benefit {
	return &answer.Benefit{
		Before: 360000, After: 663500, Gained: 303500,
		ByCriterion: answer.Keyed[answer.Level]{
			{Key: "braking", Value: answer.Level{Says: "downhill braking", Weight: 40, Before: 300000, After: 680000, Points: 152000}},
			{Key: "retention", Value: answer.Level{Says: "chain stays on", Weight: 30, Before: 400000, After: 750000, Points: 105000}},
			{Key: "traction", Value: answer.Level{Says: "grip", Weight: 20, Before: 350000, After: 580000, Points: 46000}},
			{Key: "weight", Value: answer.Level{Says: "low weight", Weight: 10, Before: 500000, After: 505000, Points: 500}},
		},
	}
}

func rivals() []answer.Rival {
	return []answer.Rival{
		{
			Bike: "used hardtail U2", Where: "bikes.csv:4", BaseCost: EUR(17000), Affordable: true, Buy: []string{"front tyre F6", "rear tyre R4"},
			Cost: Of(EUR(25510)), Benefit: &answer.RivalBenefit{
				After: 590000,
				ByCriterion: answer.Keyed[answer.RivalLevel]{
					{Key: "braking", Value: answer.RivalLevel{Weight: 40, After: 600000}},
					{Key: "retention", Value: answer.RivalLevel{Weight: 30, After: 550000}},
					{Key: "traction", Value: answer.RivalLevel{Weight: 20, After: 590000}},
					{Key: "weight", Value: answer.RivalLevel{Weight: 10, After: 670000}},
				},
			},
		},
		{Bike: "used hardtail U1", Where: "bikes.csv:3", BaseCost: EUR(29000)},
		{Bike: "new hardtail N1", Where: "bikes.csv:5", BaseCost: EUR(45000)},
	}
}

func switchPoint() *answer.Switch {
	return &answer.Switch{
		At: EUR(32400), Away: EUR(6400), To: "used hardtail U1", Buy: []string{"front tyre F6"},
		BenefitStay: Of(answer.Points(686000)), BenefitSwitch: 699000, Gain: Of(answer.Points(13000)),
		Until: Of(EUR(32860)), Lasting: &answer.Lasting{At: EUR(45000), To: "new hardtail N1"},
	}
}

func measures() []answer.Measure {
	same := func(value string) answer.Outcome { return answer.Outcome{Value: value, PlanBenefit: 663500} }
	return []answer.Measure{
		{
			Bike: "my hardtail", Slot: "frame", Fact: "seat_tube_bore_mm", Found: Of("27.2"), Assumed: Of("27.2"), Origin: "remembered",
			Where: Of("fitted.csv:3 (F3)"), NeededFor: []string{"seatpost P7"},
			How:  Of("Take the post out, clean the tube, measure the bore 30 mm below the rim in two directions."),
			Tool: Of("calliper"), Mistakes: []string{"reading the stamp of a post that was shimmed"},
			Stake: &answer.Stake{Money: EUR(0), Outcomes: []answer.Outcome{same("27.2"), same("26.8")}},
		},
		{
			Bike: "my hardtail", Slot: "rear wheel", Fact: "rim_inner_mm", Origin: "unknown",
			Where: Of("fitted.csv:9 (H9)"), NeededFor: []string{"rear tyre R4"},
			How:  Of("Measure between the rim's inner walls with the tyre off."),
			Tool: Of("calliper"), Mistakes: []string{"measuring the outer width"},
			Stake: &answer.Stake{Money: EUR(0), Outcomes: []answer.Outcome{same("19"), same("25")}},
		},
	}
}

func cautions() []answer.Caution {
	return []answer.Caution{
		{
			Code: "brake_work", Severity: "caution", When: "work", Part: Of("hydraulic disc brake pair H1"),
			Text:      "Brakes can fail if set up wrongly. Bed the pads in and test at walking pace.",
			CheckWith: "the brake maker's instructions, or a qualified mechanic", Source: "common practice",
		},
		{
			Code: "first_ride", Severity: "caution", When: "first-ride",
			Text:      "Before the first ride pull both brake levers hard and check every bolt that was touched.",
			CheckWith: "the maker's instructions", Source: "common practice",
		},
		{
			Code: "frame cracks", Severity: "caution", When: "before",
			Text: "Look for cracks in the frame at the head tube and the bottom bracket.", CheckWith: "a qualified mechanic", Source: "common practice",
		},
	}
}

func near() []answer.Near {
	return []answer.Near{
		{Part: "rear tyre R4", Price: EUR(5560), WalkAway: Of(EUR(4730)), TooDearBy: Of(EUR(830)), WouldAdd: 21000, ShortOfBudgetBy: Of(EUR(830))},
		{Part: "clutch derailleur D5", Price: EUR(6200), WalkAway: Of(EUR(4900)), TooDearBy: Of(EUR(1300)), WouldAdd: 22500, ShortOfBudgetBy: Of(EUR(1300))},
	}
}
