package datasets

import "firstbolt/datasets/sheet"

// The columns of the embedded tables and of the rider's own sheets of the same name. Lists in a cell are separated
// by "; "; "{side}" stands for front and rear.

var sourceColumn = sheet.Column{
	Name: "source", Title: "Source", Example: "common practice",
	Description: "where the row comes from: a standard, a handbook, \"common practice\", \"judgement\" or \"from memory\"",
}

var slotsTable = sheet.Table{Name: "slots", Row: "a place on a bike that holds one thing", Columns: []sheet.Column{
	{Name: "slot", Title: "Slot", Example: "front tyre", Description: "name of the place", Required: true},
	{Name: "required", Title: "Required", Type: sheet.YesNo, Example: "yes", Description: "a rideable bike must have something here"},
	{Name: "place", Title: "Place", Example: "front wheel", Description: "where its bench work happens"},
	{Name: "says", Title: "Says", Example: "rubber on the front wheel", Description: "plain description"},
	sourceColumn,
}}

var factsTable = sheet.Table{Name: "facts", Row: "a measurable property of a frame or part", Columns: []sheet.Column{
	{Name: "fact", Title: "Fact", Example: "bead_mm", Description: "name of the property", Required: true},
	{Name: "kind", Title: "Kind", Type: sheet.Choice, Allowed: []string{"number", "choice", "yes/no"}, Example: "number", Description: "what its values are"},
	{Name: "unit", Title: "Unit", Example: "mm", Description: "unit of a number"},
	{Name: "allowed", Title: "Allowed", Type: sheet.List, Example: "IS; PM; flat", Description: "choices of a choice"},
	{Name: "low", Title: "Low", Type: sheet.Number, Example: "305", Description: "least plausible number"},
	{Name: "high", Title: "High", Type: sheet.Number, Example: "635", Description: "greatest plausible number"},
	{Name: "slots", Title: "Slots", Type: sheet.List, Example: "front tyre; rear tyre", Description: "slots whose things have it"},
	{Name: "how", Title: "How", Example: "read the ETRTO size on the sidewall", Description: "how to measure it"},
	{Name: "tool", Title: "Tool", Example: "eyes", Description: "with what to measure it"},
	{Name: "mistakes", Title: "Mistakes", Example: "26 inch is not one size", Description: "what goes wrong typically"},
	{Name: "plausible", Title: "Plausible", Type: sheet.Pairs, Example: "584=60; 622=40", Description: "values that an unknown one may have, with their shares in percent"},
	sourceColumn,
}}

var rulesTable = sheet.Table{Name: "rules", Row: "a fit rule: a relation between facts that must hold on a built bike", Columns: []sheet.Column{
	{Name: "rule", Title: "Rule", Example: "front-rotor-limit", Description: "name of the rule", Required: true},
	{Name: "left", Title: "Left", Example: "front rotor.rotor_mm", Description: "a sum of facts: slot.fact + 2*slot.fact + 3", Required: true},
	{Name: "relation", Title: "Relation", Type: sheet.Choice, Allowed: []string{"same", "at_most", "at_least", "pair_in"}, Example: "at_most", Description: "how left and right must stand", Required: true},
	{Name: "right", Title: "Right", Example: "fork.rotor_max_mm", Description: "a sum of facts, or a choice; 0 with at_most where the left one must not be there at all", Required: true},
	{Name: "margin", Title: "Margin", Type: sheet.Number, Example: "0.1", Description: "by how much the two may differ"},
	{Name: "table", Title: "Table", Example: "lever-caliper", Description: "lookup table of pair_in"},
	{Name: "when", Title: "When", Example: "front brake caliper.drive=hydraulic mineral", Description: "facts that must hold for the rule to apply"},
	{Name: "bridge", Title: "Bridge", Example: "front brake adapter: step=step_mm", Description: "slot of adapters that can join the two sides, and their facts"},
	{Name: "needs", Title: "Needs", Type: sheet.YesNo, Example: "yes", Description: "both sides must be there"},
	{Name: "severity", Title: "Severity", Type: sheet.Choice, Allowed: []string{"danger", "rule", "both-sides", "caution"}, Example: "danger", Description: "how strict it is", Required: true},
	{Name: "fails", Title: "Fails", Example: "the rotor of {left} mm is above the fork's limit of {right} mm", Description: "sentence when it is broken"},
	{Name: "mend", Title: "Mend", Example: "take a smaller rotor", Description: "how it can be mended"},
	sourceColumn,
	{Name: "url", Title: "URL", Example: "https://example.org/standard", Description: "where the source stands"},
}}

var pairsTable = sheet.Table{Name: "pairs", Row: "two values that go together", Columns: []sheet.Column{
	{Name: "table", Title: "Table", Example: "lever-caliper", Description: "name of the lookup table", Required: true},
	{Name: "left", Title: "Left", Example: "cable long pull", Description: "one value", Required: true},
	{Name: "right", Title: "Right", Example: "linear-pull", Description: "the other value", Required: true},
	{Name: "severity", Title: "Severity", Type: sheet.Choice, Allowed: []string{"rule", "both-sides"}, Example: "rule", Description: "whether practice agrees"},
	sourceColumn,
	{Name: "url", Title: "URL", Example: "https://example.org/standard", Description: "where the source stands"},
}}

var kindsTable = sheet.Table{Name: "kinds", Row: "a plain phrase that stands for a slot and typical facts", Columns: []sheet.Column{
	{Name: "kind", Title: "Kind", Example: "knobbly tyre", Description: "the phrase", Required: true},
	{Name: "aliases", Title: "Aliases", Type: sheet.List, Example: "mud tyre; knobby tyre", Description: "further phrases for it"},
	{Name: "places", Title: "Places", Example: "front tyre / rear tyre", Description: "slots: \" + \" joins a set, \" / \" parts alternatives", Required: true},
	{Name: "facts", Title: "Facts", Type: sheet.Pairs, Example: "tread=knobbly", Description: "typical facts, taken as assumed"},
	{Name: "grams", Title: "Grams", Type: sheet.Mass, Unit: "g", Example: "750", Description: "typical mass"},
	sourceColumn,
}}

var likesTable = sheet.Table{Name: "likes", Row: "what a typical bike has in one slot", Columns: []sheet.Column{
	{Name: "like", Title: "Like", Example: "store hardtail cable disc 3x7", Description: "name of the typical bike", Required: true},
	{Name: "slot", Title: "Slot", Example: "fork", Description: "the place", Required: true},
	{Name: "part", Title: "Part", Example: "coil fork", Description: "what stands there; \"none\" for nothing"},
	{Name: "facts", Title: "Facts", Type: sheet.Pairs, Example: "travel_mm=80", Description: "typical facts, taken as assumed"},
	{Name: "grams", Title: "Grams", Type: sheet.Mass, Unit: "g", Example: "2500", Description: "typical mass"},
	sourceColumn,
}}

var criteriaTable = sheet.Table{Name: "criteria", Row: "something a rider cares about", Columns: []sheet.Column{
	{Name: "criterion", Title: "Criterion", Example: "retention", Description: "its key", Required: true},
	{Name: "says", Title: "Says", Example: "chain stays on", Description: "the plain words for it"},
	{Name: "words", Title: "Words", Type: sheet.List, Example: "chain drop; no chain drop", Description: "further words a rider may use"},
	{Name: "worst", Title: "Worst", Example: "the chain comes off on every descent", Description: "what 0 is"},
	{Name: "best", Title: "Best", Example: "the chain never comes off", Description: "what 100 is"},
}}
