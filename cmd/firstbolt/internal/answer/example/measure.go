package example

import "firstbolt/cmd/firstbolt/internal/answer"

// Measuring is the hand-made answer of `measure`: two questions to the bike, one to a seller.
func Measuring() *answer.Measuring {
	m := &answer.Measuring{
		Head: head(), Bike: "my hardtail", Sheet: "bike,part,slot,fact,value,note\n",
		Cautions: cautions()[2:],
	}
	m.Command = "measure"
	lines := []string{"[          ] mm   frame: seat_tube_bore_mm", "[          ] mm   rear wheel: rim_inner_mm", "[          ] mm   rear tyre: width_mm"}
	for i, f := range fitMeasures() {
		box := answer.Box{ToMeasure: f, Line: lines[i], Section: "BIKE: my hardtail"}
		if !f.OnOffer {
			m.Measure = append(m.Measure, box)
			continue
		}
		box.Section = "PART: R5"
		m.Ask = append(m.Ask, box)
	}
	return m
}

// ReadBack is the hand-made answer of `measure --read`, with one question left.
func ReadBack() *answer.Measuring {
	m := Measuring()
	m.Measure, m.Ask = m.Measure[1:], nil
	m.Read = &answer.ReadBack{File: "page.txt", Written: Of("shed/measured.csv"), Same: 1, Changed: []answer.Changed{
		{Bike: Of("my hardtail"), Slot: Of("frame"), Fact: "seat_tube_bore_mm", Before: Of("27.2"), Origin: "remembered", Stood: Of("fitted.csv:3 (F3)"), After: "26.8", Sure: true, Where: "page.txt:7"},
		{Bike: Of("my hardtail"), Slot: Of("fork"), Fact: "front_tyre_max_mm", Origin: "unknown", After: "60", Where: "page.txt:11"},
		{Bike: Of("my hardtail"), Slot: Of("fork"), Fact: "bead_mm", Before: Of("559"), Origin: "measured", Stood: Of("fitted.csv:4 (C4)"), After: "584", Sure: true, Where: "page.txt:12"},
		{Part: Of("R5"), Fact: "tubeless_rated", Before: Of("no"), Origin: "assumed", After: "no", Sure: true, Where: "page.txt:20"},
	}}
	return m
}
