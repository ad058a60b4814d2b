package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"inkwing/worksheet/handbook"
)

// writeHandbook writes the library as pages into a folder.
func (p *pager) writeHandbook(ctx context.Context, args []string) error {
	if len(args) > 0 {
		return trouble{errors.New("the handbook is of no worksheet"), "inkwing page --handbook -o " + args[0] + " writes it into that folder"}
	}
	to := p.output
	if to == "-" {
		return trouble{errors.New("the handbook is many pages"), "name a folder with -o"}
	}
	if strings.EqualFold(filepath.Ext(to), ".html") {
		return trouble{fmt.Errorf("the handbook is many pages, and %s is the name of one", to), "name a folder with -o"}
	}
	if to == "" {
		to = "handbook"
	}
	for _, f := range handbook.Pages(ctx) {
		if err := p.write(ctx, filepath.Join(to, f.Name), f.Text); err != nil {
			return err
		}
	}
	return p.show(filepath.Join(to, "index.html"))
}
