package datasets

import "firstbolt/datasets/sheet"

var gramsColumn = sheet.Column{
	Name: "grams", Title: "Mass", Type: sheet.Mass, Unit: "g", Example: "710",
	Description: "mass; kg, lb and oz are understood", Aliases: []string{"weight", "weight_g", "mass", "mass_g"},
}

var pairsColumn = sheet.Column{
	Name: "facts", Title: "Facts", Type: sheet.Pairs, Example: "tread=knobbly; bead_mm=584",
	Description: "facts that have no column of their own",
}

var noteColumn = sheet.Column{Name: "note", Title: "Note", Example: "seen at the market", Description: "anything; never read", Aliases: []string{"notes", "remark", "comment"}}

var partsTable = sheet.Table{Name: "parts", Row: "something that can be bought", Sample: []string{"part", "kind", "price"}, Columns: []sheet.Column{
	{Name: "part", Title: "Part", Example: "front tyre F6", Description: "its name", Aliases: []string{"name", "title"}, Required: true},
	{Name: "kind", Title: "Kind", Example: "knobbly tyre", Description: "plain phrase that sets slot and typical facts; kind or slot must be given"},
	{Name: "slot", Title: "Slot", Example: "front tyre / rear tyre", Description: "where it goes: \" + \" joins a set, \" / \" parts alternatives", Aliases: []string{"slots", "place"}},
	{Name: "price", Title: "Price", Type: sheet.Money, Example: "24.90", Description: "what the shop asks, before tax on top", Aliases: []string{"cost"}, Required: true},
	{Name: "id", Title: "Id", Example: "F6", Description: "short stable name; the part's name where empty"},
	{Name: "shop", Title: "Shop", Example: "S2", Description: "row of shops.csv", Aliases: []string{"vendor", "seller"}},
	{Name: "link", Title: "Link", Example: "https://example.org/f6", Description: "where it is sold", Aliases: []string{"url"}},
	{Name: "used", Title: "Used", Type: sheet.YesNo, Example: "no", Description: "second hand"},
	{Name: "inspected", Title: "Inspected", Type: sheet.YesNo, Example: "yes", Description: "a used part that was looked over"},
	{Name: "available", Title: "Available", Type: sheet.Whole, Example: "2", Description: "how many can be bought; empty for any number"},
	{Name: "owned", Title: "Owned", Type: sheet.Whole, Example: "1", Description: "how many lie in the shed already; yes is 1"},
	{Name: "returnable", Title: "Returnable", Type: sheet.YesNo, Example: "yes", Description: "can be sent back unused"},
	gramsColumn,
	{Name: "seasons", Title: "Seasons", Type: sheet.Number, Unit: "seasons", Example: "3", Description: "how long it lasts"},
	{Name: "wish", Title: "Wish", Type: sheet.Choice, Allowed: []string{"consider", "must", "never"}, Example: "consider", Description: "whether it has to be bought, or never"},
	pairsColumn,
	noteColumn,
}}

var riderTable = sheet.Table{Name: "rider", Row: "a setting of the rider", Columns: []sheet.Column{
	{Name: "setting", Title: "Setting", Example: "budget", Description: "which setting", Required: true},
	{Name: "value", Title: "Value", Type: sheet.Setting, Example: "120", Description: "its value"},
}}

var bikesTable = sheet.Table{Name: "bikes", Row: "a complete bike: your own, one for sale, or a donor of parts", Sample: []string{"bike", "owned", "like"}, Columns: []sheet.Column{
	{Name: "bike", Title: "Bike", Example: "my hardtail", Description: "its name", Aliases: []string{"name", "title"}, Required: true},
	{Name: "owned", Title: "Owned", Type: sheet.Choice, Allowed: []string{"yes", "no", "donor"}, Example: "yes", Description: "yes: the bike you ride; no: for sale; donor: in the shed for its parts"},
	{Name: "like", Title: "Like", Example: "store hardtail cable disc 3x7", Description: "typical bike that fills what fitted.csv leaves open"},
	{Name: "price", Title: "Price", Type: sheet.Money, Example: "480", Description: "what is asked for it", Aliases: []string{"cost"}},
	{Name: "delivery", Title: "Delivery", Type: sheet.Money, Example: "35", Description: "bringing it home", Aliases: []string{"shipping"}},
	{Name: "assembly", Title: "Assembly", Type: sheet.Money, Example: "40", Description: "putting it together"},
	{Name: "repairs", Title: "Repairs", Type: sheet.Money, Example: "25", Description: "what must be mended before the first ride"},
	{Name: "used", Title: "Used", Type: sheet.YesNo, Example: "yes", Description: "second hand"},
	{Name: "sells_for", Title: "Sells for", Type: sheet.Money, Example: "60", Description: "what the bike as it stands would bring"},
	{Name: "size_from_cm", Title: "Size from", Type: sheet.Number, Unit: "cm", Example: "170", Description: "least height of a rider it is made for"},
	{Name: "size_to_cm", Title: "Size to", Type: sheet.Number, Unit: "cm", Example: "182", Description: "greatest height of a rider it is made for"},
	{Name: "size_ok", Title: "Size is right", Type: sheet.YesNo, Example: "yes", Description: "it fits the rider"},
	pairsColumn,
	noteColumn,
}}

