package present

import (
	"strconv"
	"strings"

	"inkwing/evaluate/report"
	"inkwing/evaluate/syntax"
)

// overviews puts the sheet in short into the blocks that ask for it.
func (p *presenter) overviews() {
	for _, stmt := range p.w.Program.Main.Statements() {
		x, ok := stmt.(*syntax.Overview)
		if !ok {
			continue
		}
		o := p.out.Overview()
		o.Summary = inShort(o)
		p.out.Blocks[x.Block].Overview = o
		for i := range p.out.Blocks {
			p.out.Blocks[i].Listed = true
		}
	}
}

// inShort counts what an overview holds.
func inShort(o *report.Overview) string {
	broken, waiting := 0, 0
	for _, l := range o.Limits {
		switch {
		case l.State != report.Evaluated:
			waiting++
		case !l.Holds:
			broken++
		}
	}
	parts := []string{limitsInShort(len(o.Limits), broken, waiting)}
	if n := len(o.Dangers); n > 0 {
		parts = append(parts, counted(n, "danger", "dangers"))
	}
	if n := len(o.Unworked); n > 0 {
		parts = append(parts, counted(n, "line", "lines")+" not worked")
	}
	return "In short: " + strings.Join(parts, "; ") + "."
}

func limitsInShort(all, broken, waiting int) string {
	var parts []string
	if broken > 0 {
		parts = append(parts, strconv.Itoa(broken)+" broken")
	}
	if waiting > 0 {
		parts = append(parts, strconv.Itoa(waiting)+" not worked")
	}
	switch {
	case all == 0:
		return "no limit is set"
	case len(parts) > 0:
		return "of " + counted(all, "limit", "limits") + " " + strings.Join(parts, ", ")
	case all == 1:
		return "the one limit is kept"
	}
	return "all " + strconv.Itoa(all) + " limits are kept"
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}
