package cost

import (
	"fmt"
	"strings"
	"testing"

	"firstbolt/model"
)

// bench is a shed with a few jobs and tools, made anew for every test.
func bench() (*model.Tables, *model.Shed) {
	ask, price := model.Stated[model.Money]{}, func(m model.Money) model.Stated[model.Money] { return model.Say(m, model.Origin{Sheet: "jobs.csv"}) }
	t := &model.Tables{
		Tools: []model.Tool{{Name: "chain tool", Price: 700}, {Name: "bleed kit", Price: 1800}, {Name: "Allen keys", Price: 800, Owned: true}},
		Jobs: []model.Job{
			{Name: "fit chain", Slots: []string{"chain"}, Place: "drivetrain", Minutes: 15, Skill: 1, Tools: []string{"chain tool"}, ShopPrice: price(900), PerSeason: 200},
			{Name: "fit cassette", Slots: []string{"cassette"}, Place: "drivetrain", Minutes: 15, Skill: 2, Tools: []string{"Allen keys"}, ShopPrice: price(1000)},
			{Name: "fit as delivered", Slots: []string{"lever"}, When: []model.Term{{Fact: "prebled", Constant: "yes"}}, Place: "front brake", Minutes: 25, Skill: 2, Tools: []string{"Allen keys"}, ShopPrice: price(2000)},
			{Name: "bleed", Slots: []string{"lever"}, When: []model.Term{{Fact: "prebled", Constant: "no"}}, Place: "front brake", Minutes: 45, Skill: 3, Tools: []string{"bleed kit"}, SmallParts: []model.SmallPart{{Name: "fluid", Price: 400}}, ShopPrice: price(3000)},
			{Name: "shorten hose", Slots: []string{"lever"}, Place: "front brake", Minutes: 30, Skill: 3, ShopPrice: price(2500), Optional: true},
			{Name: "cut steerer", Slots: []string{"fork"}, Place: "steering", Minutes: 40, Skill: 3, ShopPrice: ask},
			{Name: "take off front derailleur", Slots: []string{"front derailleur"}, Change: model.OnRemove, Place: "drivetrain", Minutes: 10, Skill: 1, ShopPrice: price(500)},
			{Name: "set up caliper", Slots: []string{"caliper"}, Change: model.OnService, Restores: "good", When: []model.Term{{Fact: "condition", Constant: "tired"}}, Place: "front brake", Minutes: 20, Skill: 2, ShopPrice: price(1200)},
		},
	}
	return t, &model.Shed{Tables: t, Currency: model.Currency{Code: "EUR", Digits: 2}}
}

func coster(t *testing.T, tables *model.Tables, shed *model.Shed) *Coster {
	t.Helper()
	c, err := New(tables, shed)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func bought(slot string, p model.Part, facts model.Facts) model.Thing {
	return model.Thing{Slot: slot, State: model.Bought, Name: p.Name, Part: &p, Place: model.Place{slot}, Facts: facts}
}

func fitted(slot, condition string) model.Thing {
	return model.Thing{Slot: slot, State: model.AsFitted, Facts: model.Facts{"condition": model.ChoiceValue(model.Origin{}, condition)}}
}

func jobNames(jobs []Job) string {
	var names []string
	for _, j := range jobs {
		names = append(names, fmt.Sprintf("%s self=%v shop=%v", j.Name, j.Self, j.Shop))
	}
	return strings.Join(names, "; ")
}

// Source: rounding half up of a line's tax is what the design asks for; the values are worked by hand:
// 19 % of 12.50 = 2.375, 8.1 % of 9.99 = 0.80919, 5 % of 0.10 = 0.005, 10 % of 1,299 yen = 129.9, 7 % of 0 = 0.
func TestTaxIsRoundedHalfUpForEachUnit(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		price   model.Money
		percent float64
		want    model.Money
	}{{1250, 19, 238}, {999, 8.1, 81}, {10, 5, 1}, {1299, 10, 130}, {0, 7, 0}, {1250, 0, 0}} {
		if got := taxOn(c.price, c.percent); got != c.want {
			t.Errorf("%v %% of %d: %d, want %d", c.percent, c.price, got, c.want)
		}
	}
}

func TestWhoseTax(t *testing.T) {
	t.Parallel()
	tables, shed := bench()
	shed.Rider.TaxPercent = model.Say(10.0, model.Origin{})
	shed.Shops = []model.Shop{{Name: "on top", TaxPercent: model.Say(20.0, model.Origin{})}, {Name: "included", TaxPercent: model.Say(0.0, model.Origin{})}, {Name: "silent"}}
	c := coster(t, tables, shed)
	for shop, want := range map[string]model.Money{"on top": 200, "included": 0, "silent": 100, "": 100} {
		if got := c.Bill(bought("x", model.Part{Name: "p", Price: 1000, Shop: shop}, nil), model.Thing{}); got.Tax != want || got.Price != 1000 || got.Listed != 1000 {
			t.Errorf("shop %q: tax %d on %d, listed %d; want %d on 1000, 1000", shop, got.Tax, got.Price, got.Listed, want)
		}
	}
	if got := c.Bill(bought("x", model.Part{Name: "p", Donor: "old bike"}, nil), model.Thing{}); got.Tax != 0 {
		t.Errorf("tax on a part off the rider's own donor bike is %d, want 0", got.Tax)
	}
}

