package example

import "firstbolt/cmd/firstbolt/internal/answer"

// Want is the hand-made answer of `want`: every kind of need and way once.
func Want() *answer.Want {
	a := &answer.Want{
		Head: head(), Bike: "my hardtail", Slot: "seatpost", Says: "the post", Required: true, Now: Of("post 27.2"),
		Needs: []answer.Need{
			{Verdict: Of("fits_with"), Does: answer.NeedValues{Any: true}, Rules: []answer.NeedCause{cause("guide_rings", "rule", "rings", "3", "The guide is for one ring and there are 3.")}},
			{Verdict: Of("fits"), Does: answer.NeedValues{Any: true}},
			{
				Fact: Of("seatpost_mm"), Kind: Of("number"), Does: answer.NeedValues{Low: Of("27.15"), High: Of("27.25")}, Traps: []string{"the stamp can be off by 0.2"},
				Ways: []answer.NeedWay{
					{Values: answer.NeedValues{Low: Of("28.6"), High: Of("28.6")}, Off: []string{"seatpost sleeve"}},
					{Values: answer.NeedValues{High: Of("28.549")}, Pieces: []answer.NeedPiece{{Slot: "seatpost sleeve", To: Of("28.6")}}},
					{Values: answer.NeedValues{Low: Of("30.001"), High: Of("31"), Except: []string{"30.5"}}, Measure: []string{"frame.seat_tube_bore_mm"}, Allow: []string{"post_loose"}},
					{Values: answer.NeedValues{Choices: []string{"27.2"}}, AsNow: true},
				},
				Rules: []answer.NeedCause{cause("post_bore", "rule", "seat_tube_bore_mm", "28.6", ""), cause("post_loose", "both-sides", "seat_tube_bore_mm", "28.6", "")},
			},
			{Fact: Of("rail"), Kind: Of("choice"), Does: answer.NeedValues{Choices: []string{"7 round", "oval"}}, If: []answer.NeedIf{{Fact: "dropper", Value: "yes"}}},
			{Fact: Of("seatpost_length_mm"), Kind: Of("number"), Does: answer.NeedValues{None: true}},
			{
				Sum:  []answer.NeedTerm{{Fact: "seatpost_length_mm", Factor: "1"}, {Fact: "seatpost_mm", Factor: "-2"}},
				Does: answer.NeedValues{Low: Of("190.004")}, Rules: []answer.NeedCause{cause("post_length", "danger", "post_exposed_mm", "190", "")},
			},
		},
		Measure: fitMeasures()[:1], Cautions: []answer.Caution{brakeWork()},
	}
	a.Command = "want"
	return a
}

func cause(rule, severity, fact, value, sentence string) answer.NeedCause {
	c := answer.NeedCause{
		Rule: rule, Severity: severity, Source: "common practice", MendedBy: Of("Buy the part that fits."),
		Against: []answer.FitTerm{{Slot: "frame", Fact: fact, Thing: "frame", Factor: "1", Value: &value, Origin: "measured", Where: Of("fitted.csv:3 (F3)")}},
	}
	if sentence != "" {
		c.Sentence = &sentence
	}
	return c
}
