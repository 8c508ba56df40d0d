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

// piped tells whether standard input is a pipe or a file with something in it for firstbolt to read.
func (a *app) piped() bool {
	f, ok := a.in.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && (info.Mode()&os.ModeNamedPipe != 0 || info.Mode().IsRegular() && info.Size() > 0)
}
