package main

import (
	"fmt"
	"maps"
	"strings"

	"github.com/spf13/cobra"

	"firstbolt/cmd/firstbolt/internal/ask"
)

func (a *app) startCommand() *cobra.Command {
	answers := map[string]*string{}
	cmd := &cobra.Command{
		Use: "start DIR", Short: "asks nine questions and writes sheets to fill in, never over existing files",
		Long: "Asks nine questions on a terminal; elsewhere the flags answer them, and what is not answered stays an empty cell.\n" +
			"Writes into DIR: " + strings.Join(ask.StartWrites(), ", ") + ".",
		Example: "  firstbolt start myshed\n  firstbolt start myshed --like \"store hardtail cable disc 3x7\" --budget 120 --rider-kg 85",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) != 1 {
				return usage("firstbolt start needs the name of one folder, such as: firstbolt start myshed")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			v, err := a.chosen(nil)
			if err != nil {
				return err
			}
			r, err := a.startRequest(cmd, args[0], answers)
			if err != nil {
				return err
			}
			ans, err := ask.Start(r)
			if err != nil {
				return err
			}
			return a.write(ans, v)
		},
	}
	for _, q := range ask.Questions() {
		if a.flags.settings[q.Setting] == nil {
			answers[q.Setting] = cmd.Flags().String(q.Flag, "", q.Says)
		}
	}
	return cmd
}

// startRequest gathers the answers given by flags; on a terminal the others are asked for.
func (a *app) startRequest(cmd *cobra.Command, dir string, answers map[string]*string) (ask.StartRequest, error) {
	r := ask.StartRequest{Dir: dir, Answers: map[string]string{}}
	if a.flags.demo {
		return r, usage("start writes sheets of your own; --demo is for the commands that read them")
	}
	settings := maps.Clone(a.flags.settings)
	maps.Copy(settings, answers)
	for setting, value := range settings {
		if cmd.Flags().Changed(strings.ReplaceAll(setting, "_", "-")) {
			r.Answers[setting] = *value
		}
	}
	if a.asks() {
		r.Ask = func(text string) { fmt.Fprint(a.err, text) }
		r.Input = a.in
	}
	r.Unread = a.piped()
	return r, nil
}
