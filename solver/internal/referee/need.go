package referee

import (
	"os"
	"testing"
)

// Need gives the installed referees. One that is missing fails the test under CI=true; otherwise it is logged, and the
// test is skipped when none is there.
func Need(t testing.TB) []Referee {
	t.Helper()
	var installed []Referee
	for _, r := range All() {
		switch {
		case r.Installed():
			installed = append(installed, r)
		case os.Getenv("CI") == "true":
			t.Errorf("%s is not installed (package %s), and under CI=true no referee may be missing", r.command, r.install)
		default:
			t.Logf("%s is not installed (package %s): this test goes on without it", r.command, r.install)
		}
	}
	if len(installed) == 0 {
		t.Skip("no outside solver is installed")
	}
	return installed
}
