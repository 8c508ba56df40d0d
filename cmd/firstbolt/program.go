package main

import (
	"github.com/spf13/cobra"

	"firstbolt/cmd/firstbolt/internal/ask"
)

func (a *app) programCommand() *cobra.Command {
	var form string
	cmd := &cobra.Command{
		Use: "program [SHED]", Short: "the integer program as free MPS or LP text, for any solver",
		Example: "  firstbolt program --demo --budget 400 -o demo.mps\n  firstbolt program myshed --form lp",
		Args:    oneShed,
		RunE: func(cmd *cobra.Command, args []string) error {
			v, err := a.chosen(nil)
			if err != nil {
				return err
			}
			if err := oneOf("form", form, []string{"mps", "lp"}); err != nil {
				return err
			}
			r, err := a.request("program", args)
			if err != nil {
				return err
			}
			r.Form = form
			ans, err := ask.Program(cmd.Context(), r)
			if err != nil {
				return err
			}
			return a.write(ans, v)
		},
	}
	cmd.Flags().StringVar(&form, "form", "mps", "mps or lp")
	return cmd
}
