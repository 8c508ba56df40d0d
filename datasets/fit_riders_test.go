package datasets_test

import (
	"testing"

	"firstbolt/model"
	"firstbolt/model/fit"
)

// ridersElsewhere are the collected cases of riders that today's rules do not decide, with the reason. The others are
// the rows of testdata/fit_riders.csv, named by the same ids; each comes from a public report of a rider or mechanic.
var ridersElsewhere = map[string]string{
	"C25": "an order of purchases: benefit, not fit", "C26": "nothing worn: benefit, not fit", "C27": "service first: benefit, not fit",
	"C28": "benefit of travel, not fit", "C31": "cost against a complete bike", "C32": "small benefit, not fit",
	"C33": "cost against a complete bike", "C34": "use class of the whole bike", "C35": "use class of the whole bike",
	"C36": "price of a used bike", "C37": "whether 1 inch forks are sold at all", "C40": "a whole conversion: company, not one part",
	"C41": "tools: cost", "C42": "wear of a used bike: cost", "C43": "small parts: cost", "C44": "bending a hanger back: a job",
	"C52": "chain retention: benefit", "C53": "wear of chain and cogs together: condition", "C59": "a worn crank arm: condition",
	"C61": "use class of the whole bike", "C64": "price per gram: benefit",
}

// TestRidersCases mounts one part on a bike with the case's numbers. What a case does not tell is an ordinary value
// where the part could not be judged on the case's point without it; slots that the file does not name are empty.
func TestRidersCases(t *testing.T) {
	t.Parallel()
	tables := embedded(t)
	rows := records(t, "testdata/fit_riders.csv")
	if all := len(rows) + len(ridersElsewhere); all != 52 {
		t.Errorf("%d of the 52 collected cases are accounted for", all)
	}
	for _, row := range rows {
		id, slot, answer, rule, source := row[0], row[2], row[4], row[5], row[6]
		t.Run(id, func(t *testing.T) {
			t.Parallel()
			bike := &model.Bike{Name: id}
			there := factsBySlot(t, tables, row[1])
			for _, s := range tables.Slots {
				facts, ok := there[s.Name]
				bike.Fitted = append(bike.Fitted, model.Fitted{Slot: s.Name, None: !ok, Facts: facts})
			}
			part := &model.Part{ID: id, Name: "the " + slot, Facts: model.Facts{}}
			for _, facts := range factsBySlot(t, tables, prefixed(slot, row[3])) {
				part.Facts = facts
			}
			got, results := fit.Alone(tables, bike, part, model.Place{slot}, nil)
			if got.String() != answer {
				t.Errorf("%s: got %s, want %s", source, got, answer)
			}
			decided := rule == ""
			for _, r := range results {
				open := r.State == fit.Broken || r.State == fit.Missing
				decided = decided || r.Rule.ID == rule && open && r.Says != ""
				if got.String() != answer {
					t.Logf("%s %s %s", r.Rule.ID, r.State, r.Says)
				}
			}
			if !decided {
				t.Errorf("%s: %s does not speak", source, rule)
			}
		})
	}
}
