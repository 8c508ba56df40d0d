package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/cmd/firstbolt/internal/ask"
)

// app is one run of the command line.
type app struct {
	in       io.Reader
	out, err io.Writer
	root     *cobra.Command
	flags    flags
	code     int // exit code of the answer that was written
}

// flags are the flags that all commands share, as typed.
type flags struct {
	demo      bool
	settings  map[string]*string // rider settings by their name in rider.csv
	bike      string
	decimal   string
	sheets    map[string]string
	format    string
	output    string
	engine    string
	strict    bool
	timeLimit time.Duration
	color     string
	quiet     bool
	verbose   bool
}

// settingFlags are the flags that stand for a setting of rider.csv, and win over it.
var settingFlags = []struct{ name, says string }{
	{"budget", "most that may be spent, such as 120 or 120.50"},
	{"currency", "ISO 4217 code of all prices, such as EUR"},
	{"priorities", `what you care about in points, such as "braking=5; grip=3"`},
	{"ranking", `what you care about, most first, such as "braking > grip > chain stays on"`},
	{"profile", "a ready-made set of priorities by its name"},
	{"work", "who does the work: self or shop"},
	{"worth", "points that 100 of money must bring to be spent (default 0.5)"},
}

const about = `firstbolt tells you what to buy first for an inexpensive mountain bike, what each
part truly costs and brings on that bike, and from which budget another complete
bike is better. It reads your own spreadsheets and proves its answer.
Nothing is ever sent over a network.`

const examples = `  firstbolt plan --demo     the plan of an invented shed, to see what it looks like
  firstbolt start myshed    nine questions, then sheets to fill in`

// usageError is wrong use of the command line.
type usageError struct{ text string }

func (e usageError) Error() string { return e.text }

func usage(format string, args ...any) error { return usageError{fmt.Sprintf(format, args...)} }

// run runs one command line and returns its exit code.
func (a *app) run(ctx context.Context, args []string) int {
	a.root = a.command()
	a.root.SetArgs(args)
	a.root.SetIn(a.in)
	a.root.SetOut(a.out)
	a.root.SetErr(a.err)
	err := a.root.ExecuteContext(ctx)
	if err == nil {
		return a.code
	}
	fmt.Fprintf(a.err, "firstbolt: %v\n", err)
	var wrong usageError
	if errors.As(err, &wrong) || ask.WrongUse(err) {
		return answer.ExitUsage
	}
	return 4
}

// command is the whole tree of commands.
func (a *app) command() *cobra.Command {
	root := &cobra.Command{
		Use: "firstbolt", Short: "what to buy first for an inexpensive bike, and when to buy another one",
		Long: about, Example: examples,
		Args: a.noSuchCommand, RunE: a.shortHelp,
		SilenceUsage: true, SilenceErrors: true, DisableSuggestions: true,
	}
	root.SetFlagErrorFunc(a.flagError)
	root.SetHelpFunc(ownHelp(root.HelpFunc()))
	a.commonFlags(root.PersistentFlags())
	root.AddCommand(a.planCommand(), a.fitsCommand(), a.wantCommand(), a.measureCommand(), a.checkCommand(), a.startCommand(), a.schemaCommand(), a.programCommand(), a.versionCommand())
	for _, command := range extra {
		root.AddCommand(command(a))
	}
	return root
}

// extra are commands of special builds (manual.go).
var extra []func(*app) *cobra.Command

func (a *app) commonFlags(f *pflag.FlagSet) {
	f.SortFlags = false
	f.BoolVar(&a.flags.demo, "demo", false, "use the embedded demo shed")
	a.flags.settings = map[string]*string{}
	for _, s := range settingFlags {
		a.flags.settings[s.name] = f.String(s.name, "", s.says)
	}
	f.StringVar(&a.flags.bike, "bike", "", "the bike to plan for (default: your own)")
	f.StringVar(&a.flags.decimal, "decimal", "", "decimal mark in the sheets: comma or point (default: found out per column)")
	f.StringToStringVar(&a.flags.sheets, "sheet", nil, "read a sheet from another file: NAME=FILE, such as parts=offers.csv")
	f.StringVar(&a.flags.format, "format", "", "text or json (default: by the ending of -o, else text)")
	f.StringVarP(&a.flags.output, "output", "o", "", "write the answer to FILE")
	f.StringVar(&a.flags.engine, "engine", "auto", "who leads: auto, builtin or lpsolve")
	f.BoolVar(&a.flags.strict, "strict", false, "fail when two engines disagree")
	f.DurationVar(&a.flags.timeLimit, "time-limit", 2*time.Minute, "stop after this time with the best plan so far, such as 30s (0 = no limit)")
	f.StringVar(&a.flags.color, "color", "auto", "auto, always or never; answers have no colour so far, so all three are alike")
	f.BoolVarP(&a.flags.quiet, "quiet", "q", false, "nothing on standard error but errors")
	f.BoolVarP(&a.flags.verbose, "verbose", "v", false, "say more, such as the time taken")
}

// shortHelp is what `firstbolt` alone prints.
func (a *app) shortHelp(*cobra.Command, []string) error {
	_, err := fmt.Fprintf(a.out, "%s\n\n%s\n\nAll commands and flags: firstbolt --help\n", about, examples)
	return err
}

// request is what the common flags and arguments ask for.
func (a *app) request(command string, args []string) (ask.Request, error) {
	r := ask.Request{
		Command: command, Path: ".", Demo: a.flags.demo, Input: a.in, Bike: a.flags.bike,
		Decimal: a.flags.decimal, Sheets: a.flags.sheets, Engine: a.flags.engine, Strict: a.flags.strict,
		TimeLimit: a.flags.timeLimit, Timed: a.flags.verbose,
	}
	if len(args) > 0 {
		r.Path = args[0]
		if a.flags.demo {
			return r, usage("--demo uses the embedded shed, so %q cannot be read as well; leave one of them out", args[0])
		}
	}
	for _, s := range settingFlags {
		if a.root.PersistentFlags().Changed(s.name) {
			if strings.TrimSpace(*a.flags.settings[s.name]) == "" {
				return r, usage("--%s is empty: give it a value, or leave it out", s.name)
			}
			r.Settings = append(r.Settings, ask.Setting{Name: s.name, Value: *a.flags.settings[s.name]})
		}
	}
	for _, c := range []struct {
		flag, value string
		known       []string
	}{
		{"engine", a.flags.engine, []string{"auto", "builtin", "lpsolve"}},
		{"color", a.flags.color, []string{"auto", "always", "never"}},
		{"decimal", a.flags.decimal, []string{"", "comma", "point"}},
	} {
		if err := oneOf(c.flag, c.value, c.known); err != nil {
			return r, err
		}
	}
	if a.flags.timeLimit < 0 {
		return r, usage("--time-limit: found %s, want a time such as 30s, or 0 for no limit", a.flags.timeLimit)
	}
	return r, nil
}
