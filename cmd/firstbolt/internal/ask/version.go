package ask

import (
	"runtime"
	"runtime/debug"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/solver/lpsolve"
)

// Version says what this binary is made of.
func Version() *answer.Versions {
	v := &answer.Versions{
		Head: answer.NewHead("version"), Go: runtime.Version(), Licence: "Apache-2.0",
		Engines: []answer.EngineInfo{{Name: "builtin", Says: "exact branch and bound in whole numbers, pure Go", Licence: "Apache-2.0"}},
	}
	if lpsolve.Available() {
		v.Engines = append(v.Engines, answer.EngineInfo{Name: "lpsolve", Says: "lp_solve 5.5 through golp (MIT), run in a child process", Licence: "LGPL-2.1-or-later"})
	} else {
		v.Notes = append(v.Notes, "lp_solve is not built in, so no second method confirms answers; ./dev build adds it where it is to be had.")
	}
	v.Commit = some(answer.Commit)
	if info, ok := debug.ReadBuildInfo(); ok && v.Commit == nil {
		for _, s := range info.Settings {
			if s.Key == "vcs.revision" {
				v.Commit = some(s.Value)
			}
		}
	}
	return v
}
