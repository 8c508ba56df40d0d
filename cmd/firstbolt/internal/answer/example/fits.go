package example

import "firstbolt/cmd/firstbolt/internal/answer"

// Fits is the hand-made answer of `fits`: every verdict once or more.
func Fits() *answer.Fits {
	a := &answer.Fits{
		Head: head(), Bike: "my hardtail", Counts: answer.Counts{Fits: 3, FitsWith: 1, MeasureFirst: 2, DoesNotFit: 1, BothSides: 1},
		Parts: fitParts(), Measure: fitMeasures(), Cautions: []answer.Caution{brakeWork()},
		Tail: answer.Tail{Proof: &answer.Proof{Engine: "builtin", Status: "optimal", Gap: Of(answer.Points(0)), Seconds: Of(answer.Seconds(21))}},
	}
	a.Command = "fits"
	return a
}

// FitsOne is the hand-made answer of `fits` about one part, on which practice disagrees as well.
func FitsOne() *answer.Fits {
	a := Fits()
	a.Asked, a.Counts, a.Measure = Of("hydraulic disc brake pair H1"), answer.Counts{FitsWith: 1}, a.Measure[1:]
	p := a.Parts[3]
	p.Opinions = []string{"The mount and the rotor differ by 3 mm: some put washers under the caliper, others refuse."}
	p.Allow, p.Then = []string{"rotor_step_exact.front"}, &answer.FitThen{Verdict: "fits", CompanyCost: EUR(0)}
	p.Checks = append(p.Checks,
		check("chain_length", "met", sum("113.5"), stated("links", "116", "sheet", "parts.csv:9 (F9)"), "L = 2C + F/4 + R/4 + 1 inch"),
		answer.FitCheck{
			Rule: "rotor_smaller.front", Result: "unknown", Severity: "rule", Relation: "at_least", Margin: Of("3"),
			Left: stated("rotor_mm", "160", "assumed", "kind"), Right: answer.FitSide{
				Fact: Of("front_native_rotor_mm"), Slot: Of("fork"), Origin: Of("unknown"),
				Terms: []answer.FitTerm{{Slot: "fork", Fact: "front_native_rotor_mm", Factor: "1", Origin: "unknown"}},
			},
			Source: "common practice", Sentence: Of("Not known: the rotor that the mount is for."),
		})
	p.Checks[len(p.Checks)-1].Left.Terms[0].Like = Of("rotor 160")
	a.Parts = []answer.FitPart{p}
	return a
}

func fitParts() []answer.FitPart {
	return []answer.FitPart{
		part("crankset K2 with narrow-wide ring", "parts.csv:12", "fits", []string{"crankset", "chainring"},
			check("bottom_bracket.spindle", "met", stated("spindle", "square taper", "sheet", "parts.csv:12 (J12)"), stated("spindle", "square taper", "measured", "fitted.csv:8 (J8)"), "ISO 6696 (shell)")),
		part("front tyre F6", "parts.csv:17", "fits", []string{"front tyre"},
			check("wheel.bead_seat", "met", stated("bead_seat_mm", "584", "sheet", "parts.csv:17 (G17)"), stated("bead_seat_mm", "584", "measured", "fitted.csv:10 (G10)"), "ISO 5775")),
		part("clutch derailleur D5", "parts.csv:22", "fits", []string{"rear derailleur"},
			check("derailleur.cable_family", "met", stated("cable_family", "B8", "sheet", "parts.csv:22 (M22)"), stated("cable_family", "B8", "measured", "fitted.csv:11 (K11)"), "common practice")),
		brakePair(),
		rearTyre(),
		dropper(),
		taperedFork(),
	}
}

func part(name, where, verdict string, slots []string, checks ...answer.FitCheck) answer.FitPart {
	return answer.FitPart{
		Part: name, ID: name, Where: where, Price: EUR(4800), Slots: slots, Verdict: verdict, Reason: "Checked against what is on the bike.",
		Checks: checks, CompanyCost: EUR(0),
	}
}

func check(rule, result string, left, right answer.FitSide, source string) answer.FitCheck {
	return answer.FitCheck{Rule: rule, Result: result, Severity: "rule", Relation: "same", Left: left, Right: right, Source: source}
}

// stated is a side of one fact.
func stated(fact, value, origin, where string) answer.FitSide {
	s := answer.FitSide{Slot: Of("slot"), Fact: &fact, Value: &value, Origin: &origin, Where: &where}
	s.Terms = []answer.FitTerm{{Slot: "slot", Fact: fact, Thing: "thing", Factor: "1", Value: &value, Origin: origin, Where: &where}}
	return s
}

