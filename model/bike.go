package model

// Ownership says whose a bike is. The zero value is Rival: a complete bike for sale.
type Ownership int

// The three kinds of bikes in a shed.
const (
	Rival Ownership = iota
	Own
	DonorBike // in the shed for its parts
)

// Condition of a fitted part. The zero value is Good.
type Condition int

// Good works as it should; Tired works worse than it could (a job may restore it); Due wears out within the
// horizon but is usable; Unsafe must not be ridden.
const (
	Good Condition = iota
	Tired
	Due
	Unsafe
)

// String is the word used in the sheets.
func (c Condition) String() string { return [...]string{"good", "tired", "due", "unsafe"}[c] }

// Bike is one row of bikes.csv with its rows of fitted.csv, missing slots filled from `like`.
type Bike struct {
	Name      string
	Ownership Ownership
	Like      string
	Price     Money // asked for it; 0 for the rider's own
	Delivery  Money
	Assembly  Money
	Repairs   Money
	SellsFor  Stated[Money] // what the bike as it stands would bring
	Used      YesNo
	SizeOK    YesNo
	Facts     Facts                      // of the whole bike; those that facts.csv gives to the frame are the frame's
	Ratings   map[string]Stated[float64] // for what no part carries
	Note      string
	Fitted    []Fitted // at most one per slot, in the order of slots.csv
	Origin    Origin
}

// BaseCost is what the bike costs before any part: price, delivery, assembly and repairs.
func (b *Bike) BaseCost() Money { return b.Price + b.Delivery + b.Assembly + b.Repairs }

// InSlot is what stands in a slot now; nil when nothing does.
func (b *Bike) InSlot(slot string) *Fitted {
	for i := range b.Fitted {
		if b.Fitted[i].Slot == slot {
			return &b.Fitted[i]
		}
	}
	return nil
}

// Fitted is what one bike has in one slot now.
type Fitted struct {
	Slot        string
	Part        string // name; "" when the rider did not name it
	None        bool   // the slot is known to be empty
	Condition   Condition
	SeasonsLeft Stated[float64]
	SellsFor    Stated[Money]
	BoundTo     string // slot it cannot be parted from
	Facts       Facts
	Grams       Stated[Grams]
	Ratings     map[string]Stated[float64]
	Origin      Origin // the row of fitted.csv, or Sheet "like"
}

// State is how a slot of a built bike came to hold what it holds.
type State int

// The zero value is Empty.
const (
	Empty    State = iota // nothing in the slot
	AsFitted              // what the bike had
	Serviced              // what the bike had, restored by a job
	Bought                // a part
)

// Thing is what stands in one slot of a bike as it is or as it would be built.
// Fit, scoring and cost all work on things, so they see a fitted part and a bought one alike.
type Thing struct {
	Slot    string
	State   State
	Name    string
	Part    *Part   // when Bought
	Place   Place   // when Bought: the slots that the part fills together, this one among them
	Fitted  *Fitted // when AsFitted or Serviced, and for Empty when the bike's slot is empty now
	Facts   Facts   // the facts that this slot has; "condition" is among them for fitted things
	Grams   Stated[Grams]
	Ratings map[string]Stated[float64]
	Origin  Origin
}

// Leads tells whether a bought part's price, grams and ratings stand on this slot: the first one of its place.
func (t Thing) Leads() bool {
	return t.State == Bought && (len(t.Place) == 0 || t.Place[0] == t.Slot)
}

// AsItStands tells whether the thing is how the bike is now (fit rules never forbid that).
func (t Thing) AsItStands() bool {
	return t.State == AsFitted || t.State == Serviced || t.State == Empty && (t.Fitted == nil || t.Fitted.None)
}
