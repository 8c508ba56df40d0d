package model

// Tables holds every table that a mechanic may read and edit: the embedded ones with the rider's own rows laid
// over them. Each row carries its source: a standard, "common practice", "judgement" or "from memory".
type Tables struct {
	Slots       []Slot
	Facts       []Fact
	Rules       []Rule
	Pairs       map[string][]Pair // lookup tables of `pair_in` by name
	Kinds       []Kind
	Likes       []Like
	Criteria    []Criterion
	Measures    []Measure
	Amounts     []AmountRule
	Assumptions []Assumption
	Values      []ValueRule
	Profiles    []Profile
	Jobs        []Job
	Tools       []Tool
	Cautions    []Caution
}

// Slot is a place on a bike that holds one thing (slots.csv). The order of the table is the order of ties.
type Slot struct {
	Name     string
	Required bool   // a rideable bike must have something here
	Place    string // where its bench work happens: "front wheel", "drivetrain" ...
	Says     string // plain description
}

// FactKind says what a fact's values are.
type FactKind int

// The kinds of facts.
const (
	Number FactKind = iota
	Choice
	YesOrNo // choices "yes" and "no"
)

// Plausible is a value that an unknown fact may turn out to have, with its share in percent (0 = not known).
type Plausible struct {
	Value Value
	Share int
}

// Fact is a measurable property of a frame or part (facts.csv).
type Fact struct {
	Name      string
	Kind      FactKind
	Unit      string
	Allowed   []string // choices
	Low, High int64    // plausible range of numbers, thousandths; a value outside is asked about
	Slots     []string // slots whose things have it
	How       string   // how to measure it
	Tool      string   // with what
	Mistakes  string   // what goes wrong typically
	Plausible []Plausible
	Source    string
}

// Has tells whether things in the slot have the fact.
func (f *Fact) Has(slot string) bool {
	for _, s := range f.Slots {
		if s == slot {
			return true
		}
	}
	return false
}

// Severity of a fit rule.
type Severity int

// From what no benefit passes to what is only said.
const (
	Danger    Severity = iota // can hurt: never passed, never allowed away
	Firm                      // "rule" in the sheet: it does not go together
	BothSides                 // practice disagrees: off unless allowed by name
	Advice                    // "caution" in the sheet: said, never forbids
)

// String is the word used in rules.csv.
func (s Severity) String() string { return [...]string{"danger", "rule", "both-sides", "caution"}[s] }

// Relation between the two sides of a fit rule.
type Relation int

// Same: a common choice or the same number within the margin. AtMost, AtLeast: left <= right + margin,
// left >= right - margin. PairIn: the two values stand side by side in a lookup table.
const (
	Same Relation = iota
	AtMost
	AtLeast
	PairIn
)

// Term is one summand of a rule's side: Coef thousandths-per-one times a fact, or a constant when Slot is "".
type Term struct {
	Coef     float64 // factor of the fact, or the constant itself
	Slot     string
	Fact     string
	Constant string // a constant choice, for "front wheel.radial_disc_side same no"
}

// Side is a sum of terms; a side that names a choice has exactly one.
type Side []Term

// Rule is one fit rule (rules.csv), already written out for front and rear.
type Rule struct {
	ID       string
	Left     Side
	Relation Relation
	Right    Side
	Margin   int64  // thousandths
	Table    string // of PairIn
	Stated   []Term // facts (Slot, Fact) that must be stated for the rule to apply: nobody is asked for what hardly anybody states
	When     []Term // facts that must have their Constant for the rule to apply at all (Slot, Fact, Constant)
	Bridge   *Bridge
	Needs    bool // both sides must be there: an empty slot breaks the rule instead of passing it
	Severity Severity
	Fails    string // sentence when broken; {left} and {right} stand for the two values
	Mend     string // how it can be mended
	Source   string
	URL      string
	Origin   Origin // its row
}

// Bridge names the slot of adapters that can join two sides which do not meet directly.
// With Step set, left + adapter.Step = right must hold (rotor = native + step).
// With From and To set, adapter.From must be the left value and adapter.To the right one.
type Bridge struct {
	Slot string
	Step string
	From string
	To   string
}

// Pair is one row of a lookup table. Margin pairs that only some practice accepts carry a severity of their own.
type Pair struct {
	Left, Right string
	Severity    Severity // BothSides: agrees only under --allow; Firm (the usual) agrees outright
	Source      string
}

// Kind is a plain phrase that stands for a slot and typical facts (kinds.csv). It never assumes a fact of a danger rule.
type Kind struct {
	Name    string
	Aliases []string
	Places  []Place
	Facts   Facts // Origin.How = Assumed
	Grams   Stated[Grams]
	Source  string
}

