//go:build manual

package main

import (
	"os"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
)

// The man pages are made at release time only (./dev release), so that the binary need not carry their writer.
func init() {
	extra = append(extra, func(a *app) *cobra.Command {
		return &cobra.Command{
			Use: "manual DIR", Hidden: true, Args: cobra.ExactArgs(1),
			RunE: func(_ *cobra.Command, args []string) error {
				if err := os.MkdirAll(args[0], 0o755); err != nil {
					return err
				}
				return doc.GenManTree(a.root, &doc.GenManHeader{Title: "FIRSTBOLT", Section: "1"}, args[0])
			},
		}
	})
}
