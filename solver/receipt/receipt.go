// Package receipt adds a plan up a second time: from the sheets' own lines and the tables, never from the program or
// from what scoring/cost worked out for it. A plan whose receipt differs from the solver's cash is an error, not an
// answer. It also checks the fit of the bike as built, rule by rule, from facts alone.
package receipt

import (
	"fmt"
	"slices"

	"firstbolt/model"
	"firstbolt/model/fit"
)

// Item is one change to one slot of a bike.
type Item struct {
	Thing  model.Thing // what stands there afterwards
	Before model.Thing // what stood there
	Place  model.Place // of a bought part; the price stands on its first slot
	Owned  bool        // a copy that lies in the shed already
	Jobs   []JobDone   // every job of this change, with who does it
}

// JobDone names a job of the tables and who does it.
type JobDone struct {
	Name   string
	ByShop bool
}

// Kind of a line.
type Kind string

// The kinds of lines.
const (
	Part      Kind = "part"
	Tool      Kind = "tool"
	Work      Kind = "work"
	SmallPart Kind = "small_part"
	Shipping  Kind = "shipping"
	Tax       Kind = "tax"
	Bike      Kind = "bike"
	Sale      Kind = "sale"
)

// Line is one line of the receipt.
type Line struct {
	Kind  Kind
	Name  string
	Shop  string
	Count int
	Cash  model.Money
	Where model.Origin
}

// Receipt is every line and the sums by kind.
type Receipt struct {
	Lines []Line
	Sums  map[Kind]model.Money
	Total model.Money
}

// Add makes the receipt of the changes to a bike. kept is the bike that is sold when this one is bought, nil where the
// rider owns none; where it is this very bike only the changes count.
func Add(shed *model.Shed, bike, kept *model.Bike, items []Item) (Receipt, error) {
	a := adder{shed: shed, listed: map[string]model.Money{}, work: map[string]Line{}, done: map[string]bool{}}
	a.bikes(bike, kept)
	for i := range items {
		if err := a.item(&items[i]); err != nil {
			return Receipt{}, err
		}
	}
	a.shipping(items)
	return a.receipt(), nil
}

// Fit checks every rule on the bike as built.
func Fit(shed *model.Shed, built map[string]model.Thing, allow []string) []fit.Result {
	return fit.Check(shed.Tables, built, allow)
}

type adder struct {
	shed   *model.Shed
	lines  []Line
	listed map[string]model.Money
	work   map[string]Line // by place and shared name: the dearest counts
	places []string        // keys of work in order
	done   map[string]bool // tools and small parts that stand on the receipt already
}

func (a *adder) add(l Line) {
	if l.Count == 0 {
		l.Count = 1
	}
	a.lines = append(a.lines, l)
}

func (a *adder) bikes(bike, kept *model.Bike) {
	if kept == bike {
		return
	}
	for _, l := range []struct {
		name string
		cash model.Money
	}{{"", bike.Price}, {", delivery", bike.Delivery}, {", assembly", bike.Assembly}, {", repairs", bike.Repairs}} {
		if l.cash != 0 {
			a.add(Line{Kind: Bike, Name: bike.Name + l.name, Cash: l.cash, Where: bike.Origin})
		}
	}
	if kept != nil && kept.SellsFor.Known && kept.SellsFor.Value != 0 {
		a.add(Line{Kind: Sale, Name: kept.Name + ", sold", Cash: -kept.SellsFor.Value, Where: kept.SellsFor.Origin})
	}
}