var fittedTable = sheet.Table{Name: "fitted", Row: "what one bike has in one slot", Columns: []sheet.Column{
	{Name: "bike", Title: "Bike", Example: "my hardtail", Description: "row of bikes.csv", Required: true},
	{Name: "slot", Title: "Slot", Example: "front tyre", Description: "which place", Required: true},
	{Name: "part", Title: "Part", Example: "worn front tyre", Description: "what stands there; \"none\" for nothing", Aliases: []string{"name", "title"}},
	{Name: "kind", Title: "Kind", Example: "knobbly tyre", Description: "plain phrase that gives typical facts"},
	{Name: "condition", Title: "Condition", Type: sheet.Choice, Allowed: []string{"good", "tired", "due", "unsafe"}, Example: "tired", Description: "good works; tired works worse than it could; due wears out soon; unsafe must not be ridden"},
	{Name: "seasons_left", Title: "Seasons left", Type: sheet.Number, Unit: "seasons", Example: "1", Description: "how long it will last"},
	{Name: "sells_for", Title: "Sells for", Type: sheet.Money, Example: "15", Description: "what it would bring when taken off"},
	{Name: "bound_to", Title: "Bound to", Example: "rear shifter", Description: "slot it cannot be parted from"},
	gramsColumn,
	pairsColumn,
	noteColumn,
}}

var measuredTable = sheet.Table{Name: "measured", Row: "something you measured", Sample: []string{"slot", "fact", "value"}, Columns: []sheet.Column{
	{Name: "bike", Title: "Bike", Example: "my hardtail", Description: "row of bikes.csv; empty for the bike you ride"},
	{Name: "slot", Title: "Slot", Example: "frame", Description: "which place; may be empty where only one place has the fact"},
	{Name: "fact", Title: "Fact", Example: "seat_tube_bore_mm", Description: "what was measured", Required: true},
	{Name: "value", Title: "Value", Type: sheet.Setting, Example: "27.2", Description: "what came out; empty is a question still open, \"?\" behind it a doubt"},
	{Name: "part", Title: "Part", Example: "F6", Description: "row of parts.csv, by its id or name, in place of a bike: what the seller said"},
	noteColumn,
}}

var shopsTable = sheet.Table{Name: "shops", Row: "a shop", Columns: []sheet.Column{
	{Name: "shop", Title: "Shop", Example: "S2", Description: "its name", Aliases: []string{"name", "vendor", "seller"}, Required: true},
	{Name: "shipping", Title: "Shipping", Type: sheet.Money, Example: "4.50", Description: "postage of one order", Aliases: []string{"postage", "delivery"}},
	{Name: "free_over", Title: "Free over", Type: sheet.Money, Example: "50", Description: "orders from this sum on ship free; empty for never"},
	{Name: "tax", Title: "Tax", Type: sheet.Number, Unit: "percent", Example: "19", Description: "on top of the prices; empty where prices include it", Aliases: []string{"tax_percent", "vat"}},
	noteColumn,
}}

var toolsTable = sheet.Table{Name: "tools", Row: "a tool", Columns: []sheet.Column{
	{Name: "tool", Title: "Tool", Example: "cassette tool", Description: "its name", Aliases: []string{"name"}, Required: true},
	{Name: "price", Title: "Price", Type: sheet.Money, Example: "9.50", Description: "what it costs", Aliases: []string{"cost"}},
	{Name: "have", Title: "Have", Type: sheet.Choice, Allowed: []string{"yes", "no", "borrow", "club"}, Example: "borrow", Description: "how it is to be had", Aliases: []string{"owned"}},
	sourceColumn,
}}
