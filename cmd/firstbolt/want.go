package main

import (
	"strings"

	"github.com/spf13/cobra"

	"firstbolt/cmd/firstbolt/internal/ask"
)

func (a *app) wantCommand() *cobra.Command {
	var allow []string
	cmd := &cobra.Command{
		Use: "want SLOT [SHED]", Short: "what to look for: the facts a part must have to fit this bike, and the traps",
		Long: "Says what a part must have to stand in one place of the bike, and because of which cell, for reading adverts with.\n" +
			"SLOT is a place such as \"front tyre\" (firstbolt schema slots lists them), or a kind that goes in one place only.",
		Example: "  firstbolt want \"front tyre\" myshed\n  firstbolt want fork --demo",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usage("firstbolt want needs the name of a place, such as: firstbolt want \"front tyre\"")
			}
			if _, rest := slotAndShed(args); len(rest) > 1 {
				return usage("one place and one shed at a time: found %d words; a name with spaces needs quotes", len(args))
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			v, err := a.chosen(nil)
			if err != nil {
				return err
			}
			slot, rest := slotAndShed(args)
			r, err := a.request("want", rest)
			if err != nil {
				return err
			}
			r.Slot, r.Allow = slot, allow
			ans, err := ask.Want(r)
			if err != nil {
				return err
			}
			return a.write(ans, v)
		},
	}
	cmd.Flags().StringSliceVar(&allow, "allow", nil, "a fit rule on which practice disagrees, by its name; danger rules cannot be allowed")
	return cmd
}

// slotAndShed takes the place from the words of the command line, also where it was typed without quotes.
func slotAndShed(args []string) (slot string, shed []string) {
	for n := len(args); n > 1; n-- {
		if words := strings.Join(args[:n], " "); ask.IsSlot(words) {
			return words, args[n:]
		}
	}
	return args[0], args[1:]
}
