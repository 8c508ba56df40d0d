//go:build !lpsolve || !cgo

package lpsolve

import "firstbolt/solver/program"

// Available tells whether this build holds lp_solve.
func Available() bool { return false }

func run(*program.Linear, int) (code int, values []float64, err error) {
	return 0, nil, ErrUnavailable
}
