package main

import (
	"path/filepath"
	"strings"

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
			if f := a.flags.format; f == "mps" || f == "lp" {
				return usage("--format %s: the form of the program has a flag of its own; say --form %s", f, f)
			}
			if !cmd.Flags().Changed("form") && strings.EqualFold(filepath.Ext(a.flags.output), ".lp") {
				form = "lp"
			}
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
	cmd.Flags().StringVar(&form, "form", "mps", "mps or lp (default: by the ending of -o, else mps)")
	return cmd
}
