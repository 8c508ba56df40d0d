package main

import (
	"github.com/spf13/cobra"

	"firstbolt/cmd/firstbolt/internal/ask"
)

func (a *app) versionCommand() *cobra.Command {
	return &cobra.Command{
		Use: "version", Short: "version, commit, engines compiled in and their licences",
		Example: "  firstbolt version\n  firstbolt version --format json",
		Args:    noWords,
		RunE: func(*cobra.Command, []string) error {
			v, err := a.chosen(nil)
			if err != nil {
				return err
			}
			return a.write(ask.Version(), v)
		},
	}
}

// noWords accepts no argument.
func noWords(cmd *cobra.Command, args []string) error {
	if len(args) > 0 {
		return usage("firstbolt %s takes no further word, found %q", cmd.Name(), args[0])
	}
	return nil
}