func TestASetIsPaidOnce(t *testing.T) {
	t.Parallel()
	tables, shed := bench()
	c := coster(t, tables, shed)
	set, place := &model.Part{Name: "set", Price: 4800, Shop: "s"}, model.Place{"lever", "caliper"}
	first := c.Bill(tables.BoughtThing(set, place, "lever"), model.Thing{})
	second := c.Bill(tables.BoughtThing(set, place, "caliper"), model.Thing{})
	if first.Price != 4800 || second.Price != 0 || second.Listed != 0 || second.Shop != "" {
		t.Errorf("first slot %d, second %d listed %d at %q; want all on the first", first.Price, second.Price, second.Listed, second.Shop)
	}
	if owned := first.Owned(); owned.Price != 0 || owned.Listed != 0 || len(owned.Jobs) != len(first.Jobs) {
		t.Errorf("a copy in the shed costs %d and brings %d jobs, want 0 and the same jobs", owned.Price, len(owned.Jobs))
	}
}

// Pre-bled kits need no bleed kit; a missing fact never makes work cheaper.
func TestConditionsOfJobs(t *testing.T) {
	t.Parallel()
	tables, shed := bench()
	c := coster(t, tables, shed)
	facts := func(word string) model.Facts { return model.Facts{"prebled": model.ChoiceValue(model.Origin{}, word)} }
	for _, k := range []struct {
		name  string
		facts model.Facts
		want  string
	}{
		{"pre-bled", facts("yes"), "fit as delivered self=true shop=false"},
		{"dry", facts("no"), "bleed self=false shop=true"},
		{"not known: one of the two, the longer", nil, "bleed self=false shop=true"},
	} {
		bill := c.Bill(bought("lever", model.Part{Name: "p"}, k.facts), model.Thing{})
		if got := jobNames(bill.Jobs); got != k.want {
			t.Errorf("%s: %s, want %s", k.name, got, k.want)
		}
		if got := jobNames(bill.Optional); got != "shorten hose self=false shop=true" {
			t.Errorf("%s: optional %s, want shortening the hose, not charged", k.name, got)
		}
		if k.facts == nil && fmt.Sprint(bill.Jobs[0].Guessed) != "[prebled]" {
			t.Errorf("guessed %v, want prebled named", bill.Jobs[0].Guessed)
		}
	}
}

func TestChangesBringTheirJobs(t *testing.T) {
	t.Parallel()
	tables, shed := bench()
	c := coster(t, tables, shed)
	serviced := fitted("caliper", "good")
	serviced.State = model.Serviced
	for _, k := range []struct {
		name       string
		th, before model.Thing
		want       string
	}{
		{"as it is", fitted("caliper", "tired"), fitted("caliper", "tired"), ""},
		{"serviced", serviced, fitted("caliper", "tired"), "set up caliper self=true shop=false"},
		{"nothing to service", serviced, fitted("caliper", "good"), ""},
		{"taken off", model.Thing{Slot: "front derailleur"}, fitted("front derailleur", "good"), "take off front derailleur self=true shop=false"},
		{"was empty", model.Thing{Slot: "front derailleur"}, model.Thing{Slot: "front derailleur"}, ""},
		{"replaced", bought("front derailleur", model.Part{}, nil), fitted("front derailleur", "good"), ""},
	} {
		if got := jobNames(c.Bill(k.th, k.before).Jobs); got != k.want {
			t.Errorf("%s: %q, want %q", k.name, got, k.want)
		}
	}
}

func TestWhoDoesTheWork(t *testing.T) {
	t.Parallel()
	for _, k := range []struct {
		name  string
		slot  string
		work  model.Work
		skill int
		have  model.Having
		want  string
	}{
		{"own work with a tool to buy: either", "chain", model.Self, 0, model.Buy, "fit chain self=true shop=true"},
		{"own work with a borrowed tool: the rider", "chain", model.Self, 0, model.Borrow, "fit chain self=true shop=false"},
		{"a tool everybody has: the rider", "cassette", model.Self, 0, model.Buy, "fit cassette self=true shop=false"},
		{"above the rider's skill: the shop", "cassette", model.Self, 1, model.Buy, "fit cassette self=false shop=true"},
		{"shop work: the shop", "cassette", model.ShopWork, 3, model.Buy, "fit cassette self=false shop=true"},
		{"shop work, ask first, and the rider is able", "fork", model.ShopWork, 3, model.Buy, "cut steerer self=true shop=false"},
		{"steering by default, and no price", "fork", model.Self, 0, model.Buy, "cut steerer self=false shop=false"},
	} {
		tables, shed := bench()
		shed.Rider.Work = model.Say(k.work, model.Origin{})
		if k.skill > 0 {
			shed.Rider.Skill = model.Say(k.skill, model.Origin{})
		}
		shed.Tools = []model.ToolOwned{{Name: "chain tool", Having: k.have}}
		jobs := coster(t, tables, shed).Bill(bought(k.slot, model.Part{Name: "p"}, nil), model.Thing{}).Jobs
		if got := jobNames(jobs); got != k.want {
			t.Errorf("%s: %s, want %s", k.name, got, k.want)
		}
		if refused := jobs[0].Refused(); (refused != "") != (!jobs[0].Self && !jobs[0].Shop) {
			t.Errorf("%s: refused %q", k.name, refused)
		}
	}
}

