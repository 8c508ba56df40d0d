package main

import (
	"slices"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// written are the common flags of every command: how its answer is written.
var written = []string{"format", "output", "color", "quiet"}

// readers are the common flags that commands have on top; plan has them all.
var readers = map[string][]string{
	"check":   {"demo", "budget", "currency", "priorities", "ranking", "profile", "work", "worth", "decimal", "sheet"},
	"program": {"demo", "budget", "currency", "priorities", "ranking", "profile", "work", "worth", "decimal", "sheet", "bike"},
	"fits":    {"demo", "currency", "work", "decimal", "sheet", "bike", "engine", "time-limit"},
	"want":    {"demo", "currency", "decimal", "sheet", "bike"},
	"measure": {"demo", "currency", "work", "decimal", "sheet", "bike", "engine", "time-limit"},
	"start":   {"budget", "currency", "ranking", "work"},
	"schema":  {},
	"version": {},
}

// ownHelp is the help of a command without the common flags that do nothing there.
func ownHelp(help func(*cobra.Command, []string)) func(*cobra.Command, []string) {
	return func(cmd *cobra.Command, args []string) {
		if own, limited := readers[cmd.Name()]; limited && cmd.HasParent() {
			cmd.InheritedFlags().VisitAll(func(f *pflag.Flag) {
				f.Hidden = !slices.Contains(own, f.Name) && !slices.Contains(written, f.Name)
			})
		}
		help(cmd, args)
	}
}
