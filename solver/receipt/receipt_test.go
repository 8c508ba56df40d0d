package receipt

import (
	"testing"

	"firstbolt/model"
)

// till is two shops, a tool, and jobs of one place; prices are made up so that every sum can be added by hand.
func till() *model.Shed {
	cash := func(m model.Money) model.Stated[model.Money] { return model.Say(m, model.Origin{}) }
	return &model.Shed{
		Shops: []model.Shop{
			{Name: "near", Shipping: 5_00, FreeOver: cash(30_00)},
			{Name: "far", Shipping: 7_00, TaxPercent: model.Say(20.0, model.Origin{})},
		},
		Tables: &model.Tables{
			Tools: []model.Tool{{Name: "puller", Price: 9_00}, {Name: "keys", Price: 3_00, Owned: true}},
			Jobs: []model.Job{
				{Name: "fit crank", Slots: []string{"crank"}, Place: "drive", Shared: "crank", Minutes: 40, Tools: []string{"puller", "keys"}, ShopPrice: cash(15_00), SmallParts: []model.SmallPart{{Name: "grease", Price: 50}}},
				{Name: "fit bracket", Slots: []string{"bracket"}, Place: "drive", Shared: "crank", Minutes: 30, Tools: []string{"puller"}, ShopPrice: cash(12_00)},
				{Name: "bleed", Slots: []string{"brake"}, Place: "front", Minutes: 30, When: []model.Term{{Fact: "prebled", Constant: "no"}}, ShopPrice: cash(20_00)},
				{Name: "fit as delivered", Slots: []string{"brake"}, Place: "front", Minutes: 20, When: []model.Term{{Fact: "prebled", Constant: "yes"}}},
			},
		},
	}
}

func buy(slot, shop string, price model.Money, facts model.Facts, jobs ...JobDone) Item {
	p := &model.Part{Name: slot, Shop: shop, Price: price}
	return Item{Thing: model.Thing{Slot: slot, State: model.Bought, Name: slot, Part: p, Place: model.Place{slot}, Facts: facts}, Place: model.Place{slot}, Jobs: jobs}
}

func TestAdd(t *testing.T) {
	t.Parallel()
	yes := model.Facts{"prebled": model.ChoiceValue(model.Origin{}, "yes")}
	for _, c := range []struct {
		name  string
		items []Item
		want  model.Money
	}{
		{"nothing", nil, 0},
		{"own work: 20 + grease 0.50 + puller 9 + shipping 5", []Item{buy("crank", "near", 20_00, nil, JobDone{Name: "fit crank"})}, 34_50},
		{"two jobs, one puller, free shipping at exactly 30", []Item{
			buy("crank", "near", 20_00, nil, JobDone{Name: "fit crank"}), buy("bracket", "near", 10_00, nil, JobDone{Name: "fit bracket"}),
		}, 39_50},
		{"the shop does both at once: the dearer price counts", []Item{
			buy("crank", "near", 20_00, nil, JobDone{Name: "fit crank", ByShop: true}), buy("bracket", "near", 10_00, nil, JobDone{Name: "fit bracket", ByShop: true}),
		}, 45_50},
		{"tax on top, rounded half up: 10.03 + 2.01 + shipping 7", []Item{buy("brake", "far", 10_03, yes, JobDone{Name: "fit as delivered"})}, 19_04},
		{"pre-bled or not is unknown: the longer job", []Item{buy("brake", "far", 10_00, nil, JobDone{Name: "bleed", ByShop: true})}, 39_00},
	} {
		r, err := Add(till(), &model.Bike{}, nil, c.items)
		if err != nil || r.Total != c.want {
			t.Errorf("%s: %d (%v), want %d", c.name, r.Total, err, c.want)
		}
		sum := model.Money(0)
		for _, l := range r.Lines {
			sum += l.Cash
		}
		if sum != r.Total {
			t.Errorf("%s: lines add up to %d, the total says %d", c.name, sum, r.Total)
		}
	}
}

// A plan that forgets a job, invents one, or sends it to a shop without a price is refused.
func TestAddRefuses(t *testing.T) {
	t.Parallel()
	yes := model.Facts{"prebled": model.ChoiceValue(model.Origin{}, "yes")}
	for name, item := range map[string]Item{
		"forgotten":     buy("crank", "near", 20_00, nil),
		"another job":   buy("crank", "near", 20_00, nil, JobDone{Name: "fit bracket"}),
		"one too many":  buy("brake", "near", 20_00, yes, JobDone{Name: "fit as delivered"}, JobDone{Name: "bleed"}),
		"no shop price": buy("brake", "near", 20_00, yes, JobDone{Name: "fit as delivered", ByShop: true}),
	} {
		if r, err := Add(till(), &model.Bike{}, nil, []Item{item}); err == nil {
			t.Errorf("%s: accepted with a total of %d", name, r.Total)
		}
	}
}

// A bike is paid with all that it costs before any part; what is sold for it counts against it, and the bike that is
// kept costs nothing.
func TestAddPaysForTheBike(t *testing.T) {
	t.Parallel()
	kept := &model.Bike{SellsFor: model.Say(model.Money(60_00), model.Origin{})}
	other := &model.Bike{Price: 300_00, Delivery: 20_00, Assembly: 10_00, Repairs: 45_00}
	for _, c := range []struct {
		name       string
		bike, kept *model.Bike
		want       model.Money
	}{
		{"kept", kept, kept, 0},
		{"another one, the kept one sold", other, kept, 315_00},
		{"the first bike", other, nil, 375_00},
	} {
		if r, err := Add(till(), c.bike, c.kept, nil); err != nil || r.Total != c.want {
			t.Errorf("%s: %d (%v), want %d", c.name, r.Total, err, c.want)
		}
	}
}
