package ask

import (
	"fmt"
	"slices"
	"strings"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/model"
	"firstbolt/solver"
)

// step is one step of the buying order. The dearest part of it gives it its name; the others go with it.
func (f *filler) step(p *solver.Plan, i int) (answer.Step, error) {
	from := &p.Steps[i]
	lead := leading(from)
	s := answer.Step{
		Step: i + 1, Kind: "part", Count: 1, Price: f.money(0), Tax: f.money(0), ShippingChange: f.money(from.Shipping),
		Cost: f.money(from.Cost), Due: f.money(from.Due), Benefit: points(from.Benefit),
	}
	for c, gain := range from.Gains {
		s.Points = append(s.Points, answer.Entry[answer.Points]{Key: f.shed.Tables.Criteria[c].Key, Value: points(gain)})
	}
	paid := s.Cost
	paid.Minor -= s.Due.Minor
	s.Per100 = answer.PerHundred(s.Benefit, paid)
	f.nameStep(&s, from, lead)
	if err := f.goesWith(&s, p, i, lead); err != nil {
		return s, err
	}
	s.Verdict = "fits"
	switch {
	case from.After:
		s.Verdict = "measure_first"
	case slices.ContainsFunc(s.With, func(w answer.With) bool { return w.Kind == "part" }):
		s.Verdict = "fits_with"
	}
	return s, nil
}

// leading is the index of the dearest part among a step's purchases, or of the first where none is bought.
func leading(s *solver.Step) int {
	lead := 0
	for i := range s.Purchases {
		part, best := s.Purchases[i].Part, s.Purchases[lead].Part
		if part != nil && (best == nil || part.Price > best.Price) {
			lead = i
		}
	}
	return lead
}

// nameStep says what the step is about: its part, or the work where no part is bought.
func (f *filler) nameStep(s *answer.Step, from *solver.Step, lead int) {
	purchase := &from.Purchases[lead]
	part := purchase.Part
	for _, ch := range purchase.Changes {
		s.Slots = append(s.Slots, ch.Label.Thing.Slot)
	}
	if part == nil {
		ch := purchase.Changes[0]
		s.Kind, s.Part, s.Where = "work", workName(from, lead), ch.Before.Origin.String()
		if ch.Label.Thing.State == model.Empty {
			s.Replaces = []string{ch.Before.Name}
		}
		return
	}
	for _, th := range purchase.Replaces {
		s.Replaces = append(s.Replaces, th.Name)
	}
	s.Part, s.Where, s.Shop, s.Owned = part.Name, part.Origin.String(), some(part.Shop), purchase.Owned
	if !purchase.Owned {
		s.Price = f.money(part.Price)
	}
	switch part.Used {
	case model.Yes:
		s.Condition = some("used")
	case model.No:
		s.Condition = some("new")
	}
}

// workName says what is done to a slot where nothing is bought: the jobs, or what is taken off.
func workName(s *solver.Step, at int) string {
	purchase := &s.Purchases[at]
	var jobs []string
	for _, ch := range purchase.Changes {
		for _, j := range ch.Label.Bill.Jobs {
			jobs = append(jobs, j.Name)
		}
	}
	first := purchase.Changes[0]
	switch {
	case first.Label.Thing.State == model.Empty:
		return "take off: " + first.Before.Name
	case len(jobs) > 0:
		return strings.Join(jobs, ", ")
	default:
		return "restore: " + first.Before.Name
	}
}

// goesWith lists what else a step brings: other parts, tools, small parts and shop work that it pays, and the work that
// the rider does.
func (f *filler) goesWith(s *answer.Step, p *solver.Plan, i, lead int) error {
	lines, err := p.Lines(i)
	if err != nil {
		return err
	}
	own := false // the leading part's own line was seen
	for _, l := range lines {
		w := answer.With{Kind: string(l.Kind), Name: l.Name, Count: max(l.Count, 1), Cost: f.money(l.Cash), Origin: lineOrigin(l.Where)}
		switch w.Kind {
		case "tax":
			s.Tax.Minor += w.Cost.Minor
			continue
		case "shipping":
			continue
		case "part":
			if !own && l.Name == s.Part && !s.Owned {
				own = true
				continue
			}
		case "work":
			w.DoneBy = some("shop")
		case "small_part":
			w.Name, _, _ = strings.Cut(l.Name, " (") // the receipt names the job as well
		}
		s.With = merge(s.With, w)
	}
	f.freeCompany(s, &p.Steps[i], lead)
	return nil
}

