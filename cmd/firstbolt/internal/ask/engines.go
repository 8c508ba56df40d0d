package ask

import (
	"firstbolt/solver/builtin"
	"firstbolt/solver/lpsolve"
	"firstbolt/solver/program"
)

// engines are who leads and who confirms (nil for nobody). Our own engine is the truth and leads; lp_solve confirms
// wherever it is compiled in.
func engines(name string) (lead, confirm program.Engine, err error) {
	own := builtin.New(builtin.Options{})
	switch {
	case name == "builtin" || name != "lpsolve" && !lpsolve.Available():
		return own, nil, nil
	case name == "lpsolve" && !lpsolve.Available():
		return nil, nil, wrong{"--engine lpsolve: " + lpsolve.ErrUnavailable.Error()}
	case name == "lpsolve":
		return lpsolve.Engine{}, own, nil
	default:
		return own, lpsolve.Engine{}, nil
	}
}

// unconfirmed says why there is no second opinion.
func unconfirmed(engine, said string) string {
	switch {
	case said != "":
		return said
	case engine == "builtin":
		return "--engine builtin asks for one method only"
	default:
		return "lp_solve is not built into this binary"
	}
}
