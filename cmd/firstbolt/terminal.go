package main

import (
	"os"

	"golang.org/x/term"
)

// terminal tells whether standard error is a terminal, where progress may be shown.
func (a *app) terminal() bool {
	f, ok := a.err.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

// asks tells whether standard input is a terminal, where questions may be asked.
func (a *app) asks() bool {
	f, ok := a.in.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}
