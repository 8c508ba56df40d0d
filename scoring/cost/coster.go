package cost

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"firstbolt/model"
)

// usualSkill is taken where the rider states none: bolts and cables, but no steering, hydraulics and press fits, which
// are skill 3 and so go to the shop (90-trade: judgement).
const usualSkill = 2

// Coster writes bills for one shed. It is read only after New and may be used by several goroutines.
type Coster struct {
	tables *model.Tables
	shed   *model.Shed
	tools  map[string]ToolNeed
	jobs   map[string][]*model.Job // by slot, in the order of jobs.csv
}

// New prepares the bills of a shed. Errors name every faulty row of jobs.csv: a tool that no table has, a skill that is
// not 1 to 3, minutes or prices below zero.
func New(t *model.Tables, shed *model.Shed) (*Coster, error) {
	c := &Coster{tables: t, shed: shed, tools: map[string]ToolNeed{}, jobs: map[string][]*model.Job{}}
	var faults []error
	for _, tool := range t.Tools {
		need := ToolNeed{Name: tool.Name, Price: tool.Price, Assumed: true, Origin: model.Origin{Sheet: "tools table", How: model.Assumed}}
		if tool.Owned {
			need.Having = model.Have
		}
		c.tools[tool.Name] = need
	}
	for _, own := range shed.Tools {
		need := c.tools[own.Name]
		need.Name, need.Having, need.Origin = own.Name, own.Having, own.Origin
		need.Assumed = own.Having == model.Buy && !own.Price.Known
		need.Price = own.Price.Or(need.Price)
		if _, listed := c.tools[own.Name]; !listed && need.Buys() && !own.Price.Known {
			faults = append(faults, fmt.Errorf("%s: the tool %q has no price, and the embedded table does not know it; add what it costs", own.Origin, own.Name))
		}
		c.tools[own.Name] = need
	}
	for i := range t.Jobs {
		j := &t.Jobs[i]
		if err := c.check(j); err != nil {
			faults = append(faults, fmt.Errorf("%s: job %q: %w", rowOf(j), j.Name, err))
		}
		for _, slot := range j.Slots {
			c.jobs[slot] = append(c.jobs[slot], j)
		}
	}
	return c, errors.Join(faults...)
}

func rowOf(j *model.Job) string {
	if j.Origin.Sheet == "" {
		return "jobs.csv"
	}
	return j.Origin.String()
}

func (c *Coster) check(j *model.Job) error {
	for _, name := range j.Tools {
		if _, ok := c.tools[name]; !ok {
			return fmt.Errorf("it needs the tool %q, which no row of tools.csv has; add it with its price", name)
		}
	}
	switch {
	case j.Skill < 1 || j.Skill > 3:
		return fmt.Errorf("skill %d, want 1, 2 or 3", j.Skill)
	case j.Minutes < 0:
		return fmt.Errorf("%d minutes, want 0 or more", j.Minutes)
	case j.ShopPrice.Known && j.ShopPrice.Value < 0:
		return errors.New("the shop price is below zero, want 0 or more, or ask")
	}
	for _, p := range j.SmallParts {
		if p.Price < 0 {
			return fmt.Errorf("the small part %q costs less than nothing", p.Name)
		}
	}
	return nil
}

// Bill is what it costs that the thing stands in its slot instead of the one before: a bought part with the jobs that
// fit it, the job that takes a thing off for good, the service of what is fitted. What stays as it is costs nothing.
// The price is that of a copy to be bought; see Bill.Owned for one in the shed.
func (c *Coster) Bill(th, before model.Thing) Bill {
	bill := Bill{}
	switch th.State {
	case model.Bought:
		bill = c.price(th)
		c.addJobs(&bill, model.OnFit, th)
	case model.Serviced:
		c.addJobs(&bill, model.OnService, th, before)
	case model.Empty:
		if before.State == model.AsFitted || before.State == model.Serviced {
			c.addJobs(&bill, model.OnRemove, before)
		}
	}
	return bill
}

// price is the part's own money; it stands on the first slot of a set.
func (c *Coster) price(th model.Thing) Bill {
	if !th.Leads() {
		return Bill{}
	}
	p := th.Part
	return Bill{
		Listed: p.Price, Price: p.Price, Tax: taxOn(p.Price, c.taxPercent(p)),
		Shop: p.Shop, Part: p.Name, Origin: p.PriceAt,
	}
}

