package main

import (
	"bytes"
	"context"
	"fmt"
	"path"
	"regexp"
	"slices"

	"github.com/spf13/cobra"

	"inkwing/worksheet"
)

func (p *paths) changedFlag(c *cobra.Command) {
	c.Flags().StringVar(&p.changed, "changed", "", "of the worksheets named, work only those that changed since this revision in git, and those that use what changed")
}

// touched leaves of the targets those that differ from what git holds at a
// revision, or that use a file which does. Bytes are compared and nothing is asked
// of git but what it holds: git status would run what a repository configures.
func (t *tool) touched(ctx context.Context, rev string, f *finder) error {
	past := map[string]*since{} // by the root of the targets
	defer func() {
		for _, s := range past {
			s.rev.close()
		}
	}()
	var kept []*target
	for _, g := range f.found {
		if g.err != nil || g.isStdin() {
			kept = append(kept, g)
			continue
		}
		s, err := t.openSince(ctx, past, rev, g)
		if err != nil {
			return err
		}
		if s.touches(g.name) {
			kept = append(kept, g)
		}
		if ctx.Err() != nil {
			return ctx.Err()
		}
	}
	if n := len(f.found) - len(kept); n > 0 {
		t.err.printf("%s %s not touched since %s\n", t.err.dim("inkwing: note:"), count(n, "file", "files"), visible(rev))
	}
	f.found = kept
	return nil
}

func (t *tool) openSince(ctx context.Context, past map[string]*since, rev string, g *target) (*since, error) {
	if s, ok := past[g.base]; ok {
		return s, nil
	}
	r, err := openRevision(ctx, g.base, rev)
	if err != nil {
		return nil, trouble{fmt.Errorf("what changed is not known: %w", err), "--changed wants a revision of the git repository that holds the worksheets, such as HEAD~1"}
	}
	past[g.base] = &since{rev: r, now: g.folder, differ: map[string]bool{}}
	return past[g.base], nil
}

// since compares the files of a folder with what they were.
type since struct {
	rev    *revision
	now    folder
	differ map[string]bool // asked before
}

// differs reports whether a file is not what it was.
func (s *since) differs(name string) bool {
	if known, ok := s.differ[name]; ok {
		return known
	}
	now, err := s.now.Read(name)
	was, err2 := s.rev.Read(name)
	s.differ[name] = err != nil || err2 != nil || !bytes.Equal(now, was)
	return s.differ[name]
}

// shownChart is a chart that a page shows.
var shownChart = regexp.MustCompile(`\]\(<?([^)>\n]+\.svg)>?\)`)

// touches reports whether a worksheet, a chart that it shows or a file that it may
// use is not what it was.
func (s *since) touches(name string) bool {
	if s.differs(name) || worksheet.MayUse(s.now, name, s.differs) {
		return true
	}
	text, err := s.now.Read(name)
	return err != nil || slices.ContainsFunc(shownChart.FindAllSubmatch(text, -1), func(m [][]byte) bool {
		chart := path.Join(path.Dir(name), string(m[1]))
		return path.Dir(chart) == worksheet.ChartFolder(name) && s.differs(chart)
	})
}