// sum is a side of two facts and a constant.
func sum(value string) answer.FitSide {
	term := answer.FitTerm{Slot: "frame", Fact: "chainstay_mm", Thing: "frame", Factor: "0.15748", Value: Of("435"), Origin: "remembered", Where: Of("fitted.csv:3 (L3)")}
	ring := answer.FitTerm{Slot: "chainring", Fact: "ring_max", Thing: "rings", Factor: "0.5", Value: Of("42"), Origin: "measured", Where: Of("fitted.csv:9 (L9)")}
	return answer.FitSide{Value: &value, Origin: Of("remembered"), Terms: []answer.FitTerm{term, ring}, Constant: Of("2")}
}

func brakePair() answer.FitPart {
	joined := check("brake.mount", "bridged", stated("brake_mount", "post mount 160", "sheet", "parts.csv:8 (L8)"), stated("brake_mount", "flat tabs 160", "measured", "fitted.csv:3 (L3)"), "common practice")
	joined.BridgedBy = Of("adapter, flat tabs to post mount 160")
	p := part("hydraulic disc brake pair H1", "parts.csv:8", "fits_with", []string{"front brake", "rear brake"}, joined)
	p.Reason = "As it stands, the fork has flat tabs and the caliper wants posts."
	p.Because = []string{"the fork has flat tabs and the caliper wants posts"}
	wrong := check("brake.mount", "failed", joined.Left, joined.Right, "common practice")
	wrong.Sentence, wrong.MendedBy = Of("The fork has flat tabs and the caliper wants posts."), Of("Buy an adapter.")
	p.Alone = []answer.FitCheck{wrong}
	p.Company = []answer.Company{{
		Kind: "part", Part: "adapter, flat tabs to post mount 160", Where: "parts.csv:31", Slots: []string{"front brake adapter"}, Count: 2, Cost: EUR(1300),
	}}
	p.CompanyCost = EUR(1300)
	p.Cautions = []answer.Caution{brakeWork()}
	return p
}

func rearTyre() answer.FitPart {
	unknown := answer.FitSide{Slot: Of("rear wheel"), Fact: Of("rim_inner_mm"), Origin: Of("unknown"), Where: Of("fitted.csv:9 (H9)")}
	unknown.Terms = []answer.FitTerm{{Slot: "rear wheel", Fact: "rim_inner_mm", Factor: "1", Origin: "unknown", Where: unknown.Where}}
	p := part("rear tyre R4", "parts.csv:18", "measure_first", []string{"rear tyre"},
		check("tyre.rim_width", "unknown", stated("tyre_mm", "58", "sheet", "parts.csv:18 (H18)"), unknown, "ETRTO width table"))
	p.Reason, p.Measure = "First find out: rear wheel: width between the rim's walls not known.", []string{"rear wheel.rim_inner_mm"}
	return p
}

func dropper() answer.FitPart {
	p := part("dropper seatpost P7", "parts.csv:26", "measure_first", []string{"seatpost"},
		check("seatpost.bore", "met", stated("post_mm", "27.2", "sheet", "parts.csv:26 (N26)"), stated("seat_tube_bore_mm", "27.2", "remembered", "fitted.csv:3 (F3)"), "common practice: equal, or thinner with a shim"))
	p.Reason, p.Measure = "First find out: frame: seat tube bore 27.2 mm (only remembered).", []string{"frame.seat_tube_bore_mm"}
	return p
}

func taperedFork() answer.FitPart {
	fails := check("steerer.lower", "failed", stated("steerer_lower_mm", "39.8", "sheet", "parts.csv:29 (O29)"), stated("head_tube_lower_bore_mm", "33.95", "measured", "fitted.csv:3 (O3)"), "SHIS EC34")
	fails.Sentence = Of("A tapered steerer of 39.8 mm cannot pass a head tube of 33.95 mm.")
	p := part("tapered air fork G3", "parts.csv:29", "does_not_fit", []string{"fork"}, fails)
	p.Reason = *fails.Sentence
	return p
}

func fitMeasures() []answer.ToMeasure {
	var list []answer.ToMeasure
	for _, m := range measures() {
		list = append(list, answer.ToMeasure{
			Bike: m.Bike, Slot: m.Slot, Fact: m.Fact, Says: answer.FactWords(m.Fact), Kind: "number", Unit: Of("mm"), Found: m.Found, Origin: m.Origin, Where: m.Where,
			NeededFor: m.NeededFor, How: m.How, Tool: m.Tool, Mistakes: m.Mistakes, Stake: m.Stake,
		})
	}
	return append(list, answer.ToMeasure{
		Bike: "my hardtail", Slot: "rear tyre", Fact: "width_mm", Says: answer.FactWords("width_mm"), Kind: "number", Unit: Of("mm"), OnOffer: true,
		Part: Of("rear tyre R5"), Origin: "unknown", Where: Of("parts.csv:19"), NeededFor: []string{"rear tyre R5"}, How: Of("read the first number of the marking"), Tool: Of("none"),
	})
}

func brakeWork() answer.Caution { return cautions()[0] }