func (a *adder) item(it *Item) error {
	if p := it.Thing.Part; it.Thing.Leads() && !it.Owned {
		a.add(Line{Kind: Part, Name: p.Name, Shop: p.Shop, Cash: p.Price, Where: p.PriceAt})
		a.listed[p.Shop] += p.Price
		if tax := a.tax(p); tax != 0 {
			a.add(Line{Kind: Tax, Name: "tax on " + p.Name, Shop: p.Shop, Cash: tax, Where: p.PriceAt})
		}
	}
	want := jobsOf(a.shed.Tables, it)
	if len(want) != len(it.Jobs) {
		return fmt.Errorf("%s in %s needs %d jobs by the tables, the plan has %d", it.Thing.Name, it.Thing.Slot, len(want), len(it.Jobs))
	}
	for _, job := range want {
		i := slices.IndexFunc(it.Jobs, func(d JobDone) bool { return d.Name == job.Name })
		if i < 0 {
			return fmt.Errorf("%s in %s: the plan forgets the job %q", it.Thing.Name, it.Thing.Slot, job.Name)
		}
		if err := a.job(job, it.Jobs[i].ByShop); err != nil {
			return err
		}
	}
	return nil
}

// tax is added per unit and rounded half up: the shop's rate, else the rider's.
func (a *adder) tax(p *model.Part) model.Money {
	rate := a.shed.Rider.TaxPercent
	if shop := a.shed.ShopNamed(p.Shop); shop != nil && shop.TaxPercent.Known {
		rate = shop.TaxPercent
	}
	thousandths := int64(rate.Value*1000 + 0.5) // percent to 1/100,000 of the price
	return model.Money(model.RoundHalfUp(int64(p.Price)*thousandths, 100_000))
}

func (a *adder) job(job *model.Job, byShop bool) error {
	for _, sp := range job.SmallParts {
		if key := "small " + job.Place + "/" + job.Name + "/" + sp.Name; sp.Price != 0 && !a.done[key] {
			a.done[key] = true
			a.add(Line{Kind: SmallPart, Name: sp.Name + " (" + job.Name + ", " + job.Place + ")", Cash: sp.Price, Where: job.Origin})
		}
	}
	if byShop {
		if !job.ShopPrice.Known {
			return fmt.Errorf("the plan lets a shop do %q, which has no shop price", job.Name)
		}
		key := job.Place + "/" + job.Shared
		if job.Shared == "" {
			key = job.Place + "/" + job.Name
		}
		old, ok := a.work[key]
		if !ok {
			a.places = append(a.places, key)
		}
		if !ok || job.ShopPrice.Value > old.Cash {
			a.work[key] = Line{Kind: Work, Name: job.Name + ", " + job.Place, Count: 1, Cash: job.ShopPrice.Value, Where: job.ShopPrice.Origin}
		}
		return nil
	}
	for _, tool := range job.Tools {
		if price, buy := a.toolPrice(tool); buy && !a.done["tool "+tool] {
			a.done["tool "+tool] = true
			a.add(Line{Kind: Tool, Name: tool, Cash: price.Value, Where: price.Origin})
		}
	}
	return nil
}

// toolPrice is what a tool costs, and whether it has to be bought at all.
func (a *adder) toolPrice(name string) (model.Stated[model.Money], bool) {
	var table model.Stated[model.Money]
	owned := false
	for _, t := range a.shed.Tables.Tools {
		if t.Name == name {
			table = model.Say(t.Price, model.Origin{Sheet: "tools table", How: model.Assumed})
			owned = t.Owned
		}
	}
	for _, t := range a.shed.Tools {
		if t.Name != name {
			continue
		}
		if t.Having != model.Buy {
			return table, false
		}
		owned = false
		if t.Price.Known {
			table = t.Price
		}
	}
	return table, !owned && table.Value != 0
}

func (a *adder) shipping(items []Item) {
	open := []string{}
	for i := range items {
		it := &items[i]
		if it.Thing.Leads() && !it.Owned && !slices.Contains(open, it.Thing.Part.Shop) {
			open = append(open, it.Thing.Part.Shop)
		}
	}
	slices.Sort(open)
	for _, name := range open {
		shop := a.shed.ShopNamed(name)
		if shop == nil || shop.Shipping == 0 || shop.FreeOver.Known && a.listed[name] >= shop.FreeOver.Value {
			continue
		}
		a.add(Line{Kind: Shipping, Name: "shipping, " + name, Shop: name, Cash: shop.Shipping, Where: shop.Origin})
	}
}

