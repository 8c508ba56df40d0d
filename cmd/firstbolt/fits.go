package main

import (
	"os"
	"strings"

	"github.com/spf13/cobra"

	"firstbolt/cmd/firstbolt/internal/ask"
)

func (a *app) fitsCommand() *cobra.Command {
	var part string
	var allow []string
	cmd := &cobra.Command{
		Use: "fits [PART] [SHED]", Short: "what fits the bike, what goes with it, and what does not fit and why",
		Long: "Lists every part by slot with its verdict, or says of one part all that was checked, value by value.\n" +
			"A single word that is a folder or a file, or holds a slash, is the shed; any other is the part.",
		Example: "  firstbolt fits --demo\n  firstbolt fits \"air fork K3\" --demo\n  firstbolt fits K3 myshed\n  firstbolt fits myshed --bike \"used hardtail U1\"",
		Args:    wordAndShed("part"),
		RunE: func(cmd *cobra.Command, args []string) error {
			v, err := a.chosen(nil)
			if err != nil {
				return err
			}
			word, rest := a.wordOf(args, cmd.Flags().Changed("part"))
			r, err := a.request("fits", rest)
			if err != nil {
				return err
			}
			if cmd.Flags().Changed("part") {
				if word != "" {
					return usage("--part names the part already, so %q is one too many", word)
				}
				if word = part; strings.TrimSpace(part) == "" {
					return usage("--part is empty: give it the name of a part, or leave it out")
				}
			}
			r.Part, r.Allow = word, allow
			ans, err := ask.Fits(cmd.Context(), r)
			if err != nil {
				return err
			}
			return a.write(ans, v)
		},
	}
	cmd.Flags().StringVar(&part, "part", "", "the part by name or id, where it could be taken for a folder")
	cmd.Flags().StringSliceVar(&allow, "allow", nil, "a fit rule on which practice disagrees, by its name; danger rules cannot be allowed")
	return cmd
}

// wordAndShed accepts at most a word of the command's own and the shed.
func wordAndShed(what string) cobra.PositionalArgs {
	return func(_ *cobra.Command, args []string) error {
		if len(args) > 2 {
			return usage("one %s and one shed at a time: found %d words; a name with spaces needs quotes", what, len(args))
		}
		return nil
	}
}

// wordOf takes the command's own word from its arguments and leaves the shed. A single word is the shed where it looks
// like one and no demo is asked for; named tells that a flag gave the word already.
func (a *app) wordOf(args []string, named bool) (word string, shed []string) {
	switch {
	case len(args) == 0 || named && len(args) == 1:
		return "", args
	case len(args) == 2 || a.flags.demo || !isShed(args[0]):
		return args[0], args[1:]
	default:
		return "", args
	}
}

// isShed tells whether a word is a shed rather than a name.
func isShed(word string) bool {
	if word == "-" || strings.ContainsAny(word, `/\`) {
		return true
	}
	_, err := os.Stat(word)
	return err == nil
}
