package text_test

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/cmd/firstbolt/internal/answer/example"
	"firstbolt/cmd/firstbolt/internal/golden"
	"firstbolt/cmd/firstbolt/internal/text"
)

func written(t *testing.T, a answer.Answer) string {
	t.Helper()
	var out bytes.Buffer
	if err := text.Write(&out, a); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func failure() *answer.Failure {
	f := &answer.Failure{Head: answer.NewHead("plan")}
	f.Error = &answer.Error{Code: answer.Sheets, Sentence: "The sheets cannot be used as they are."}
	for range 23 {
		f.Error.Complaints = append(f.Error.Complaints, answer.Complaint{
			Where: "parts.csv:14 (D14)", Wanted: "an amount", Text: `parts.csv:14 (D14): price: found "12,5O", want an amount such as 12.50`,
		})
	}
	return f
}

func mended() *answer.Plan {
	p := example.Plan()
	p.Decision, p.Sentence = "mend", "Mend this first: my hardtail is not safe to ride, and making it safe costs 41.90."
	p.Before = append(p.Before, answer.Before{Code: "unsafe", Kind: "unsafe", Text: "front tyre: unsafe.", Where: example.Of("fitted.csv:7 (D7)")})
	p.Mend = &answer.Mend{Least: example.Of(example.EUR(4190)), Receipt: p.Receipt[:1], Within: []string{"used hardtail U2"}}
	p.Buy, p.Receipt, p.OrderNow, p.Left, p.Switch, p.Rivals = nil, nil, answer.Order{}, nil, nil, nil
	p.Shed.Demo = true
	p.Proof = &answer.Proof{Engine: "builtin", Status: "stopped", Gap: example.Of(answer.Points(12000))}
	return p
}

func measuredFirst() *answer.Plan {
	p := example.Plan()
	p.OrderNow.Items = p.OrderNow.Items[:2]
	p.OrderNow.Total = example.EUR(9280)
	p.OrderAfterMeasuring = answer.Order{Items: []answer.OrderItem{{Step: 3, Part: "hydraulic disc brake pair H1", Cost: example.EUR(11990), Measure: []string{"frame: rotor limit"}}}, Total: example.EUR(11990)}
	p.Buy[2].Due = example.EUR(2000)
	p.Proof.ConfirmedBy, p.Proof.Unconfirmed = nil, example.Of("not confirmed in time")
	return p
}

func TestTextGoldens(t *testing.T) {
	t.Parallel()
	version := &answer.Versions{
		Head: answer.NewHead("version"), Go: "go1.26.0", Licence: "Apache-2.0",
		Engines: []answer.EngineInfo{{Name: "builtin", Says: "exact branch and bound", Licence: "Apache-2.0"}},
	}
	check := &answer.Check{Head: answer.NewHead("check"), Bikes: []string{"mine"}, Parts: 12}
	for name, a := range map[string]answer.Answer{
		"plan": example.Plan(), "plan-mend": mended(), "plan-measure": measuredFirst(), "failure": failure(), "version": version, "check": check,
		"fits": example.Fits(), "fits-one": example.FitsOne(), "measure": example.Measuring(), "measure-read": example.ReadBack(), "want": example.Want(),
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			golden.Compare(t, "testdata/"+name+".txt", []byte(written(t, a)))
		})
	}
}

func TestPlanIsReadableAt80Columns(t *testing.T) {
	t.Parallel()
	for _, a := range []answer.Answer{example.Plan(), mended(), measuredFirst(), example.Fits(), example.FitsOne(), example.Measuring(), example.ReadBack(), example.Want()} {
		for i, line := range strings.Split(written(t, a), "\n") {
			if n := utf8.RuneCountInString(line); n > 80 {
				t.Errorf("line %d is %d columns wide: %s", i+1, n, line)
			}
		}
	}
}

// What agreed words say to riders must be plain: none of the inside words may reach them.
func TestPagesUsePlainWords(t *testing.T) {
	t.Parallel()
	for _, a := range []answer.Answer{example.Plan(), example.Fits(), example.FitsOne(), example.Measuring(), example.ReadBack(), example.Want()} {
		page := strings.ToLower(written(t, a))
		for _, word := range []string{
			"retention", "traction", "frontier", "criterion", "robust", "optimal", "certified", "objective", "null",
			"company", "verdict", "doubt:", "both-sides", "measure_first", "does_not_fit", "pair_in", "at_most",
		} {
			if strings.Contains(page, word) {
				t.Errorf("%T says %q to a rider", a, word)
			}
		}
	}
}

func TestControlCharactersAreShownNotSent(t *testing.T) {
	t.Parallel()
	p := example.Plan()
	p.Buy[0].Part = "tyre \x1b[31mred\u202e"
	got := written(t, p)
	if strings.ContainsAny(got, "\x1b\u202e") || !strings.Contains(got, `tyre \x1b[31mred\u202e`) {
		t.Errorf("an escape sequence of a sheet reaches the terminal:\n%s", got)
	}
}
