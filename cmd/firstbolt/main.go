// Command firstbolt tells a rider with an inexpensive bike and little money what to buy first, and when to stop and buy
// another bike. README.md shows how; `firstbolt --help` lists the commands.
package main

import (
	"context"
	"os"
	"os/signal"

	"firstbolt/solver/child"
)

func main() {
	// A confirming engine runs in a child of this very binary, which must become that child before anything else.
	child.Serve()
	os.Exit(run(os.Args[1:]))
}

// run runs one command line and returns its exit code. The first Ctrl-C asks for the best plan so far, the second ends.
func run(args []string) int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	context.AfterFunc(ctx, stop)
	a := &app{in: os.Stdin, out: os.Stdout, err: os.Stderr}
	return a.run(ctx, args)
}
