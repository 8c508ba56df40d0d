// Package certify checks a solution against its program, in arithmetic that cannot overflow (math/big) and in code that
// shares nothing with the search: it uses none of the program's own reckoning (Evaluate, Feasible, Allows, At), so a
// fault there shows as a difference here. It takes a program and a solution and gives the faults found. It does not
// prove that a solution is the best one; that is the engines' word, and their agreement.
package certify

import (
	"errors"
	"fmt"
	"math/big"

	"firstbolt/solver/program"
)

// Solution tells every way in which s is no answer to p: a slot without exactly one of its options, a relation, row,
// budget or floor that is broken, cash, benefit or purchases that are not what the choice comes to, a bound that its
// own value contradicts, a status that does not go with a choice. nil means that s is what it claims, but for being the
// best.
func Solution(p *program.Program, s program.Solution) error {
	if err := p.Validate(); err != nil {
		return fmt.Errorf("the program itself is faulty: %w", err)
	}
	switch s.Status {
	case program.Optimal, program.Stopped:
	case program.Infeasible:
		if s.Choice != nil {
			return fmt.Errorf("the status is infeasible and yet there is a choice")
		}
		return nil
	default:
		return fmt.Errorf("there is no status %d", int(s.Status))
	}
	if s.Choice == nil {
		if s.Status == program.Optimal {
			return fmt.Errorf("the status is optimal and yet there is no choice")
		}
		return nil
	}
	a, err := newAudit(p, s.Choice)
	if err != nil {
		return err
	}
	a.structure()
	a.equal("cash", s.Cash, a.cash())
	a.equal("benefit", s.Benefit, a.benefit())
	a.equal("purchases", int64(s.Purchases), a.purchases())
	a.limits()
	a.bound(s)
	return errors.Join(a.faults...)
}

// Frontier tells every way in which f is no frontier of p: a point that Solution would refuse (budget and floor are not
// looked at), points that do not rise in both cash and benefit, a point beyond UpTo. It does not prove that no point is
// missing.
func Frontier(p *program.Program, f program.Frontier) error {
	if err := p.Validate(); err != nil {
		return fmt.Errorf("the program itself is faulty: %w", err)
	}
	var faults []error
	for i, point := range f.Points {
		if err := pointFaults(p, &point); err != nil {
			faults = append(faults, fmt.Errorf("point %d: %w", i, err))
		}
		if point.Cash > f.UpTo {
			faults = append(faults, fmt.Errorf("point %d costs %d, above the end at %d", i, point.Cash, f.UpTo))
		}
		if i > 0 && (point.Cash <= f.Points[i-1].Cash || point.Benefit <= f.Points[i-1].Benefit) {
			faults = append(faults, fmt.Errorf("point %d does not rise above the one before in both cash and benefit", i))
		}
	}
	return errors.Join(faults...)
}

func pointFaults(p *program.Program, point *program.Point) error {
	a, err := newAudit(p, point.Choice)
	if err != nil {
		return err
	}
	a.structure()
	a.equal("cash", point.Cash, a.cash())
	a.equal("benefit", point.Benefit, a.benefit())
	return errors.Join(a.faults...)
}

// audit reckons one choice and gathers what is wrong.
type audit struct {
	program *program.Program
	chosen  []*program.Option // the chosen option of every slot
	choice  []int
	faults  []error
}

func newAudit(p *program.Program, choice []int) (*audit, error) {
	if len(choice) != len(p.Slots) {
		return nil, fmt.Errorf("%d slots have a choice, the program has %d slots", len(choice), len(p.Slots))
	}
	a := &audit{program: p, choice: choice}
	for s, k := range choice {
		options := p.Slots[s].Options
		if k < 0 || k >= len(options) {
			return nil, fmt.Errorf("slot %q: option %d is chosen, the slot has options 0 to %d", p.Slots[s].Name, k, len(options)-1)
		}
		a.chosen = append(a.chosen, &options[k])
	}
	return a, nil
}

func (a *audit) fault(format string, values ...any) {
	a.faults = append(a.faults, fmt.Errorf(format, values...))
}

func (a *audit) equal(what string, claimed int64, reckoned *big.Int) {
	if reckoned.Cmp(big.NewInt(claimed)) != 0 {
		a.fault("%s is given as %d and comes to %v", what, claimed, reckoned)
	}
}

func (a *audit) limits() {
	p := a.program
	if cash := a.cash(); p.Budget != program.NoBudget && cash.Cmp(big.NewInt(p.Budget)) > 0 {
		a.fault("cash %v is above the budget %d", cash, p.Budget)
	}
	if benefit := a.benefit(); p.Floor != program.NoFloor && benefit.Cmp(big.NewInt(p.Floor)) < 0 {
		a.fault("benefit %v is below the floor %d", benefit, p.Floor)
	}
}

// bound checks that the bound is the solution's own value when it is proved optimal and not below it otherwise.
func (a *audit) bound(s program.Solution) {
	o := a.program.Objective
	value := new(big.Int).Sub(product(o.Benefit, a.benefit()), product(o.Cash, a.cash()))
	order := value.Cmp(big.NewInt(s.Bound))
	if s.Status == program.Optimal && order != 0 {
		a.fault("the bound is %d, the optimal value comes to %v", s.Bound, value)
	}
	if order > 0 && s.Status != program.Optimal {
		a.fault("the bound %d is below the solution's own value %v", s.Bound, value)
	}
}

func product(factor int64, value *big.Int) *big.Int {
	return new(big.Int).Mul(big.NewInt(factor), value)
}
