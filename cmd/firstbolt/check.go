package main

import (
	"github.com/spf13/cobra"

	"firstbolt/cmd/firstbolt/internal/ask"
)

func (a *app) checkCommand() *cobra.Command {
	return &cobra.Command{
		Use: "check [SHED]", Short: "reads the sheets and lists every problem by file and cell; works nothing out",
		Example: "  firstbolt check myshed\n  firstbolt check --demo",
		Args:    oneShed,
		RunE: func(_ *cobra.Command, args []string) error {
			v, err := a.chosen(nil)
			if err != nil {
				return err
			}
			r, err := a.request("check", args)
			if err != nil {
				return err
			}
			ans, err := ask.Check(r)
			if err != nil {
				return err
			}
			return a.write(ans, v)
		},
	}
}
