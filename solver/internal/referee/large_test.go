//go:build lpsolve && cgo

package referee_test

import (
	"context"
	"errors"
	"slices"
	"testing"

	"firstbolt/solver/internal/published"
	"firstbolt/solver/lpsolve"
)

// p08 weighs more than six million: lp_solve's tolerance would let it overload the sack by one, so it must decline.
func TestRefereeTooLargeIsDeclined(t *testing.T) {
	t.Parallel()
	cases, err := published.Cases()
	if err != nil {
		t.Fatal(err)
	}
	// The sizes are looked at first; an ended context keeps it from solving what it accepts.
	ended, end := context.WithCancel(t.Context())
	end()
	var declined []string
	for _, c := range cases {
		_, err := lpsolve.Engine{InProcess: true}.Solve(ended, c.Program)
		if large := (*lpsolve.TooLargeError)(nil); errors.As(err, &large) {
			declined = append(declined, c.ID)
		}
	}
	if !slices.Equal(declined, []string{"kp_p08"}) {
		t.Errorf("lp_solve declined %v, want kp_p08 alone", declined)
	}
}
