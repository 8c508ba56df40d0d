package child

import (
	"errors"
	"testing"
)

// Not parallel: it takes back for a moment what Serve noted. Parallel tests start when all others are done.
func TestWithoutServeNoChildIsStarted(t *testing.T) {
	served.Store(false)
	defer served.Store(true)
	if _, err := (Engine{Of: "first"}).Solve(t.Context(), question()); !errors.Is(err, ErrNotServed) {
		t.Errorf("error %v, want %v", err, ErrNotServed)
	}
}
