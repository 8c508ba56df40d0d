package ask

import (
	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/model/fit"
	"firstbolt/solver"
)

// slotCautions are those of the work and of the first ride that touch the slots, said of the part that goes there.
func (f *filler) slotCautions(parts map[string]string) []answer.Caution {
	var list []answer.Caution
	for _, when := range []string{"work", "first-ride"} {
		for _, c := range f.shed.Tables.Cautions {
			name, touches := touchedBy(c, parts)
			if c.When != when || !touches {
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
	parts := map[string]string{}
	for i := range fittings {
		if fittings[i].Answer == fit.DoesNotFit {
			continue
		}
		for slot, name := range touched(&fittings[i]) {
			if f.q.Part == nil {
				name = ""
			}
			parts[slot] = name
		}
	}
	return append(list, f.slotCautions(parts)...)
}
