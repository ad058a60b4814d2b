//go:build manuals

package main

import (
	"os"
	"strconv"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
)

// Manual pages are written when a release is made: a program that is handed out
// has no use for what writes them.
func init() {
	further = append(further, func(t *tool) *cobra.Command {
		return &cobra.Command{Use: "manuals folder", Hidden: true, Args: cobra.ExactArgs(1), RunE: manuals}
	})
}

// manuals writes a page a command, of the date that the environment gives: the
// commit's.
func manuals(c *cobra.Command, args []string) error {
	seconds, err := strconv.ParseInt(os.Getenv("SOURCE_DATE_EPOCH"), 10, 64)
	if err != nil {
		return err
	}
	date := time.Unix(seconds, 0).UTC()
	root := c.Root()
	root.DisableAutoGenTag = true
	root.InitDefaultCompletionCmd()
	return doc.GenManTree(root, &doc.GenManHeader{Section: "1", Date: &date, Source: "inkwing", Manual: "inkwing"}, args[0])
}
