//go:build manual

package main

import (
	"os"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"

	"firstbolt/cmd/firstbolt/internal/answer"
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
				a.root.DisableAutoGenTag = true
				return doc.GenManTree(a.root, &doc.GenManHeader{Section: "1", Source: "firstbolt " + answer.Version}, args[0])
			},
		}
	})
}