// taxPercent is the tax on top of a part's listed price: the shop's, where shops.csv says, else the rider's.
func (c *Coster) taxPercent(p *model.Part) float64 {
	if p.Donor != "" {
		return 0
	}
	if shop := c.shed.ShopNamed(p.Shop); shop != nil && shop.TaxPercent.Known {
		return shop.TaxPercent.Value
	}
	return c.shed.Rider.TaxPercent.Or(0)
}

// taxOn is percent of a price, rounded half up; the percentage itself is taken to three decimals.
func taxOn(price model.Money, percent float64) model.Money {
	return model.Money(model.RoundHalfUp(int64(price)*int64(math.Round(percent*1000)), 100_000))
}

// addJobs adds the jobs that a change of the thing brings. A service is judged by the facts of the thing before it.
func (c *Coster) addJobs(bill *Bill, change model.JobChange, th model.Thing, before ...model.Thing) {
	judged := th
	if len(before) > 0 {
		judged = before[0]
	}
	var rows []guessedRow
	for _, j := range c.jobs[th.Slot] {
		if j.Change != change {
			continue
		}
		if change == model.OnService && j.Restores != "" && !th.Facts["condition"].Is(j.Restores) {
			continue
		}
		if guessed, holds := meets(judged, j.When); holds {
			rows = append(rows, guessedRow{j, guessed})
		}
	}
	for _, row := range dearest(rows) {
		job := c.job(row.job)
		job.Guessed = row.guessed
		if row.job.Optional {
			bill.Optional = append(bill.Optional, job)
		} else {
			bill.Jobs = append(bill.Jobs, job)
		}
	}
}

// guessedRow is a row of jobs.csv with the facts of its condition that are not known.
type guessedRow struct {
	job     *model.Job
	guessed []string
}

// dearest drops jobs that exclude each other because one unknown fact cannot have two values: for every such fact the
// value whose jobs take longest is planned for, the first of equal ones.
func dearest(rows []guessedRow) []guessedRow {
	minutes, most := map[[2]string]int{}, map[string]string{}
	each := func(row guessedRow, visit func(fact, value string)) {
		for _, w := range row.job.When {
			if slices.Contains(row.guessed, w.Fact) {
				visit(w.Fact, w.Constant)
			}
		}
	}
	for _, row := range rows {
		each(row, func(fact, value string) { minutes[[2]string{fact, value}] += row.job.Minutes })
	}
	for _, row := range rows {
		each(row, func(fact, value string) {
			if old, ok := most[fact]; !ok || minutes[[2]string{fact, value}] > minutes[[2]string{fact, old}] {
				most[fact] = value
			}
		})
	}
	return slices.DeleteFunc(rows, func(row guessedRow) bool {
		excluded := false
		each(row, func(fact, value string) { excluded = excluded || most[fact] != value })
		return excluded
	})
}

// meets tells whether a thing meets a job's conditions. A missing fact never makes work cheaper: the job is then taken
// to be needed, and the fact is named.
func meets(th model.Thing, when []model.Term) (guessed []string, holds bool) {
	for _, w := range when {
		v := th.Facts[w.Fact]
		switch {
		case !v.Known():
			guessed = append(guessed, w.Fact)
		case !v.Is(w.Constant) && v.String() != w.Constant:
			return nil, false
		}
	}
	return guessed, true
}

// job is a row of jobs.csv for this rider. Who may do it: with work = shop the shop, where it has a price, else the
// rider where they are able; with work = self the rider where they are able, else the shop, and either where the rider
// would have to buy tools, so that the cheaper way can be found.
func (c *Coster) job(row *model.Job) Job {
	j := Job{
		Name: row.Name, Place: row.Place, Shared: row.Shared, Minutes: row.Minutes, Skill: row.Skill,
		SmallParts: slices.Clone(row.SmallParts), ShopPrice: row.ShopPrice, PerSeason: row.PerSeason,
		Origin: row.Origin, Source: row.Source,
	}
	for _, name := range row.Tools {
		j.Tools = append(j.Tools, c.tools[name])
	}
	able := row.Skill <= c.shed.Rider.Skill.Or(usualSkill)
	if c.shed.Rider.Work.Or(model.Self) == model.ShopWork {
		j.Shop = row.ShopPrice.Known
		j.Self = !j.Shop && able
	} else {
		j.Self = able
		j.Shop = row.ShopPrice.Known && (!able || j.BuysTools())
	}
	return j
}
