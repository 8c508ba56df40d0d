package ask

import (
	"testing"

	"firstbolt/cmd/firstbolt/internal/answer"
)

func TestDoing(t *testing.T) {
	t.Parallel()
	part := func(name string) answer.Step { return answer.Step{Kind: "part", Part: name} }
	work := answer.Step{Kind: "work", Part: "new cables"}
	for _, c := range []struct {
		steps []answer.Step
		want  string
	}{
		{[]answer.Step{part("grips")}, " and buy grips"},
		{[]answer.Step{part("tyre"), part("grips"), part("tyre")}, " and buy 2 x tyre and grips"},
		{[]answer.Step{part("a"), part("b"), part("c"), part("d")}, " and buy a, b, c and d"},
		{[]answer.Step{part("a"), part("b"), part("c"), part("d"), part("e"), part("a")}, " and buy the 6 parts below"},
		{[]answer.Step{work}, " and do the job below"},
		{[]answer.Step{work, part("grips"), work}, ", buy grips and do the 2 jobs below"},
	} {
		if got := doing(c.steps); got != c.want {
			t.Errorf("%+v: %q, want %q", c.steps, got, c.want)
		}
	}
}

func TestAsSentence(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]string{"": "", "mend it": "Mend it.", "Mend it.": "Mend it.", `did you mean "price"?`: `Did you mean "price"?`} {
		if got := asSentence(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
