package solver_test

import (
	"context"
	"encoding/csv"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/rogpeppe/go-internal/txtar"

	"firstbolt/datasets"
	"firstbolt/model"
	"firstbolt/solver"
	"firstbolt/solver/builtin"
	"firstbolt/solver/formulate"
)

// TestEveryRiderIsAccountedFor counts the 52 public reports of riders and mechanics: each is a row of
// ../datasets/testdata/fit_riders.csv (one part on one bike) or a shed in testdata/riders. None is left out.
func TestEveryRiderIsAccountedFor(t *testing.T) {
	t.Parallel()
	tested := map[string]bool{}
	for _, row := range rows(t, "../datasets/testdata/fit_riders.csv") {
		tested[strings.Fields(row[0])[0]] = true
	}
	for _, file := range riderFiles(t) {
		tested[strings.TrimSuffix(filepath.Base(file), ".txtar")] = true
	}
	reports := rows(t, "../datasets/testdata/riders.csv")
	for _, row := range reports {
		if !tested[row[0]] {
			t.Errorf("%s is not tested", row[0])
		}
		delete(tested, row[0])
	}
	if len(reports) != 52 || len(tested) > 0 {
		t.Errorf("%d reports, want 52; tests without a report: %v", len(reports), tested)
	}
}

// TestRiders asks the whole question of small sheds with a report's numbers. Every testdata/riders/ID.txtar has the
// report's address and what was chosen as an ordinary value because the report does not tell it; sheets; and in
// want.csv what must come out. A folder inside replaces some sheets and wants another answer, so that the first one is
// seen to hang on the numbers.
func TestRiders(t *testing.T) {
	t.Parallel()
	verdicts := map[string]string{}
	for _, row := range rows(t, "../datasets/testdata/riders.csv") {
		verdicts[row[0]] = row[3]
	}
	for _, file := range riderFiles(t) {
		archive, err := txtar.ParseFile(file)
		if err != nil {
			t.Fatal(err)
		}
		variants := variantsOf(archive)
		for name, sheets := range variants {
			t.Run(strings.TrimSuffix(filepath.Base(file), ".txtar")+" "+name, func(t *testing.T) {
				t.Parallel()
				r := rider{shed: loaded(t, sheets)}
				wants := parsed(t, sheets["want.csv"].Data)
				if id := strings.TrimSuffix(filepath.Base(file), ".txtar"); name == "" && !settles(verdicts[id], wants) {
					t.Errorf("want.csv does not ask what the report's verdict %q says", verdicts[id])
				}
				for _, row := range wants {
					if got := r.say(t, row[0], row[1]); !answers(got, row[0], row[2]) {
						t.Errorf("%s %s: got %q, want %q", row[0], row[1], got, row[2])
					}
				}
			})
		}
	}
}

// settledBy says which rows of a want.csv, as "ask=want", are a report's verdict in firstbolt's words.
var settledBy = map[string][]string{
	"no":                  {"answer=does_not_fit"},
	"no_unless":           {"answer=fits_with", "answer=does_not_fit", "answer=both_sides"},
	"bundle":              {"answer=fits_with"},
	"replace_set":         {"answer=fits_with"},
	"upgrade":             {"decision=stay"},
	"repair_once":         {"decision=stay"},
	"replace_part":        {"decision=stay"},
	"keep":                {"decision=wait", "decision=stay"}, // stay: the bike is kept and little is bought
	"replace_bike":        {"decision=switch"},
	"limit_terrain":       {"made for less=known, no other", "made for less=known, better bike"},
	"avoid":               {"never buys=titanium pedals", "never buys=short fork"},
	"budget_tools":        {"cash=200.50"}, // what is paid hangs on the tools
	"subtract_from_price": {"bike=sound"},  // the cheaper offer is not the cheaper bike
	"compare_total":       {"bike=another"},
}

// settles tells whether one of the rows says what the verdict says.
func settles(verdict string, wants [][]string) bool {
	return slices.ContainsFunc(wants, func(row []string) bool {
		return slices.Contains(settledBy[verdict], row[0]+"="+row[2])
	})
}

func riderFiles(t *testing.T) []string {
	t.Helper()
	files, err := filepath.Glob("testdata/riders/*.txtar")
	if err != nil || len(files) == 0 {
		t.Fatal("no sheds in testdata/riders: ", err)
	}
	return files
}

// variantsOf are the sheets of the report by name "", and those of every folder laid over them.
func variantsOf(a *txtar.Archive) map[string]fstest.MapFS {
	variants := map[string]fstest.MapFS{"": {}}
	for _, f := range a.Files {
		folder := strings.TrimSuffix(path.Dir(f.Name), ".")
		if variants[folder] == nil {
			variants[folder] = fstest.MapFS{}
		}
		variants[folder][path.Base(f.Name)] = &fstest.MapFile{Data: f.Data}
	}
	for _, sheets := range variants {
		for name, file := range variants[""] {
			if sheets[name] == nil {
				sheets[name] = file
			}
		}
	}
	return variants
}

