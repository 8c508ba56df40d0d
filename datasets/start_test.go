package datasets_test

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"firstbolt/datasets"
	"firstbolt/model"
)

var nineAnswers = map[string]string{
	"like": "store hardtail cable disc 3x7", "riding": "3", "rider_kg": "85", "budget": "120", "per_month": "30",
	"work": "self", "ranking": "braking > grip > chain stays on", "sells_for": "60", "size_ok": "yes",
}

// What start writes loads without a word, and says what was answered.
func TestStartLoads(t *testing.T) {
	t.Parallel()
	for _, currency := range []string{"", "EUR", "JPY"} {
		answers := map[string]string{"currency": currency}
		for k, v := range nineAnswers {
			answers[k] = v
		}
		folder := filepath.Join(t.TempDir(), "shed")
		written, err := datasets.Start(folder, answers)
		if err != nil || len(written) != 3 {
			t.Fatalf("wrote %q, %v", written, err)
		}
		shed, complaints, err := datasets.Load(folder, datasets.Options{})
		if err != nil || len(complaints) > 0 {
			t.Fatalf("%s: %v %v", currency, err, complaints)
		}
		checkStarted(t, shed)
	}
}

func checkStarted(t *testing.T, shed *model.Shed) {
	t.Helper()
	own := shed.OwnBike()
	if own == nil || own.Like != nineAnswers["like"] || own.SizeOK != model.Yes || len(own.Fitted) < 10 {
		t.Errorf("own bike %+v, want one like %q with its typical parts", own, nineAnswers["like"])
	}
	if r := shed.Rider; r.Riding.Value != 3 || r.Mass.Value != 85_000 || len(r.Ranking.Value) != 3 || r.Ranking.Value[2] != "retention" {
		t.Errorf("rider %+v", r)
	}
	whole := shed.Currency.Hundred() / 100
	if shed.Rider.Budget.Value != 120*whole || own.SellsFor.Value != 60*whole {
		t.Errorf("budget %d, sells for %d", shed.Rider.Budget.Value, own.SellsFor.Value)
	}
	if len(shed.Parts) != 10 || len(shed.Parts[2].Places[0]) < 3 {
		t.Errorf("got %d parts, want ten, the third a set", len(shed.Parts))
	}
}

func TestStartNeverOverwrites(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	path := filepath.Join(folder, "parts.csv")
	if err := os.WriteFile(path, []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	written, err := datasets.Start(folder, nineAnswers)
	if err == nil || !strings.Contains(err.Error(), "parts.csv is there already") || len(written) > 0 {
		t.Errorf("got %q, %v; want a refusal that names the file", written, err)
	}
	entries, _ := os.ReadDir(folder)
	if text, _ := os.ReadFile(path); string(text) != "mine" || len(entries) != 1 {
		t.Errorf("the folder was touched: %q, %d files", text, len(entries))
	}
}

func TestQuestions(t *testing.T) {
	t.Parallel()
	questions := datasets.Questions()
	if len(questions) != 9 {
		t.Fatalf("got %d questions, want nine", len(questions))
	}
	for _, q := range questions {
		for _, good := range []string{"", q.Example, nineAnswers[q.Setting]} {
			if err := q.Check(good, "EUR"); err != nil {
				t.Errorf("%s: %q: %v", q.Setting, good, err)
			}
		}
	}
	for _, w := range []struct{ setting, answer, says string }{
		{"riding", "6", "from 1 to 5"},
		{"rider_kg", "-3", "from 15 to 250"},
		{"budget", "a lot", "an amount"},
		{"budget", "1,299", "--decimal"},
		{"work", "shpo", `did you mean "shop"?`},
		{"ranking", "braknig > grip", `did you mean "braking"?`},
		{"like", "store hardtail cable disk 3x7", `did you mean "store hardtail cable disc 3x7"?`},
		{"like", "hybrid", `did you mean "commuter or hybrid 28 inch 3x8"?`},
		{"like", "qqqq", "`firstbolt schema likes` lists them"},
		{"like", "0", "a typical bike"},
		{"like", "99", "a typical bike"},
		{"size_ok", "maybe so", "yes or no"},
		{"sells_for", "-60", "0 or more"},
	} {
		for _, q := range questions {
			if q.Setting != w.setting {
				continue
			}
			if err := q.Check(w.answer, "EUR"); err == nil || !strings.Contains(err.Error(), w.says) {
				t.Errorf("%s: %q: got %v, want a sentence with %s", w.setting, w.answer, err, w.says)
			}
		}
	}
	for i, name := range questions[0].Choices {
		if got := questions[0].Chosen(strconv.Itoa(i + 1)); got != name {
			t.Errorf("number %d is %q, want %q", i+1, got, name)
		}
	}
	if got := questions[1].Chosen("3"); got != "3" {
		t.Errorf("riding 3 became %q", got)
	}
	if _, err := datasets.StartFiles(map[string]string{"currency": "EUX"}); err == nil {
		t.Error("EUX is no currency")
	}
}
