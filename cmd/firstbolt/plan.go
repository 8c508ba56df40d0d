package main

import (
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"firstbolt/cmd/firstbolt/internal/ask"
)

func (a *app) planCommand() *cobra.Command {
	var sure bool
	var most int
	var allow []string
	cmd := &cobra.Command{
		Use: "plan [SHED]", Short: "the best set to buy for one budget, and whether to stay with the bike at all",
		Example: "  firstbolt plan --demo --budget 120\n  firstbolt plan myshed --format json",
		Args:    oneShed,
		RunE: func(cmd *cobra.Command, args []string) error {
			v, err := a.chosen(nil)
			if err != nil {
				return err
			}
			r, err := a.request("plan", args)
			if err != nil {
				return err
			}
			if most < 0 {
				return usage("--most: found %d, want the most purchases, 0 for no limit", most)
			}
			r.Sure, r.Most, r.Allow = sure, most, allow
			done := a.waiting()
			ans, err := ask.Plan(cmd.Context(), r)
			done()
			if err != nil {
				return err
			}
			return a.write(ans, v)
		},
	}
	cmd.Flags().BoolVar(&sure, "sure", false, "leave out what must be measured before it is ordered")
	cmd.Flags().IntVar(&most, "most", 0, "most purchases (0 = no limit)")
	cmd.Flags().StringSliceVar(&allow, "allow", nil, "a fit rule on which practice disagrees, by its name; danger rules cannot be allowed")
	return cmd
}

// oneShed accepts at most one argument, the shed.
func oneShed(_ *cobra.Command, args []string) error {
	if len(args) > 1 {
		return usage("one shed at a time: found %d (%q and more); a folder name with spaces needs quotes", len(args), args[1])
	}
	return nil
}

// waiting says on a terminal that work goes on, every second; what it returns ends it.
func (a *app) waiting() func() {
	if a.flags.quiet || !a.terminal() {
		return func() {}
	}
	over, gone := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(gone)
		tick := time.NewTicker(time.Second)
		defer tick.Stop()
		for n := 1; ; n++ {
			select {
			case <-over:
				if n > 1 {
					fmt.Fprintln(a.err)
				}
				return
			case <-tick.C:
				fmt.Fprintf(a.err, "\rfirstbolt: still proving that nothing better exists, %d s; Ctrl-C gives the best plan so far", n)
			}
		}
	}()
	return func() {
		close(over)
		<-gone
	}
}
