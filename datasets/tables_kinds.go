package datasets

import (
	"fmt"
	"sort"
	"strings"

	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

func (l *layer) kind(r sheet.Row) {
	k := model.Kind{
		Name:    l.filled(r.Get("kind"), "a plain phrase"),
		Aliases: list(r.Get("aliases").Text),
		Places:  l.places(r.Get("places")),
		Source:  source(r),
	}
	var slots []string
	for _, p := range k.Places {
		slots = append(slots, p...)
	}
	k.Facts = l.typicalFacts(r.Get("facts"), slots, "kind")
	k.Grams = l.typicalGrams(r, "kind")
	l.ownPhrases(r, &k)
	l.assumesNoDanger(r.Get("facts"), &k)
	if l.once(r.Get("kind")) {
		put(&l.tables.Kinds, k, func(a, b *model.Kind) bool { return a.Name == b.Name })
	}
}

// places reads "front tyre / rear tyre" (either) and "crankset + chainring" (a set).
func (l *layer) places(c sheet.Cell) []model.Place {
	places, unknown := placesIn(l.tables, l.filled(c, "the slots it goes in"))
	for _, name := range unknown {
		l.knownSlot(c, name)
	}
	return places
}

// placesIn reads places as cells name them; slots of a set stand in the order of slots.csv. Names that are no slots
// are returned apart.
func placesIn(tables *model.Tables, text string) (places []model.Place, unknown []string) {
	for _, alternative := range strings.Split(text, "/") {
		var place model.Place
		for _, name := range strings.Split(alternative, "+") {
			name = strings.TrimSpace(name)
			if tables.SlotNamed(name) == nil {
				unknown = append(unknown, name)
			}
			place = append(place, name)
		}
		sort.SliceStable(place, func(a, b int) bool { return tables.SlotIndex(place[a]) < tables.SlotIndex(place[b]) })
		places = append(places, place)
	}
	return places, unknown
}

// typicalFacts reads "tread=knobbly; bead_mm=584" as assumed facts of things in the slots.
func (l *layer) typicalFacts(c sheet.Cell, slots []string, from string) model.Facts {
	facts := model.Facts{}
	for _, entry := range list(c.Text) {
		name, text, ok := cut(entry, "=")
		if !ok {
			l.fault(c, "facts", fmt.Sprintf("name=value; %q is none", entry), "such as tread=knobbly; bead_mm=584")
			continue
		}
		f := l.factIn(c, "", name)
		if f == nil {
			continue
		}
		if !hasAny(f, slots) {
			l.fault(c, "unknown_fact", fmt.Sprintf("facts of %s; %s is none of theirs", strings.Join(slots, ", "), name),
				name+" belongs to "+strings.Join(f.Slots, ", "))
		}
		facts[name] = l.valueIn(c, f, text, model.Origin{Sheet: from, How: model.Assumed})
	}
	return facts
}

func hasAny(f *model.Fact, slots []string) bool {
	for _, s := range slots {
		if f.Has(s) {
			return true
		}
	}
	return false
}

func (l *layer) typicalGrams(r sheet.Row, from string) model.Stated[model.Grams] {
	c := r.Get("grams")
	if c.Text == "" {
		return model.Stated[model.Grams]{}
	}
	return model.Say(model.Grams(l.wholeIn(c)), model.Origin{Sheet: from, Raw: c.Text, How: model.Assumed})
}

func (l *layer) like(r sheet.Row) {
	k := model.Like{
		Name:   l.filled(r.Get("like"), "the class of bike"),
		Slot:   l.filled(r.Get("slot"), "a slot"),
		Part:   r.Get("part").Text,
		Source: source(r),
	}
	l.knownSlot(r.Get("slot"), k.Slot)
	k.Facts = l.typicalFacts(r.Get("facts"), []string{k.Slot}, "like")
	k.Grams = l.typicalGrams(r, "like")
	if l.once(r.Get("like"), r.Get("slot")) {
		put(&l.tables.Likes, k, func(a, b *model.Like) bool { return a.Name == b.Name && a.Slot == b.Slot })
	}
}
