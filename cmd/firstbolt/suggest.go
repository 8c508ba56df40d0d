package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/agnivade/levenshtein"
	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// noSuchCommand refuses words after `firstbolt` that are no command, and names the nearest one.
func (a *app) noSuchCommand(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	var names []string
	for _, c := range cmd.Commands() {
		if c.IsAvailableCommand() {
			names = append(names, c.Name())
		}
	}
	return usage("there is no command %q%s (firstbolt --help lists all)", args[0], didYouMean(args[0], names))
}

// flagError names the nearest flag where one is not known; cobra itself does so for commands only.
func (a *app) flagError(cmd *cobra.Command, err error) error {
	if words := cmd.Flags().Args(); cmd == a.root && len(words) > 0 {
		return a.noSuchCommand(cmd, words)
	}
	var wrong *pflag.InvalidValueError
	if errors.As(err, &wrong) {
		return usage("--%s: found %q, want %s", wrong.GetFlag().Name, wrong.GetValue(), wantedBy(wrong.GetFlag()))
	}
	var unknown *pflag.NotExistError
	if !errors.As(err, &unknown) {
		return usage("%v (firstbolt %s--help explains the flags)", err, path(cmd))
	}
	var names []string
	cmd.Flags().VisitAll(func(f *pflag.Flag) { names = append(names, f.Name) })
	name := unknown.GetSpecifiedName()
	if unknown.GetSpecifiedShortnames() != "" {
		return usage("there is no flag -%s (firstbolt %s--help lists all)", name, path(cmd))
	}
	guess := nearest(name, names)
	if guess != "" {
		guess = fmt.Sprintf("; did you mean --%s?", guess)
	}
	return usage("there is no flag --%s%s (firstbolt %s--help lists all)", name, guess, path(cmd))
}

// wantedBy says what a flag takes.
func wantedBy(f *pflag.Flag) string {
	switch f.Value.Type() {
	case "duration":
		return "a time such as 30s or 2m"
	case "int":
		return "a whole number such as 3"
	case "bool":
		return "true or false, or nothing behind the flag"
	case "stringToString":
		return "NAME=FILE, such as parts=offers.csv"
	default:
		return f.Usage
	}
}

// path is the command's name with a space behind it, empty for the root.
func path(cmd *cobra.Command) string {
	if !cmd.HasParent() {
		return ""
	}
	return cmd.Name() + " "
}

// oneOf refuses a flag's value that is none of the known ones.
func oneOf(flag, value string, known []string) error {
	if slices.Contains(known, value) {
		return nil
	}
	named := slices.DeleteFunc(slices.Clone(known), func(k string) bool { return k == "" })
	return usage("--%s: found %q, want %s%s", flag, value, strings.Join(named, ", "), didYouMean(value, named))
}

func didYouMean(name string, known []string) string {
	if guess := nearest(name, known); guess != "" {
		return fmt.Sprintf("; did you mean %q?", guess)
	}
	return ""
}

// nearest is the known name with the fewest changed letters, where that is less than half of them; else empty.
func nearest(name string, known []string) string {
	best, least := "", len(name)/2+1
	for _, k := range known {
		if d := levenshtein.ComputeDistance(strings.ToLower(name), k); d < least {
			best, least = k, d
		}
	}
	return best
}
