//go:build !lpsolve || !cgo

package lpsolve

import (
	"errors"
	"testing"
)

func TestWithoutLPSolveItSaysSo(t *testing.T) {
	t.Parallel()
	if Available() {
		t.Error("lp_solve is said to be here without its build tag")
	}
	if _, err := (Engine{}).Solve(t.Context(), sack(1)); !errors.Is(err, ErrUnavailable) {
		t.Errorf("error %v, want %v", err, ErrUnavailable)
	}
}