// Like is what a typical bike of one class has in one slot (likes.csv); assumed, nobody's product.
type Like struct {
	Name   string
	Slot   string
	Part   string // plain description; "none" = the slot is empty
	Facts  Facts
	Grams  Stated[Grams]
	Source string
}

// Criterion is something a rider cares about (criteria.csv).
type Criterion struct {
	Key   string   // "retention"
	Says  string   // "chain stays on"
	Words []string // further plain words a rider may use in priorities and rankings
	Worst string   // what 0 is
	Best  string   // what 100 is
}

// CurvePoint is one breakpoint: an amount and the level 0..100 it is worth.
type CurvePoint struct{ Amount, Level float64 }

// Measure is one counted side of a criterion with its concave curve (curves.csv).
type Measure struct {
	Key       string // "braking.front"
	Criterion string
	Share     int // percent of the criterion
	Says      string
	Unit      string // what one unit of the amount is
	Points    []CurvePoint
	Source    string
}

// AmountForm says how a fact becomes an amount.
type AmountForm int

// Table: looked up, numbers linear between the rows and flat outside. Factor: ln of the looked-up factor.
// Log: Coef times ln of the number. Linear: Coef times the number.
const (
	Table AmountForm = iota
	Factor
	Log
	Linear
)

// AmountRow is one row of a lookup: the choice, or the number At, and what it gives.
type AmountRow struct {
	Choice string
	At     float64
	Gives  float64
}

// AmountRule turns one fact of the thing in one slot into an amount of one measure (measures.csv).
// The amount of a thing is the sum over its rules; of a bike, the sum over its things.
// Fact "grams" means the thing's mass, fact "condition" the condition of a fitted thing, fact "seasons" how long it
// lasts: a part's seasons or a fitted thing's seasons_left, capped by the rider's horizon; unknown where neither is given.
// Fact "" means the slot's mere presence: Coef is given when the slot is not empty.
type AmountRule struct {
	Measure string
	Slot    string
	Fact    string
	Form    AmountForm
	Coef    float64
	Rows    []AmountRow
	Source  string
	Origin  Origin
}

// Assumption is what is taken for a slot and measure where no fact says it (assumptions.csv), by kind of bike ("" = any),
// and the amounts that ratings 0 and 10 stand for.
type Assumption struct {
	Measure             string
	Slot                string
	Like                string
	Low, Likely, High   float64
	Rated               bool // RatedLow and RatedHigh are given
	RatedLow, RatedHigh float64
	Source              string
	Origin              Origin
}

// ValueRule is the worth of a pair (values.csv): Gives is added to Measure when every condition holds on the built bike
// ("front tyre.tubeless_rated = yes and front wheel.tubeless_rated = yes"). At most three conditions over three slots.
type ValueRule struct {
	Name    string // "tubeless, front"
	Measure string
	When    []Term // Slot, Fact, Constant; Fact "" with Constant "present" or "none" asks for the slot itself
	Gives   float64
	Source  string
	Origin  Origin
}

// Profile is a ready-made set of priorities that sums to 100 (profiles.csv).
type Profile struct {
	Name   string
	Points []Priority
	Source string
}

// JobChange is what makes a job necessary.
type JobChange int

// On fitting a bought part, on taking a fitted thing off for good, on servicing a fitted thing.
const (
	OnFit JobChange = iota
	OnRemove
	OnService
)

// SmallPart is something used up by a job.
type SmallPart struct {
	Name  string
	Price Money // in hundredths of the shed's whole unit, rescaled when the shed is loaded
}

// Job is bench work that a change in a slot brings (jobs.csv). Jobs of one place and one Shared name are done once:
// the largest minutes and shop price count.
type Job struct {
	Name       string
	Slots      []string
	Change     JobChange
	When       []Term // facts of the fitted thing that must hold (Fact, Constant); Slot is empty
	Place      string
	Shared     string
	Minutes    int
	Skill      int // 1..3; above the rider's skill the shop does it
	Tools      []string
	SmallParts []SmallPart
	Restores   string        // condition a serviced thing then has: "good"
	ShopPrice  Stated[Money] // unknown = "ask first"
	PerSeason  Money
	Optional   bool
	Source     string
	Origin     Origin
}

// Tool of the embedded table, with what it costs where the rider does not say (assumed).
type Tool struct {
	Name   string
	Price  Money
	Owned  bool // so common that it is taken to be there (Allen keys, pump)
	Source string
}

// Caution is said in every format when its slots are touched, or always (Slots empty) (cautions.csv).
type Caution struct {
	Code      string
	Slots     []string
	When      string // "free" (costs nothing, comes before any part), "before" (pre-ride list), "work", "first-ride"
	Text      string
	CheckWith string
	Source    string
}
