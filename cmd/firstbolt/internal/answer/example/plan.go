// Package example holds one answer made by hand for the tests of the views and of the schema: a small invented shed in
// which every figure can be added again. It is used by tests only.
package example

import "firstbolt/cmd/firstbolt/internal/answer"

// Of is a pointer to a value.
func Of[T any](v T) *T { return &v }

// EUR is an amount in cents.
func EUR(minor int64) answer.Money { return answer.Money{Minor: minor, Currency: "EUR"} }

func points(braking, retention, traction, weight answer.Points) answer.Keyed[answer.Points] {
	return answer.Keyed[answer.Points]{
		{Key: "braking", Value: braking},
		{Key: "retention", Value: retention},
		{Key: "traction", Value: traction},
		{Key: "weight", Value: weight},
	}
}

// Plan is the hand-made answer.
func Plan() *answer.Plan {
	return &answer.Plan{
		Head:   head(),
		Budget: Of(EUR(26000)),
		Priorities: answer.Priorities{
			Origin: "rider.csv:4 (B4)", Stated: Of("braking=4, retention=3, traction=2, weight=1"),
			Weights: answer.Keyed[answer.Share]{{Key: "braking", Value: 40}, {Key: "retention", Value: 30}, {Key: "traction", Value: 20}, {Key: "weight", Value: 10}},
		},
		Decision:            "stay",
		Sentence:            "Stay with my hardtail and buy the crankset, the front tyre and the brakes for 212.70; 47.30 is left.",
		Bike:                "my hardtail",
		Before:              before(),
		Buy:                 steps(),
		OrderNow:            answer.Order{Items: orderNow(), Total: EUR(21270)},
		OrderAfterMeasuring: answer.Order{Total: EUR(0)},
		Receipt:             receipt(),
		Cost: answer.Cost{
			Parts: EUR(16950), Tools: EUR(1290), Work: EUR(2200), SmallParts: EUR(240), Shipping: EUR(590),
			Tax: EUR(0), Sales: EUR(0), Bike: EUR(0), Total: EUR(21270),
		},
		Left:           Of(EUR(4730)),
		Rest:           nil,
		Next:           &answer.More{Cost: EUR(6560), Benefit: 21000},
		Benefit:        benefit(),
		Rivals:         rivals(),
		Switch:         switchPoint(),
		SwitchSearched: true,
		Measure:        measures(),
		Cautions:       cautions(),
		Near:           near(),
		SayMore: []answer.Lacking{{
			Part: "tyre F8", Where: "parts.csv:19", Slots: []string{"front tyre"}, Fact: "width_mm", Sheet: "parts.csv",
			How: Of("read the first number of the marking, 50-584 means 50"), Bought: true,
		}},
		NotOffered: []answer.SetAside{{
			Part: "fork G9", Where: "parts.csv:22",
			Why: "its steerer is not known, and a fork with the wrong steerer can hurt; measure it and fill in steerer_mm",
		}},
		Tail: answer.Tail{
			Warnings: []answer.Warning{{
				Code: "assumed_price", Where: "tools.csv",
				Text: "No tools.csv: the crank puller is taken to cost 12.90.",
				Fix:  Of("Add a row to tools.csv, or have=yes if you own one."),
			}},
			Proof: &answer.Proof{Engine: "builtin", Status: "optimal", ConfirmedBy: Of("lpsolve"), Gap: Of(answer.Points(0)), Seconds: Of(answer.Seconds(84))},
		},
	}
}

func head() answer.Head {
	h := answer.NewHead("plan")
	h.Shed, h.Currency = &answer.Shed{Path: "shed"}, Of("EUR")
	return h
}

func before() []answer.Before {
	return []answer.Before{{Code: "tyre pressure", Kind: "free", Text: "Set the tyre pressure for your mass; it costs nothing.", CheckWith: Of("the figure on the tyre")}}
}

