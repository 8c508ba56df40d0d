package answer

import "strings"

// factWords are the facts whose names do not read as words once their unit is cut off.
var factWords = map[string]string{
	"use_class":             "class of riding that it is made for",
	"system_max_kg":         "most that bike, rider and load may weigh, kg",
	"bead_mm":               "bead seat diameter, mm",
	"head_upper_mm":         "bore of the head tube at its upper end, mm",
	"head_lower_mm":         "bore of the head tube at its lower end, mm",
	"head_stack_mm":         "height of head tube and headset, mm",
	"steerer_thread":        "thread of the fork's tube",
	"steerer_mm":            "thickness of the fork's tube, mm",
	"crown_race_mm":         "race seat at the fork's lower end, mm",
	"steerer_length_mm":     "length of the fork's tube, mm",
	"steerer_inner_mm":      "inside of the fork's tube, mm",
	"stem_kind":             "kind of stem",
	"steerer_clamp_mm":      "fork tube that the stem clamps, mm",
	"clamp_height_mm":       "height of the stem's clamp, mm",
	"fork_length_mm":        "length of the fork from axle to crown, mm",
	"fork_length_max_mm":    "longest fork that the frame takes, mm",
	"fork_travel_mm":        "travel of the fork, mm",
	"drive":                 "cable or hydraulic, and which fluid",
	"brakes_on":             "what the wheel brakes on",
	"brake_kind":            "kind of brake",
	"prebled":               "joined and filled as delivered",
	"joined":                "brake lever and shifter in one piece",
	"front_native_rotor_mm": "rotor that the front mount takes without an adapter, mm",
	"rear_native_rotor_mm":  "rotor that the rear mount takes without an adapter, mm",
	"front_rotor_max_mm":    "largest rotor allowed in front, mm",
	"rear_rotor_max_mm":     "largest rotor allowed at the rear, mm",
	"rotor_mm":              "rotor diameter, mm",
	"resin_only":            "rotor for resin pads only",
	"adapter_from":          "mount that the adapter goes on",
	"adapter_to":            "mount that the adapter gives",
	"adapter_step_mm":       "rotor step of the adapter, mm",
	"converter_from":        "cable pull that the converter takes",
	"converter_to":          "cable pull that the converter gives",
	"rim_inner_mm":          "width between the rim's walls, mm",
	"tubeless_rated":        "rated for riding without a tube",
	"radial_disc_side":      "spokes straight out on the rotor's side",
	"valve_hole_mm":         "valve hole of the rim, mm",
	"width_mm":              "tyre width, mm",
	"front_tyre_max_mm":     "widest tyre that has room in front, mm",
	"rear_tyre_max_mm":      "widest tyre that has room at the rear, mm",
	"crank_interface":       "joint of crank and bottom bracket",
	"shell":                 "thread or fit of the bottom bracket shell",
	"shell_width_mm":        "width of the bottom bracket shell, mm",
	"spindle_mm":            "length of the spindle, mm",
	"spindle_wanted_mm":     "spindle that the crank wants, mm",
	"arm_mm":                "crank arm length, mm",
	"ring_mount":            "how the chainring is held",
	"ring_profile":          "profile of the chainring's teeth",
	"rings":                 "number of chainrings",
	"ring_min":              "teeth of the smallest chainring",
	"ring_max":              "teeth of the largest chainring",
	"ring_teeth_max":        "largest chainring that has room",
	"chainstay_mm":          "length of the chainstay, mm",
	"speeds":                "number of cogs",
	"links":                 "length of the chain in links",
	"chain_wear_percent":    "wear of the chain, per cent",
	"cog_min":               "teeth of the smallest cog",
	"cog_max":               "teeth of the largest cog",
	"cog_carrier":           "what the cogs sit on",
	"pull_family":           "cable pull of the shifter",
	"derailleur_cog_max":    "largest cog that the derailleur takes",
	"derailleur_cog_least":  "smallest largest cog that the derailleur takes",
	"derailleur_capacity":   "capacity of the derailleur, teeth",
	"derailleur_rings_max":  "most chainrings that the derailleur takes",
	"derailleur_fixing":     "how the derailleur is fixed",
	"hanger":                "hanger for the derailleur",
	"clutch":                "clutch that keeps the chain tight",
	"guide_ring_min":        "smallest chainring that the guide takes",
	"guide_ring_max":        "largest chainring that the guide takes",
	"bar_clamp_mm":          "bar thickness at the clamp, mm",
	"grip_mm":               "length of a grip, mm",
	"seatpost_mm":           "thickness of the seatpost, mm",
	"seatpost_length_mm":    "length of the seatpost, mm",
	"post_exposed_mm":       "seatpost above the clamp at your height, mm",
	"post_depth_mm":         "how deep the seatpost can stand in, mm",
	"dropper_drop_mm":       "drop of the seatpost, mm",
	"dropper_stack_mm":      "dropper post above its collar, mm",
	"dropper_insert_mm":     "dropper post below its collar, mm",
	"dropper_routing":       "way of the dropper's cable",
	"rail":                  "saddle rails",
	"seat_tube_outer_mm":    "outside of the seat tube, mm",
	"seat_clamp_mm":         "tube that the seat clamp is for, mm",
	"sleeve_inner_mm":       "post that the sleeve takes, mm",
	"sleeve_outer_mm":       "tube that the sleeve goes into, mm",
	"shim_inner_mm":         "fork tube that the sleeve takes, mm",
	"shim_outer_mm":         "stem that the sleeve goes into, mm",
	"bar_sleeve_inner_mm":   "bar that the sleeve takes, mm",
	"bar_sleeve_outer_mm":   "stem that the sleeve goes into, mm",
	"reducer_inner_mm":      "race seat that the reducer takes, mm",
	"reducer_outer_mm":      "race seat that the reducer gives, mm",
	"riding":                "kind of riding, 1 to 5",
	"total_kg":              "rider, load and bike together, kg",
	"inspected":             "looked over for cracks",
}

// units are the ends of fact names that name a unit, in words.
var units = []struct{ end, says string }{{"_mm", ", mm"}, {"_kg", ", kg"}, {"_deg", ", degrees"}, {"_percent", ", per cent"}, {"_cm", ", cm"}}

// unitWords are the units that end a fact's words.
var unitWords = []string{", mm", ", kg", ", degrees", ", per cent", ", cm", ", teeth"}

// FactWords is a fact of the tables in plain words: "bead_mm" is "bead seat diameter, mm".
func FactWords(fact string) string {
	if says, ok := factWords[fact]; ok {
		return says
	}
	for _, u := range units {
		if name, ok := strings.CutSuffix(fact, u.end); ok {
			fact = name + u.says
			break
		}
	}
	return strings.ReplaceAll(fact, "_", " ")
}

// FactValue is a fact with its value as one says it: "bead seat diameter 584 mm".
func FactValue(fact string, value *string) string {
	return FactName(fact) + " " + FactAmount(fact, value)
}

// FactName is a fact in plain words without its unit.
func FactName(fact string) string {
	words := FactWords(fact)
	for _, u := range unitWords {
		words = strings.TrimSuffix(words, u)
	}
	return words
}

// FactAmount is the value of a fact with its unit: "584 mm"; "not known" where there is none.
func FactAmount(fact string, value *string) string {
	if value == nil {
		return "not known"
	}
	for _, u := range unitWords {
		if strings.HasSuffix(FactWords(fact), u) {
			return *value + strings.TrimPrefix(u, ",")
		}
	}
	return *value
}
