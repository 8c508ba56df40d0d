package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/cmd/firstbolt/internal/ask"
)

func (a *app) measureCommand() *cobra.Command {
	var read string
	cmd := &cobra.Command{
		Use: "measure [SHED]", Short: "what to measure before ordering: a page with boxes to take to the shed; --read takes it back",
		Long: "Prints what the parts on your sheets wait for: by slot, with a box for each answer, how and with what it is measured.\n" +
			"--read FILE takes the filled page or sheet back into measured.csv of the shed; your other sheets are never touched.",
		Example: "  firstbolt measure myshed\n  firstbolt measure myshed -o page.csv\n  firstbolt measure myshed --read page.csv",
		Args:    oneShed,
		RunE: func(cmd *cobra.Command, args []string) error {
			v, err := a.chosen(map[string]view{"csv": measuredSheet})
			if err != nil {
				return err
			}
			r, err := a.request("measure", args)
			if err != nil {
				return err
			}
			if cmd.Flags().Changed("read") && strings.TrimSpace(read) == "" {
				return usage("--read is empty: give it the filled page, such as --read page.txt")
			}
			r.Read = read
			ans, err := ask.Measure(cmd.Context(), r)
			if err != nil {
				return err
			}
			return a.write(ans, v)
		},
	}
	cmd.Flags().StringVar(&read, "read", "", "the page or sheet with the answers filled in; - reads standard input")
	return cmd
}

// measuredSheet writes the questions as a sheet to fill in.
func measuredSheet(w io.Writer, ans answer.Answer) error {
	m, ok := ans.(*answer.Measuring)
	if !ok {
		return fmt.Errorf("no sheet of questions in %T", ans)
	}
	_, err := io.WriteString(w, m.Sheet)
	return err
}