func (a *adder) receipt() Receipt {
	for _, key := range a.places {
		a.add(a.work[key])
	}
	r := Receipt{Sums: map[Kind]model.Money{}}
	for _, kind := range []Kind{Bike, Sale, Part, SmallPart, Tool, Work, Tax, Shipping} {
		for _, l := range a.lines {
			if l.Kind == kind {
				r.Lines = append(r.Lines, l)
				r.Sums[kind] += l.Cash
				r.Total += l.Cash
			}
		}
	}
	return r
}

// Jobs are the names of the jobs that the tables ask for one change.
func Jobs(t *model.Tables, it *Item) []string {
	var names []string
	for _, j := range jobsOf(t, it) {
		names = append(names, j.Name)
	}
	return names
}

// jobsOf is every job that the tables ask for one change, found from the tables alone.
func jobsOf(t *model.Tables, it *Item) []*model.Job {
	var change model.JobChange
	subject := it.Thing
	switch it.Thing.State {
	case model.Bought:
		change = model.OnFit
	case model.Serviced:
		change, subject = model.OnService, it.Before
	case model.Empty:
		if it.Before.State == model.Empty {
			return nil
		}
		change, subject = model.OnRemove, it.Before
	default:
		return nil
	}
	var jobs []*model.Job
	for i := range t.Jobs {
		if j := &t.Jobs[i]; j.Change == change && slices.Contains(j.Slots, it.Thing.Slot) && needed(j, it, subject) {
			jobs = append(jobs, j)
		}
	}
	jobs = oneValueEach(jobs, subject)
	return slices.DeleteFunc(jobs, func(j *model.Job) bool { return j.Optional })
}

// oneValueEach keeps, of jobs that ask for different values of one unknown fact, those of the value that takes longest.
func oneValueEach(jobs []*model.Job, subject model.Thing) []*model.Job {
	for {
		fact, value := contested(jobs, subject)
		if fact == "" {
			return jobs
		}
		jobs = slices.DeleteFunc(jobs, func(j *model.Job) bool {
			return slices.ContainsFunc(j.When, func(w model.Term) bool { return w.Fact == fact && w.Constant != value })
		})
	}
}

// contested is an unknown fact of which the jobs ask for several values, and the value whose jobs take longest.
func contested(jobs []*model.Job, subject model.Thing) (fact, value string) {
	longest := -1
	for _, j := range jobs {
		for _, w := range j.When {
			if subject.Facts[w.Fact].Known() || fact != "" && w.Fact != fact || !asksFurther(jobs, w) {
				continue
			}
			if m := minutes(jobs, w); m > longest {
				fact, value, longest = w.Fact, w.Constant, m
			}
		}
	}
	return fact, value
}

func asksFurther(jobs []*model.Job, than model.Term) bool {
	return slices.ContainsFunc(jobs, func(j *model.Job) bool {
		return slices.ContainsFunc(j.When, func(w model.Term) bool { return w.Fact == than.Fact && w.Constant != than.Constant })
	})
}

func minutes(jobs []*model.Job, of model.Term) int {
	sum := 0
	for _, j := range jobs {
		if slices.ContainsFunc(j.When, func(w model.Term) bool { return w.Fact == of.Fact && w.Constant == of.Constant }) {
			sum += j.Minutes
		}
	}
	return sum
}

// needed tells whether the table asks for the job. Work is never made cheaper by a fact that nobody knows.
func needed(j *model.Job, it *Item, subject model.Thing) bool {
	if j.Change == model.OnService && j.Restores != "" && !it.Thing.Facts["condition"].Is(j.Restores) {
		return false
	}
	for _, c := range j.When {
		if v := subject.Facts[c.Fact]; v.Known() && !v.Is(c.Constant) && v.String() != c.Constant {
			return false
		}
	}
	return true
}
