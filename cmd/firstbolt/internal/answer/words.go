package answer

import "strings"

// factWords are the facts whose names do not read as words once their unit is cut off.
var factWords = map[string]string{
	"bead_mm":               "bead seat diameter, mm",
	"adapter_from":          "mount that the adapter goes on",
	"adapter_to":            "mount that the adapter gives",
	"arm_mm":                "crank arm length, mm",
	"brakes_on":             "what the wheel brakes on",
	"cog_max":               "teeth of the largest cog",
	"cog_min":               "teeth of the smallest cog",
	"converter_from":        "cable pull that the converter takes",
	"converter_to":          "cable pull that the converter gives",
	"derailleur_cog_max":    "largest cog that the derailleur takes",
	"derailleur_cog_least":  "smallest largest cog that the derailleur takes",
	"derailleur_capacity":   "capacity of the derailleur, teeth",
	"derailleur_rings_max":  "most chainrings that the derailleur takes",
	"drive":                 "cable or hydraulic, and which fluid",
	"front_native_rotor_mm": "rotor that the front mount takes without an adapter, mm",
	"rear_native_rotor_mm":  "rotor that the rear mount takes without an adapter, mm",
	"front_rotor_max_mm":    "largest rotor allowed in front, mm",
	"rear_rotor_max_mm":     "largest rotor allowed at the rear, mm",
	"front_tyre_max_mm":     "widest tyre that has room in front, mm",
	"rear_tyre_max_mm":      "widest tyre that has room at the rear, mm",
	"guide_ring_max":        "largest chainring that the guide takes",
	"guide_ring_min":        "smallest chainring that the guide takes",
	"joined":                "brake lever and shifter in one piece",
	"links":                 "length of the chain in links",
	"post_depth_mm":         "how deep the seatpost can stand in, mm",
	"prebled":               "joined and filled as delivered",
	"pull_family":           "cable pull of the shifter",
	"resin_only":            "rotor for resin pads only",
	"rim_inner_mm":          "width between the rim's walls, mm",
	"ring_max":              "teeth of the largest chainring",
	"ring_min":              "teeth of the smallest chainring",
	"ring_teeth_max":        "largest chainring that has room",
	"rotor_mm":              "rotor diameter, mm",
	"system_max_kg":         "most that bike, rider and load may weigh, kg",
	"use_class":             "class of riding that it is made for",
	"width_mm":              "tyre width, mm",
}

// units are the ends of fact names that name a unit, in words.
var units = []struct{ end, says string }{{"_mm", ", mm"}, {"_kg", ", kg"}, {"_deg", ", degrees"}, {"_percent", ", per cent"}}

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

// FactValue is a fact with its value as one says it: "bead seat diameter 584 mm", "hanger none"; "not known" where
// there is no value.
func FactValue(fact string, value *string) string {
	words := FactWords(fact)
	for _, u := range units {
		words = strings.TrimSuffix(words, u.says)
	}
	return words + " " + FactAmount(fact, value)
}

// FactAmount is the value of a fact with its unit: "584 mm".
func FactAmount(fact string, value *string) string {
	if value == nil {
		return "not known"
	}
	for _, u := range units {
		if strings.HasSuffix(FactWords(fact), u.says) {
			return *value + strings.TrimPrefix(u.says, ",")
		}
	}
	return *value
}
