package solver

import (
	"firstbolt/model"
	"firstbolt/model/fit"
	"firstbolt/scoring"
	"firstbolt/solver/formulate"
	"firstbolt/solver/program"
	"firstbolt/solver/receipt"
)

// Points are benefit in steps of 0.0001 point: 1,000,000 is 100 points.
type Points int64

// Decision of a plan.
type Decision string

// Stay with this bike and buy; Switch to another; Wait: nothing is worth its money yet; Mend: the bike must be made
// safe first and the budget does not reach.
const (
	Stay   Decision = "stay"
	Switch Decision = "switch"
	Wait   Decision = "wait"
	Mend   Decision = "mend"
)

// Question is what `plan` is asked.
type Question struct {
	Shed    *model.Shed
	Bike    string // the bike that is kept; "" for the rider's own
	Budget  model.Money
	Options formulate.Options
	Lead    program.Engine // proves
	Confirm program.Engine // checks the leader's claims; nil for none
}

// Plan is the best set to buy for one bike and one budget, certified.
type Plan struct {
	Bike    *model.Bike
	Base    model.Money // what the bike itself costs, less what the kept bike brings; 0 for the kept bike
	Cash    model.Money // all that leaves the purse, Base included
	Before  Points      // the bike as it stands
	Benefit Points      // with the plan
	Levels  []Level     // per criterion, in the order of criteria.csv
	Steps   []Step      // in buying order; their costs and benefits add up to Cash - Base and Benefit - Before
	Built   map[string]model.Thing
	Rests   []Rest                  // unknown facts whose assumed value the plan rests on
	Others  map[fit.Ref][]Otherwise // what to buy instead where a measurement comes out otherwise
	Fit     []fit.Result
	Receipt receipt.Receipt
	Choice  []int
	Program *formulate.Compiled
}

// Level is one criterion before and after, 0..100 with four decimals as whole ten-thousandths.
type Level struct {
	Criterion     string
	Weight        int // percent
	Before, After Points
	Counts        Points // points of benefit it contributes before
	Gain          Points // points of benefit this criterion gains
}

// Step is one bundle of the buying order: the smallest set that leads from one fitting bike to the next.
type Step struct {
	Purchases []formulate.Purchase
	Cost      model.Money // whole cost of the step, shipping change and shared charges on their first use included
	Shipping  model.Money // the change in shipping within Cost
	Due       model.Money // of Cost, what was due anyway
	Benefit   Points
	Gains     []Points // per criterion
	After     bool     // to be ordered after measuring
}

// Rest is an unknown fact and the value the plan rests on.
type Rest struct {
	Slot, Fact string
	Value      model.Value
	Needed     []string // purchases that depend on it
}

// Contender is another bike at the same budget.
type Contender struct {
	Bike *model.Bike
	Base model.Money
	Plan *Plan // nil where the budget does not reach it
}

// SwitchPoint is the lowest budget at which another bike, bought and upgraded as far as the money goes, beats staying.
type SwitchPoint struct {
	At       model.Money
	To       *Plan
	Stay     Points // best benefit of staying with At to spend
	StayPlan bool   // staying has a plan at At at all
}

// Next is the next useful step above the plan.
type Next struct {
	More    model.Money // money on top of the plan's cash
	Benefit Points      // what it brings
}

// Proof says who proved the answer and who confirmed it.
type Proof struct {
	Engine       string
	Status       program.Status
	Confirmed    string // engine that confirmed; "" for none
	NotConfirmed string // why not, where it was tried
	Disagreement string // what differed; "" for nothing
	Gap          Points
	Points       int // how many optima were confirmed
}

// Answer is what is known after a Question.
type Answer struct {
	Question   Question
	Decision   Decision
	Kept       *Plan // best for the kept bike; nil where there is none within the budget (Mend)
	Chosen     *Plan // what Decision means: Kept, or the rival's plan
	Contenders []Contender
	Switch     *SwitchPoint // nil: none up to the best of every bike
	Searched   bool         // for a switch point, to the end
	Rest       *Next        // what the rest of the budget would bring, when the plan keeps money back
	Next       *Next        // the next useful step above the budget
	Repair     *Plan        // least cash to a safe, rideable bike, when Decision is Mend
	Class      *Class       // the kept bike is not known to be made for the rider's riding; nil where it is
	Weights    scoring.Weights
	Notes      []string
	Proof      Proof
}