// A tool is bought once, however many jobs need it: bills name it alike, and what must be bought says so.
func TestTools(t *testing.T) {
	t.Parallel()
	tables, shed := bench()
	tables.Jobs[1].Tools = append(tables.Jobs[1].Tools, "chain tool")
	shed.Tools = []model.ToolOwned{{Name: "bleed kit", Having: model.Club, Origin: model.Origin{Sheet: "tools.csv", Row: 2}}}
	c := coster(t, tables, shed)
	toBuy := map[string]model.Money{}
	for _, slot := range []string{"chain", "cassette"} {
		for _, j := range c.Bill(bought(slot, model.Part{Name: "p"}, nil), model.Thing{}).Jobs {
			for _, n := range j.Tools {
				if n.Buys() {
					toBuy[n.Name] = n.Price
				}
			}
		}
	}
	if len(toBuy) != 1 || toBuy["chain tool"] != 700 {
		t.Errorf("to buy %v, want the chain tool alone, for 700", toBuy)
	}
	kit := c.tools["bleed kit"]
	if kit.Buys() || kit.Assumed || kit.Origin.String() != "tools.csv:2" {
		t.Errorf("the club's bleed kit %+v, want it free, stated and with its row", kit)
	}
	if chain := c.tools["chain tool"]; !chain.Assumed {
		t.Errorf("the chain tool %+v, want its price marked as assumed", chain)
	}
}

func TestKeysAndLines(t *testing.T) {
	t.Parallel()
	tables, shed := bench()
	shed.Shops = []model.Shop{{Name: "s", TaxPercent: model.Say(19.0, model.Origin{})}}
	c := coster(t, tables, shed)
	at := model.Origin{Sheet: "parts.csv", Row: 7, Cell: "B7"}
	bill := c.Bill(bought("lever", model.Part{Name: "kit", Price: 1250, Shop: "s", PriceAt: at}, model.Facts{"prebled": model.ChoiceValue(model.Origin{}, "no")}), model.Thing{})
	var lines []string
	for _, l := range append(bill.Lines(), bill.Jobs[0].Lines(true)...) {
		lines = append(lines, fmt.Sprintf("%s %s %d", l.Kind, l.Name, l.Cash))
	}
	if got, want := strings.Join(lines, "; "), "part kit 1250; tax tax on kit 238; work bleed 3000; small part fluid 400"; got != want {
		t.Errorf("by the shop: %s, want %s", got, want)
	}
	lines = nil
	for _, l := range bill.Jobs[0].Lines(false) {
		lines = append(lines, fmt.Sprintf("%s %s %d", l.Kind, l.Name, l.Cash))
	}
	if got, want := strings.Join(lines, "; "), "tool bleed kit 1800; small part fluid 400"; got != want {
		t.Errorf("by the rider: %s, want %s", got, want)
	}
	if bill.Lines()[0].Origin != at {
		t.Errorf("the part's line comes from %v, want its price cell", bill.Lines()[0].Origin)
	}
	if got := (Job{Name: "fit tyre", Place: "front wheel", Shared: "tyre off"}).Key(); got != "front wheel/tyre off" {
		t.Errorf("key %q", got)
	}
	if got := bill.Jobs[0].Key(); got != "front brake/bleed" {
		t.Errorf("key %q", got)
	}
}

func TestNewRefuses(t *testing.T) {
	t.Parallel()
	for want, spoil := range map[string]func(*model.Tables, *model.Shed){
		`jobs.csv: job "fit chain": it needs the tool "laser", which no row of tools.csv has`: func(t *model.Tables, _ *model.Shed) { t.Jobs[0].Tools = []string{"laser"} },
		`skill 4, want 1, 2 or 3`:         func(t *model.Tables, _ *model.Shed) { t.Jobs[0].Skill = 4 },
		`-5 minutes`:                      func(t *model.Tables, _ *model.Shed) { t.Jobs[0].Minutes = -5 },
		`the shop price is below zero`:    func(t *model.Tables, _ *model.Shed) { t.Jobs[0].ShopPrice.Value = -1 },
		`"fluid" costs less than nothing`: func(t *model.Tables, _ *model.Shed) { t.Jobs[3].SmallParts[0].Price = -1 },
		`tools.csv:5: the tool "laser" has no price`: func(_ *model.Tables, s *model.Shed) {
			s.Tools = []model.ToolOwned{{Name: "laser", Origin: model.Origin{Sheet: "tools.csv", Row: 5}}}
		},
	} {
		tables, shed := bench()
		spoil(tables, shed)
		if _, err := New(tables, shed); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error %v, want it to hold %q", err, want)
		}
	}
}