// freeCompany adds what costs nothing but belongs to the step: parts from the shed, things taken off or restored, and
// the rider's own work.
func (f *filler) freeCompany(s *answer.Step, from *solver.Step, lead int) {
	for i := range from.Purchases {
		purchase := &from.Purchases[i]
		first := purchase.Changes[0]
		switch {
		case i == lead:
		case purchase.Part == nil:
			s.With = merge(s.With, answer.With{Kind: "work", Name: workName(from, i), Count: 1, Cost: f.money(0), Origin: lineOrigin(first.Before.Origin)})
		case purchase.Owned:
			s.With = merge(s.With, answer.With{Kind: "part", Name: purchase.Part.Name + " (yours)", Count: 1, Cost: f.money(0), Origin: lineOrigin(purchase.Part.Origin)})
		}
		for _, ch := range purchase.Changes {
			for j, job := range ch.Label.Bill.Jobs {
				if !ch.Label.ByShop[j] && purchase.Part != nil {
					s.With = merge(s.With, answer.With{Kind: "work", Name: job.Name, Count: 1, Cost: f.money(0), Origin: lineOrigin(job.Origin), DoneBy: some("self")})
				}
			}
		}
	}
}

// merge adds an entry, or counts it up where the same one is there already. Free work is named once.
func merge(list []answer.With, w answer.With) []answer.With {
	for i := range list {
		old := &list[i]
		if old.Kind != w.Kind || old.Name != w.Name || old.Origin != w.Origin || deref(old.DoneBy) != deref(w.DoneBy) {
			continue
		}
		if w.Kind != "work" {
			old.Count += w.Count
		}
		old.Cost.Minor += w.Cost.Minor
		return list
	}
	return append(list, w)
}

func deref(text *string) string {
	if text == nil {
		return ""
	}
	return *text
}

// lineOrigin says where a price stands; "assumed" where it is a typical one.
func lineOrigin(o model.Origin) string {
	if o.How == model.Assumed {
		return "assumed"
	}
	if o.Sheet == "" {
		return "jobs table"
	}
	return o.String()
}

// receipt is the plan's receipt with equal lines counted together.
func (f *filler) receipt(p *solver.Plan) []answer.Line {
	var lines []answer.Line
	for _, l := range p.Receipt.Lines {
		line := answer.Line{Kind: string(l.Kind), Name: l.Name, Shop: some(l.Shop), Count: max(l.Count, 1), Cost: f.money(l.Cash), Where: lineOrigin(l.Where)}
		i := slices.IndexFunc(lines, func(o answer.Line) bool {
			return o.Kind == line.Kind && o.Name == line.Name && o.Where == line.Where && deref(o.Shop) == deref(line.Shop)
		})
		if i < 0 {
			lines = append(lines, line)
			continue
		}
		lines[i].Count += line.Count
		lines[i].Cost.Minor += line.Cost.Minor
	}
	return lines
}

// cost is the receipt by kind; all zero where nothing is bought.
func (f *filler) cost(p *solver.Plan) answer.Cost {
	sums := map[string]model.Money{}
	total := model.Money(0)
	if p != nil {
		for kind, sum := range p.Receipt.Sums {
			sums[string(kind)] = sum
		}
		total = p.Receipt.Total
	}
	return answer.Cost{
		Parts: f.money(sums["part"]), Tools: f.money(sums["tool"]), Work: f.money(sums["work"]), SmallParts: f.money(sums["small_part"]),
		Shipping: f.money(sums["shipping"]), Tax: f.money(sums["tax"]), Sales: f.money(sums["sale"]), Bike: f.money(sums["bike"]), Total: f.money(total),
	}
}

// stepSlots are the slots that a step changes.
func stepSlots(s *solver.Step) []string {
	var slots []string
	for _, b := range s.Purchases {
		for _, ch := range b.Changes {
			slots = append(slots, ch.Label.Thing.Slot)
		}
	}
	return slots
}

// measureFirst names the facts that a step's parts wait for, and says what to do where they come out otherwise.
func (f *filler) measureFirst(p *solver.Plan, step int) (measure, instead []string) {
	slots := stepSlots(&p.Steps[step])
	for _, d := range p.Doubts() {
		if !slices.ContainsFunc(d.Slots, func(slot string) bool { return slices.Contains(slots, slot) }) {
			continue
		}
		fact := d.Slot + ": " + answer.FactWords(d.Fact)
		measure = append(measure, fact)
		for _, o := range d.Otherwise {
			value := o.Value.String()
			instead = append(instead, fmt.Sprintf("%s (%s): %s", answer.FactValue(d.Fact, &value), d.Slot, f.otherwiseText(o)))
		}
	}
	return measure, instead
}

// otherwiseText says what to buy instead, and for how much more or less.
func (f *filler) otherwiseText(o solver.Otherwise) string {
	text := "leave it out"
	if len(o.Buy) > 0 {
		text = "buy " + joined(o.Buy) + " instead"
	}
	switch {
	case o.More > 0:
		text += fmt.Sprintf(" (%s more)", f.money(o.More))
	case o.More < 0:
		text += fmt.Sprintf(" (%s less)", f.money(-o.More))
	}
	return text
}
