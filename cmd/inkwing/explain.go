package main

import (
	"errors"

	"github.com/spf13/cobra"
)

func (t *tool) explainCommand() *cobra.Command {
	asJSON := false
	c := &cobra.Command{
		Use:   "explain [name]",
		Short: "Describe a function or a unit",
		RunE: func(c *cobra.Command, args []string) error {
			return errors.New("not here yet")
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	return c
}
