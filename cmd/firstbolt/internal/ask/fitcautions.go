package ask

import (
	"slices"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/model/fit"
	"firstbolt/solver"
)

// slotCautions are those of the work and of the first ride that touch the slots; name is the part that they are said of.
func (f *filler) slotCautions(slots []string, name string) []answer.Caution {
	at := map[string]string{}
	for _, s := range slots {
		at[s] = name
	}
	var list []answer.Caution
	for _, when := range []string{"work", "first-ride"} {
		for _, c := range f.shed.Tables.Cautions {
			if _, touches := touchedBy(c, at); c.When != when || !touches {
				continue
			}
			said := answer.Caution{Code: c.Code, Severity: "caution", When: when, Text: c.Text, CheckWith: c.CheckWith, Source: c.Source}
			if when == "work" {
				said.Part = some(name)
			}
			list = append(list, said)
		}
	}
	return list
}

// allCautions are what is odd about the bike as it stands, and what is to be minded with the parts that can go on;
// each once, with the part's name where one part was asked about.
func (f *fitter) allCautions(fittings []solver.Fitting) []answer.Caution {
	list := ruleCautions(fit.Check(f.shed.Tables, f.now, f.q.Options.Allow))
	name := ""
	if f.q.Part != nil {
		name = f.q.Part.Name
	}
	var slots []string
	for i := range fittings {
		if fittings[i].Answer != fit.DoesNotFit {
			slots = append(slots, touched(&fittings[i])...)
		}
	}
	slices.Sort(slots)
	return append(list, f.slotCautions(slices.Compact(slots), name)...)
}