func loaded(t *testing.T, sheets fs.FS) *model.Shed {
	t.Helper()
	shed, complaints, err := datasets.LoadFS(sheets, t.Name(), datasets.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range complaints {
		if !c.Warning {
			t.Fatal(c)
		}
	}
	return shed
}

func rows(t *testing.T, file string) [][]string {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return parsed(t, data)
}

// parsed are the records of a sheet below its head.
func parsed(t *testing.T, data []byte) [][]string {
	t.Helper()
	records, err := csv.NewReader(strings.NewReader(string(data))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return records[1:]
}

// rider is a shed with what was asked of it so far.
type rider struct {
	shed *model.Shed
	ans  *solver.Answer
}

// answers compares what was said with what is wanted.
func answers(got, ask, want string) bool {
	switch ask {
	case "mentions", "measure", "doubts":
		return slices.ContainsFunc(strings.Split(got, "; "), func(s string) bool { return strings.Contains(s, want) })
	case "never buys":
		return !slices.Contains(strings.Split(got, "; "), want)
	default:
		return got == want
	}
}

// say is what firstbolt says to one question of a want.csv; `of` is a part, a bike, or two lists.
func (r *rider) say(t *testing.T, ask, of string) string {
	t.Helper()
	switch ask {
	case "answer", "goes with it", "doubts":
		return r.fits(t, ask, of)
	}
	if r.ans == nil {
		q := solver.Question{Shed: r.shed, Budget: r.shed.Rider.Budget.Value, Lead: builtin.New(builtin.Options{})}
		var err error
		if r.ans, err = solver.Ask(context.Background(), q); err != nil {
			t.Fatal(err)
		}
	}
	plan := r.ans.Chosen
	if plan == nil {
		plan = r.ans.Repair
	}
	switch ask {
	case "decision":
		return string(r.ans.Decision)
	case "mentions":
		return strings.Join(r.ans.Notes, "; ")
	case "made for less":
		return r.class()
	case "switch point":
		if r.ans.Switch == nil {
			return "none"
		}
		return r.shed.Currency.Format(r.ans.Switch.At)
	case "cash of":
		return r.cashOf(of)
	}
	if plan == nil {
		return "no plan"
	}
	switch ask {
	case "bike":
		return plan.Bike.Name
	case "cash":
		return r.shed.Currency.Format(plan.Cash)
	case "buys", "never buys":
		return strings.Join(bought(plan), "; ")
	case "steps":
		return strings.Join(stepNames(plan), "; ")
	case "order":
		return order(bought(plan), of)
	case "measure":
		var facts []string
		for _, d := range plan.Doubts() {
			facts = append(facts, d.Slot+"."+d.Fact)
		}
		return strings.Join(facts, "; ")
	}
	t.Fatalf("want.csv asks %q, which is no question", ask)
	return ""
}

// class says for which riding the kept bike is made, where that is less than the rider's, and which bike is made for it.
func (r *rider) class() string {
	c := r.ans.Class
	if c == nil {
		return "no"
	}
	words := []string{"taken for", "known"}[b2i(c.Known)]
	if c.Else == nil {
		return words + ", no other"
	}
	return words + ", " + c.Else.Name
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

// cashOf is what the best plan for one bike costs, bike and all.
func (r *rider) cashOf(bike string) string {
	for _, c := range r.ans.Contenders {
		if c.Bike.Name == bike && c.Plan != nil {
			return r.shed.Currency.Format(c.Plan.Cash)
		}
	}
	if r.ans.Kept != nil && r.ans.Kept.Bike.Name == bike {
		return r.shed.Currency.Format(r.ans.Kept.Cash)
	}
	return "no plan"
}

// order tells whether all before "<" is bought, and before whatever of the rest is bought at all.
func order(bought []string, of string) string {
	first, last, _ := strings.Cut(of, " < ")
	at := -1
	for _, name := range strings.Split(first, "; ") {
		i := slices.Index(bought, name)
		if i < 0 {
			return name + " is not bought, only " + strings.Join(bought, "; ")
		}
		at = max(at, i)
	}
	for _, name := range strings.Split(last, "; ") {
		if i := slices.Index(bought, name); i >= 0 && i < at {
			return name + " comes too early: " + strings.Join(bought, "; ")
		}
	}
	return "so"
}

// fits is what is said of one part in its first place.
func (r *rider) fits(t *testing.T, ask, id string) string {
	t.Helper()
	for i := range r.shed.Parts {
		if r.shed.Parts[i].ID != id {
			continue
		}
		list, err := solver.Fits(context.Background(), solver.FitQuestion{
			Shed: r.shed, Bike: r.shed.OwnBike(), Part: &r.shed.Parts[i], Lead: builtin.New(builtin.Options{}),
		})
		if err != nil {
			t.Fatal(err)
		}
		var names []string
		switch one := list[0]; ask {
		case "answer":
			return one.Answer.String()
		case "goes with it":
			for _, c := range one.Company {
				names = append(names, purchaseName(c.Purchase))
			}
		case "doubts":
			for _, d := range one.Doubts {
				names = append(names, d.Slot+"."+d.Fact)
			}
		}
		return strings.Join(names, "; ")
	}
	t.Fatalf("parts.csv has no %q", id)
	return ""
}

// bought are the purchases of a plan in buying order.
func bought(p *solver.Plan) []string {
	var names []string
	for _, s := range stepNames(p) {
		names = append(names, strings.Split(s, " + ")...)
	}
	return names
}

func stepNames(p *solver.Plan) []string {
	var steps []string
	for _, s := range p.Steps {
		var names []string
		for _, b := range s.Purchases {
			names = append(names, purchaseName(b))
		}
		steps = append(steps, strings.Join(names, " + "))
	}
	return steps
}

// purchaseName is the id of a part, "service SLOT" or "no SLOT".
func purchaseName(b formulate.Purchase) string {
	if b.Part != nil {
		return b.Part.ID
	}
	th := b.Changes[0].Label.Thing
	if th.State == model.Serviced {
		return "service " + th.Slot
	}
	return "no " + th.Slot
}
