package main

import (
	"github.com/spf13/cobra"

	"firstbolt/cmd/firstbolt/internal/ask"
)

func (a *app) schemaCommand() *cobra.Command {
	var tables bool
	cmd := &cobra.Command{
		Use: "schema [SHEET]", Short: "the columns of the sheets, and the kinds, slots, facts and likes that are known",
		Long: "Lists the columns of the sheets, as text or (--format json) as Table Schema.\n" +
			"With kinds, slots, facts, likes, criteria or profiles also every name that is known, and what it takes for granted.",
		Example: "  firstbolt schema parts\n  firstbolt schema kinds\n  firstbolt schema --format json",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 {
				return usage("one sheet at a time, or none for all: found %q and more", args[0])
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			v, err := a.chosen(nil)
			if err != nil {
				return err
			}
			sheet := ""
			if len(args) > 0 {
				sheet = args[0]
			}
			ans, err := ask.Schema(sheet, tables)
			if err != nil {
				return err
			}
			return a.write(ans, v)
		},
	}
	cmd.Flags().BoolVar(&tables, "all", false, "also the tables that a mechanic may add to: rules, facts, kinds, jobs ...")
	return cmd
}
