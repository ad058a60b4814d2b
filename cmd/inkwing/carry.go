package main

import (
	"context"
	"errors"
	"html"
	"strings"

	"inkwing/worksheet/living"
	"inkwing/worksheet/packing"
	"inkwing/worksheet/page"
)

// A madePage is a page with its sources.
type madePage struct {
	*page.Page
	pack   *packing.Pack
	misses error // why it cannot carry them
}

// noList is for a page that no list of pages leads to; else it is how many folders
// below that list the page lies.
const noList = -1

// document is the file of a page, with what it carries.
func (p *pager) document(ctx context.Context, made *madePage, name string, up int) ([]byte, error) {
	carried, err := "", made.misses
	made.pack.Made, made.pack.Up = built(), max(up, 0)
	if !p.bare && err == nil {
		carried, err = made.pack.HTML()
	}
	if err != nil {
		p.err.printf("%s %s carries no sources, since it %s\n", p.err.dim("inkwing: note:"), visible(name), visible(err.Error()))
	}
	with := p.engine(carried != "")
	return assembled(ctx, made.Page, made.pack, carried, with, up)
}

// engine is the evaluator that the page is to carry, nil for none. Where one is
// wanted and not to be had, the page is one to be read, which is said once.
func (p *pager) engine(hasSources bool) *living.Engine {
	if !p.live {
		return nil
	}
	with := engine()
	switch {
	case with == nil:
		p.live = false
		p.complain(trouble{errors.New("this program was built without the evaluator that --live puts in: the page is one to be read"),
			"build one with it: .ci/evaluator && go build -tags live ./cmd/inkwing"})
	case !hasSources:
		return nil // which is said
	}
	return with
}

// assembled is a page as a file: the way back to a list, what made it, and what it
// carries.
func assembled(ctx context.Context, made *page.Page, pack *packing.Pack, carried string, with *living.Engine, up int) ([]byte, error) {
	f := page.Frame{After: madeBy(pack.Made, carried != "")}
	if up != noList {
		f.Before = page.Back(strings.Repeat("../", up)+"index.html", "All pages")
	}
	if with != nil {
		f.Before += living.Hint
		return living.Document(ctx, pack, carried, *with, f)
	}
	f.After += carried
	return made.Document(f), nil
}

// madeBy is the foot of a page.
func madeBy(version string, carries bool) string {
	text := "Made by inkwing " + html.EscapeString(version) + "."
	if carries {
		text += " Carries its sources: <code>inkwing unpack</code> takes them out, <code>inkwing check</code> works them again."
	}
	return `<footer class="made">` + text + "</footer>\n"
}
