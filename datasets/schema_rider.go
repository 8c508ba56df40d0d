package datasets

import "firstbolt/datasets/sheet"

// RiderSettings are the settings of rider.csv, each described like a column: Type, Unit and Allowed are those of its value.
func RiderSettings() []sheet.Column { return riderSettings }

// ridingWords say in words what the numbers 1 to 5 of `riding` are (conditions of ASTM F2043).
var ridingWords = []string{"roads", "gravel and gentle trails", "rough trails", "steep rough downhill", "bigger than that"}

var riderSettings = []sheet.Column{
	{
		Name: "riding", Title: "Riding", Type: sheet.Number, Example: "3",
		Description: "1 roads; 2 gravel and gentle trails, drops to 15 cm; 3 rough trails, jumps and drops under 61 cm; 4 steep rough downhill, jumps under 122 cm; 5 more than that",
	},
	{Name: "rider_kg", Title: "Rider", Type: sheet.Mass, Unit: "kg", Example: "85", Description: "your mass with clothes", Aliases: []string{"weight"}},
	{Name: "load_kg", Title: "Load", Type: sheet.Mass, Unit: "kg", Example: "4", Description: "what you carry"},
	{Name: "height_cm", Title: "Height", Type: sheet.Length, Unit: "cm", Example: "178", Description: "your height"},
	{Name: "inseam_cm", Title: "Inseam", Type: sheet.Length, Unit: "cm", Example: "82", Description: "floor to crotch in riding shoes"},
	{Name: "budget", Title: "Budget", Type: sheet.Money, Example: "120", Description: "the most to spend now"},
	{Name: "per_month", Title: "Per month", Type: sheet.Money, Example: "30", Description: "what can be spent each month later"},
	{Name: "currency", Title: "Currency", Example: "EUR", Description: "ISO 4217 code of all amounts"},
	{Name: "priorities", Title: "Priorities", Type: sheet.Pairs, Example: "braking=5; grip=3", Description: "points by what you care about"},
	{Name: "ranking", Title: "Ranking", Example: "braking > grip > chain stays on", Description: "what you care about, most important first"},
	{Name: "profile", Title: "Profile", Example: "default", Description: "a ready-made set of priorities"},
	{Name: "work", Title: "Work", Type: sheet.Choice, Allowed: []string{"self", "shop"}, Example: "self", Description: "who does the bench work"},
	{Name: "skill", Title: "Skill", Type: sheet.Whole, Example: "1", Description: "1 beginner, 2 practised, 3 workshop"},
	{Name: "hours", Title: "Hours", Type: sheet.Number, Unit: "hours", Example: "6", Description: "the most hours of bench work"},
	{Name: "most_parts", Title: "Most parts", Type: sheet.Whole, Example: "5", Description: "the most purchases"},
	{Name: "horizon_seasons", Title: "Seasons", Type: sheet.Number, Unit: "seasons", Example: "2", Description: "how long you plan to keep this bike"},
	{Name: "worth", Title: "Worth", Type: sheet.Number, Example: "2", Description: "points per 100 of money below which the money is kept"},
	{Name: "tax_percent", Title: "Tax", Type: sheet.Number, Unit: "percent", Example: "19", Description: "on top of prices where shops.csv does not say", Aliases: []string{"tax", "vat"}},
	{Name: "like", Title: "Like", Example: "store hardtail cable disc 3x7", Description: "typical bike that yours resembles, where there is no bikes.csv"},
}
