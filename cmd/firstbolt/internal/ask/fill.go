package ask

import (
	"slices"
	"strings"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/model"
	"firstbolt/solver"
	"firstbolt/solver/program"
)

// filler turns what the solver found into an answer. It works out no money, fit or benefit of its own.
type filler struct {
	r        Request
	shed     *model.Shed
	ans      *solver.Answer
	currency string
}

func (f *filler) money(m model.Money) answer.Money {
	return answer.Money{Minor: int64(m), Currency: f.currency}
}

func (f *filler) moneyOrNull(m model.Money) *answer.Money {
	money := f.money(m)
	return &money
}

func points(p solver.Points) answer.Points { return answer.Points(p) }

func pointsOrNull(p solver.Points) *answer.Points {
	q := points(p)
	return &q
}

// plan fills the whole answer.
func (f *filler) plan() (*answer.Plan, error) {
	a := &answer.Plan{
		Head: head(f.r.Command, f.shed), Budget: f.moneyOrNull(f.ans.Question.Budget), Decision: string(f.ans.Decision),
		Priorities: f.priorities(), OrderNow: answer.Order{Total: f.money(0)}, OrderAfterMeasuring: answer.Order{Total: f.money(0)},
		Cost: f.cost(nil), Next: f.more(f.ans.Next), Rest: f.more(f.ans.Rest), Rivals: f.rivals(), Switch: f.switchPoint(), SwitchSearched: f.ans.Searched, Mend: f.mend(), MadeFor: f.madeFor(),
	}
	a.Notes = f.ans.Notes
	a.Proof = f.proof()
	shown := f.ans.Chosen
	if shown == nil {
		shown = f.ans.Repair
	}
	if shown != nil {
		a.Bike = shown.Bike.Name
		a.Before = f.before(shown)
		f.setAside(a, shown)
	}
	if f.ans.Chosen == nil {
		a.Left = f.moneyOrNull(f.ans.Question.Budget)
		if shown != nil {
			a.Benefit = f.standing(shown)
			a.Cautions = f.cautions(shown, false)
		}
	} else if err := f.chosen(a, f.ans.Chosen); err != nil {
		return nil, err
	}
	a.Sentence = f.sentence(a)
	if text := f.inHand(a); text != "" {
		a.Notes = append(slices.Clone(a.Notes), strings.TrimSpace(text))
	}
	return a, nil
}

// chosen fills what is to be bought and what it brings.
func (f *filler) chosen(a *answer.Plan, p *solver.Plan) error {
	for i := range p.Steps {
		s, err := f.step(p, i)
		if err != nil {
			return err
		}
		a.Buy = append(a.Buy, s)
		order := &a.OrderNow
		item := answer.OrderItem{Step: s.Step, Part: s.Part, Shop: s.Shop, Cost: s.Cost}
		if p.Steps[i].After {
			order = &a.OrderAfterMeasuring
			item.Measure, item.Instead = f.measureFirst(p, i)
		}
		order.Items = append(order.Items, item)
		order.Total.Minor += s.Cost.Minor
	}
	a.Receipt = f.receipt(p)
	a.Cost = f.cost(p)
	a.Left = f.moneyOrNull(f.ans.Question.Budget - p.Cash)
	a.Benefit = f.benefit(p)
	a.Measure = f.measures(p)
	a.Cautions = f.cautions(p, true)
	a.Warnings = f.warnings(p)
	return nil
}

func (f *filler) priorities() answer.Priorities {
	w := f.ans.Weights
	p := answer.Priorities{Origin: w.Origin.String(), Stated: some(w.Stated)}
	if !f.shed.Rider.Priorities.Known && !f.shed.Rider.Ranking.Known && !f.shed.Rider.Profile.Known {
		p.Origin, p.Stated = "default", nil
	}
	for _, c := range w.Criteria {
		p.Weights = append(p.Weights, answer.Entry[answer.Share]{Key: c.Criterion, Value: answer.Share(c.Percent)})
	}
	return p
}

func (f *filler) more(n *solver.Next) *answer.More {
	if n == nil {
		return nil
	}
	return &answer.More{Cost: f.money(n.More), Benefit: points(n.Benefit)}
}

func (f *filler) benefit(p *solver.Plan) *answer.Benefit {
	b := &answer.Benefit{Before: points(p.Before), After: points(p.Benefit), Gained: points(p.Benefit - p.Before)}
	for _, l := range p.Levels {
		b.ByCriterion = append(b.ByCriterion, answer.Entry[answer.Level]{Key: l.Criterion, Value: answer.Level{
			Says: f.says(l.Criterion), Weight: answer.Share(l.Weight), Before: points(l.Before), After: points(l.After), Points: points(l.Gain),
		}})
	}
	if kept := f.ans.Kept; f.ans.Decision == solver.Switch && kept != nil && p == f.ans.Chosen {
		f.sinceKept(b, kept, p)
	}
	return b
}

// sinceKept counts a bought bike's benefit from the rider's own bike as it stands.
func (f *filler) sinceKept(b *answer.Benefit, kept, chosen *solver.Plan) {
	b.Unchanged = pointsOrNull(chosen.Before)
	b.Before, b.Gained = points(kept.Before), points(chosen.Benefit-kept.Before)
	for i := range b.ByCriterion {
		l, from, to := &b.ByCriterion[i].Value, kept.Levels[i], chosen.Levels[i]
		l.Before, l.Points = points(from.Before), points(to.Counts+to.Gain-from.Counts)
	}
}

// standing is the benefit of the bike when nothing is bought.
func (f *filler) standing(p *solver.Plan) *answer.Benefit {
	b := f.benefit(p)
	b.After, b.Gained = b.Before, 0
	for i := range b.ByCriterion {
		l := &b.ByCriterion[i].Value
		l.After, l.Points = l.Before, 0
	}
	return b
}

// says is a criterion in plain words.
func (f *filler) says(criterion string) string {
	if c := f.shed.Tables.CriterionNamed(criterion); c != nil && c.Says != "" {
		return c.Says
	}
	return criterion
}

func (f *filler) proof() *answer.Proof {
	p := f.ans.Proof
	proof := &answer.Proof{
		Engine: p.Engine, Status: p.Status.String(), ConfirmedBy: some(p.Confirmed), Disagreement: some(p.Disagreement),
	}
	if p.Gap > 0 || p.Status != program.Stopped { // a search that stopped elsewhere than at the benefit leaves no gap to name
		proof.Gap = pointsOrNull(p.Gap)
	}
	if p.Confirmed == "" && p.Disagreement == "" {
		proof.Unconfirmed = some(unconfirmed(f.r.Engine, p.NotConfirmed))
	}
	return proof
}