func steps() []answer.Step {
	return []answer.Step{
		{
			Step: 1, Kind: "part", Part: "front tyre F6", Where: "parts.csv:17", Count: 1,
			Slots: []string{"front tyre"}, Replaces: []string{"worn front tyre"}, Condition: Of("new"), Shop: Of("S2"),
			Price: EUR(2950), Tax: EUR(0), ShippingChange: EUR(450), Cost: EUR(3400), Due: EUR(0),
			Benefit: 45500, Points: points(0, 0, 46000, -500), Per100: answer.PerHundred(45500, EUR(3400)), Verdict: "fits",
		},
		{
			Step: 2, Kind: "part", Part: "crankset K2 with narrow-wide ring", Where: "parts.csv:12", Count: 1,
			Slots: []string{"crankset", "chainring"}, Replaces: []string{"riveted triple crankset"}, Condition: Of("new"), Shop: Of("S2"),
			Price: EUR(4800),
			With: []answer.With{
				{Kind: "tool", Name: "crank puller", Count: 1, Cost: EUR(1290), Origin: "assumed"},
				{Kind: "small_part", Name: "chain joining link", Count: 1, Cost: EUR(240), Origin: "jobs table"},
			},
			Tax: EUR(0), ShippingChange: EUR(-450), Cost: EUR(5880), Due: EUR(0),
			Benefit: 107000, Points: points(0, 105000, 0, 2000), Per100: answer.PerHundred(107000, EUR(5880)), Verdict: "fits",
		},
		{
			Step: 3, Kind: "part", Part: "hydraulic disc brake pair H1", Where: "parts.csv:8", Count: 1,
			Slots:    []string{"front brake", "rear brake"},
			Replaces: []string{"cable disc brake, front", "cable disc brake, rear"}, Condition: Of("new"), Shop: Of("S1"),
			Price: EUR(7900),
			With: []answer.With{
				{Kind: "part", Name: "adapter, flat tabs to post mount 160", Count: 2, Cost: EUR(1300), Origin: "parts.csv:31"},
				{Kind: "work", Name: "shorten hoses and bleed", Count: 1, Cost: EUR(2200), Origin: "jobs table", DoneBy: Of("shop")},
			},
			Tax: EUR(0), ShippingChange: EUR(590), Cost: EUR(11990), Due: EUR(0),
			Benefit: 151000, Points: points(152000, 0, 0, -1000), Per100: answer.PerHundred(151000, EUR(11990)), Verdict: "fits_with",
		},
	}
}

func orderNow() []answer.OrderItem {
	var items []answer.OrderItem
	for _, s := range steps() {
		items = append(items, answer.OrderItem{Step: s.Step, Part: s.Part, Shop: s.Shop, Cost: s.Cost})
	}
	return items
}

func receipt() []answer.Line {
	return []answer.Line{
		{Kind: "part", Name: "front tyre F6", Shop: Of("S2"), Count: 1, Cost: EUR(2950), Where: "parts.csv:17 (C17)"},
		{Kind: "part", Name: "crankset K2 with narrow-wide ring", Shop: Of("S2"), Count: 1, Cost: EUR(4800), Where: "parts.csv:12 (C12)"},
		{Kind: "part", Name: "hydraulic disc brake pair H1", Shop: Of("S1"), Count: 1, Cost: EUR(7900), Where: "parts.csv:8 (C8)"},
		{Kind: "part", Name: "adapter, flat tabs to post mount 160", Shop: Of("S1"), Count: 2, Cost: EUR(1300), Where: "parts.csv:31 (C31)"},
		{Kind: "small_part", Name: "chain joining link", Count: 1, Cost: EUR(240), Where: "jobs table"},
		{Kind: "tool", Name: "crank puller", Count: 1, Cost: EUR(1290), Where: "tools table"},
		{Kind: "work", Name: "shorten hoses and bleed", Count: 1, Cost: EUR(2200), Where: "jobs table"},
		{Kind: "shipping", Name: "shipping, S1", Shop: Of("S1"), Count: 1, Cost: EUR(590), Where: "shops.csv:2"},
	}
}
