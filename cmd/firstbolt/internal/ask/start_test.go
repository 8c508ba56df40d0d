package ask_test

import (
	"path/filepath"
	"strings"
	"testing"

	"firstbolt/cmd/firstbolt/internal/ask"
	"firstbolt/datasets"
)

// On a terminal the typical bikes are listed once with numbers; a number is an answer, and a miss costs one line.
func TestStartByNumber(t *testing.T) {
	t.Parallel()
	likes := datasets.Questions()[0].Choices
	dir := filepath.Join(t.TempDir(), "shed")
	var shown strings.Builder
	_, err := ask.Start(ask.StartRequest{
		Dir: dir, Answers: map[string]string{}, Input: strings.NewReader("77\nhybird\n2\n3\n85\n120\n30\nself\n\n60\nyes\n"),
		Ask: func(text string) { shown.WriteString(text) },
	})
	if err != nil {
		t.Fatalf("%v after\n%s", err, shown.String())
	}
	shed, _, err := datasets.Load(dir, datasets.Options{})
	if err != nil || shed.OwnBike().Like != likes[1] {
		t.Errorf("got %+v, %v; want a bike like %q", shed, err, likes[1])
	}
	if n := strings.Count(shown.String(), likes[3]); n != 1 {
		t.Errorf("%q is shown %d times, want once:\n%s", likes[3], n, shown.String())
	}
	for _, line := range strings.Split(shown.String(), "\n") {
		if strings.Contains(line, "found") && len(line) > 160 {
			t.Errorf("a miss is answered with %q", line)
		}
	}
}
