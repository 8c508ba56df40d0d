package formulate

import (
	"firstbolt/model"
	"firstbolt/scoring"
	"firstbolt/scoring/cost"
	"firstbolt/solver/program"
)

// Options narrow what may be bought.
type Options struct {
	Allow []string // both-sides rules that this rider allows
	Sure  bool     // nothing that must be measured first
	Most  int      // most purchases, 0 = no limit
	Ban   []string // part ids that may not be bought, on top of the sheet's "never"
	Force []string // part ids that must be bought, on top of the sheet's "must"
}

// Role of a program slot.
type Role int

// A place on the bike; a missing fact with its plausible values; the worth of a pair.
const (
	OnBike Role = iota
	Guess
	Worth
)

// SlotLabel is the way back from a program slot.
type SlotLabel struct {
	Role    Role
	Slot    string // slot of the bike; of a Guess, the slot whose fact it is
	Fact    string // of a Guess
	Name    string // of a Worth
	Options []OptionLabel
}

// OptionLabel is the way back from an option.
type OptionLabel struct {
	Thing  model.Thing
	Place  model.Place
	Owned  bool // a copy that lies in the shed
	Bill   cost.Bill
	ByShop []bool        // per job of the bill
	Value  model.Value   // of a Guess: the likeliest of the values that no rule tells apart
	Also   []model.Value // of a Guess: the others
	Holds  bool          // of a Worth
	kit    int           // number of the set it belongs to, 0 for none
}

// NotOffered is a part that never gets into the program of this bike, and why.
type NotOffered struct {
	Part   *model.Part
	Place  model.Place
	Reason string
}

// Compiled is one bike's question as a program, with the way back from columns to purchases.
type Compiled struct {
	Shed       *model.Shed
	Bike       *model.Bike
	Options    Options
	Program    *program.Program       // budget, floor and objective left open
	Now        map[string]model.Thing // the bike as it stands, by slot
	Slots      []SlotLabel            // aligned with Program.Slots
	AsItStands []int                  // the choice that changes nothing; -1 where what is fitted is no option
	NotOffered []NotOffered
	Wanted     []*model.Part // "must" parts that could go on this bike
	Musts      []*model.Part // those that the program demands (WithMust)
	Waived     []*model.Part // "must" parts that do not go on this bike
	Weights    scoring.Weights
	Scales     []scoring.Scale
	Scorer     *scoring.Scorer
	coster     *cost.Coster
	charges    map[string]int // charge index by name
	levels     map[string][]int64
	shops      map[string]int
	guesses    map[[2]string]int // slot and fact to program slot
	eliminated []eliminated
}

// Purchase is one part bought, in all the slots it fills.
type Purchase struct {
	Part     *model.Part
	Place    model.Place
	Owned    bool
	Replaces []model.Thing // what stood in its slots, nothing for empty ones
	Changes  []Change      // one per slot
}

// Change is what happens to one slot.
type Change struct {
	Slot   int // program slot
	Before model.Thing
	Label  OptionLabel
}

// Built is the bike after a choice, by slot, with its rider.
func (c *Compiled) Built(choice []int) map[string]model.Thing {
	built := map[string]model.Thing{model.RiderSlot: c.Now[model.RiderSlot]}
	for s, k := range choice {
		if c.Slots[s].Role == OnBike {
			built[c.Slots[s].Slot] = c.Slots[s].Options[k].Thing
		}
	}
	return built
}

// Changes are the slots where a choice differs from the bike as it stands, in the order of slots.csv.
func (c *Compiled) Changes(choice []int) []Change {
	var changes []Change
	for s, k := range choice {
		label := &c.Slots[s]
		if label.Role != OnBike || k == c.AsItStands[s] {
			continue
		}
		changes = append(changes, Change{Slot: s, Before: c.Now[label.Slot], Label: label.Options[k]})
	}
	return changes
}

// Purchases gathers the changes of a choice into parts bought; changes without a part (service, removal) come back as
// purchases of their own with a nil Part.
func (c *Compiled) Purchases(choice []int) []Purchase {
	var list []Purchase
	kits := map[int]int{}
	for _, ch := range c.Changes(choice) {
		at, seen := kits[ch.Label.kit]
		if ch.Label.kit == 0 || !seen {
			at = len(list)
			list = append(list, Purchase{Part: ch.Label.Thing.Part, Place: ch.Label.Place, Owned: ch.Label.Owned})
			kits[ch.Label.kit] = at
		}
		p := &list[at]
		p.Changes = append(p.Changes, ch)
		if ch.Before.State != model.Empty {
			p.Replaces = append(p.Replaces, ch.Before)
		}
	}
	return list
}
