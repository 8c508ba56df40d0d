package datasets

import "firstbolt/datasets/sheet"

var curvesTable = sheet.Table{Name: "curves", Row: "a counted side of a criterion with its curve", Columns: []sheet.Column{
	{Name: "measure", Title: "Measure", Example: "braking.front", Description: "name of the counted side", Required: true},
	{Name: "criterion", Title: "Criterion", Example: "braking", Description: "what it is a side of", Required: true},
	{Name: "share", Title: "Share", Type: sheet.Whole, Unit: "percent", Example: "68", Description: "percent of the criterion", Required: true},
	{Name: "says", Title: "Says", Example: "front brake", Description: "plain words for it"},
	{Name: "unit", Title: "Unit", Example: "times the reference brake", Description: "what one unit of the amount is"},
	{Name: "points", Title: "Points", Example: "0:0; 1:35; 2:62", Description: "amount:level of every bend; the level is 0 to 100", Required: true},
	sourceColumn,
}}

var measuresTable = sheet.Table{Name: "measures", Row: "how one fact of one slot becomes an amount", Columns: []sheet.Column{
	{Name: "measure", Title: "Measure", Example: "traction.front", Description: "what it adds to", Required: true},
	{Name: "slot", Title: "Slot", Example: "front tyre", Description: "whose fact", Required: true},
	{Name: "fact", Title: "Fact", Example: "tread", Description: "the fact; \"grams\", \"condition\"; empty for mere presence"},
	{Name: "form", Title: "Form", Type: sheet.Choice, Allowed: []string{"table", "factor", "log", "linear"}, Example: "table", Description: "looked up, logarithm of the looked-up factor, coef times logarithm, coef times number"},
	{Name: "coef", Title: "Coef", Type: sheet.Number, Example: "0.05", Description: "factor of log and linear, or what presence gives"},
	{Name: "rows", Title: "Rows", Example: "slick:0; knobbly:3", Description: "lookup; numbers between rows are interpolated, outside flat"},
	sourceColumn,
}}

var assumptionsTable = sheet.Table{Name: "assumptions", Row: "what is taken where no fact says it", Columns: []sheet.Column{
	{Name: "measure", Title: "Measure", Example: "braking.front", Description: "for which measure", Required: true},
	{Name: "slot", Title: "Slot", Example: "front brake caliper", Description: "for which slot; empty for the bike as a whole"},
	{Name: "like", Title: "Like", Example: "store hardtail cable disc 3x7", Description: "on which typical bike; empty for any"},
	{Name: "low", Title: "Low", Type: sheet.Number, Example: "0.5", Description: "least amount to reckon with"},
	{Name: "likely", Title: "Likely", Type: sheet.Number, Example: "0.68", Description: "amount taken"},
	{Name: "high", Title: "High", Type: sheet.Number, Example: "0.9", Description: "greatest amount to reckon with"},
	{Name: "rated_low", Title: "Rated low", Type: sheet.Number, Example: "0.4", Description: "amount that a rating of 0 stands for"},
	{Name: "rated_high", Title: "Rated high", Type: sheet.Number, Example: "2.2", Description: "amount that a rating of 10 stands for"},
	sourceColumn,
}}

var valuesTable = sheet.Table{Name: "values", Row: "the worth of things that only count together", Columns: []sheet.Column{
	{Name: "value", Title: "Value", Example: "tubeless, front", Description: "its name", Required: true},
	{Name: "measure", Title: "Measure", Example: "traction.front", Description: "what it adds to", Required: true},
	{Name: "when", Title: "When", Type: sheet.Pairs, Example: "front tyre.tubeless_rated=yes; front tubeless set=present", Description: "what must hold, at most three", Required: true},
	{Name: "gives", Title: "Gives", Type: sheet.Number, Example: "0.6", Description: "amount added", Required: true},
	sourceColumn,
}}

var profilesTable = sheet.Table{Name: "profiles", Row: "a ready-made set of priorities", Columns: []sheet.Column{
	{Name: "profile", Title: "Profile", Example: "default", Description: "its name", Required: true},
	{Name: "points", Title: "Points", Type: sheet.Pairs, Example: "braking=22; traction=18", Description: "points by criterion, 100 in all", Required: true},
	sourceColumn,
}}

var jobsTable = sheet.Table{Name: "jobs", Row: "bench work that a change in a slot brings", Columns: []sheet.Column{
	{Name: "job", Title: "Job", Example: "fit tyre", Description: "its name", Required: true},
	{Name: "slots", Title: "Slots", Type: sheet.List, Example: "front tyre", Description: "slots whose change brings it", Required: true},
	{Name: "change", Title: "Change", Type: sheet.Choice, Allowed: []string{"fit", "remove", "service"}, Example: "fit", Description: "what change brings it"},
	{Name: "when", Title: "When", Type: sheet.Pairs, Example: "prebled=no", Description: "facts of the fitted thing that must hold"},
	{Name: "place", Title: "Place", Example: "front wheel", Description: "where on the bike"},
	{Name: "shared", Title: "Shared", Example: "wheel out", Description: "jobs of one place with the same word here are done once"},
	{Name: "minutes", Title: "Minutes", Type: sheet.Whole, Unit: "min", Example: "15", Description: "bench time"},
	{Name: "skill", Title: "Skill", Type: sheet.Whole, Example: "1", Description: "1 anyone, 2 practised, 3 workshop"},
	{Name: "tools", Title: "Tools", Type: sheet.List, Example: "tyre levers", Description: "tools needed"},
	{Name: "small_parts", Title: "Small parts", Type: sheet.Pairs, Example: "cable end=0.20", Description: "what is used up, with prices"},
	{Name: "restores", Title: "Restores", Example: "good", Description: "condition a serviced thing then has"},
	{Name: "shop_price", Title: "Shop price", Type: sheet.Money, Example: "12.00", Description: "what a workshop asks; \"ask\" where unknown"},
	{Name: "per_season", Title: "Per season", Type: sheet.Money, Example: "4.00", Description: "running cost it brings"},
	{Name: "optional", Title: "Optional", Type: sheet.YesNo, Example: "no", Description: "may be left out"},
	sourceColumn,
}}

var cautionsTable = sheet.Table{Name: "cautions", Row: "what is said when its slots are touched", Columns: []sheet.Column{
	{Name: "caution", Title: "Caution", Example: "front-disc-skewer", Description: "its name", Required: true},
	{Name: "slots", Title: "Slots", Type: sheet.List, Example: "front wheel", Description: "slots; empty for always"},
	{Name: "when", Title: "When", Type: sheet.Choice, Allowed: []string{"free", "before", "work", "first-ride"}, Example: "first-ride", Description: "when it is said"},
	{Name: "text", Title: "Text", Example: "close the skewer and test it before every ride", Description: "what is said", Required: true},
	{Name: "check_with", Title: "Check with", Example: "the maker's manual", Description: "who knows better"},
	sourceColumn,
}}
