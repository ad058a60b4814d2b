package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"

	"inkwing/cmd/inkwing/wire"
	"inkwing/evaluate/message"
	"inkwing/worksheet"
	"inkwing/worksheet/rules"
)

// A house is the rules that journals are held against, and where they stand.
type house struct {
	rules []*rules.Rule
	pages map[string]*message.Source // by the name that messages give them
}

// errRules says that rules are wrong; what is wrong with them was said before.
var errRules = trouble{errors.New("the rules cannot be used"), "mend them first: check names the page, with --keeping or without"}

// keeping reads the pages of rules. All that is wrong with them is told at once.
func (t *tool) keeping(pages []string) (*house, error) {
	if len(pages) == 0 {
		return nil, nil
	}
	f, err := newFinder("")
	if err != nil {
		return nil, err
	}
	defer f.close()
	h := &house{pages: map[string]*message.Source{}}
	wrong := 0
	for _, page := range pages {
		problems, err := h.read(f, page)
		if err != nil {
			return nil, trouble{fmt.Errorf("%s %w", page, err), "--keeping names a page with ```keeping blocks"}
		}
		for _, d := range problems {
			source := h.pages[d.Span.File]
			d.Span.File = source.Name()
			style := message.Style{Level: "error:", Paint: t.err.red}
			t.err.printf("%s", style.Render(d, source))
		}
		wrong += len(problems)
	}
	if wrong > 0 {
		return nil, errRules
	}
	return h, nil
}

// read adds the rules of one page.
func (h *house) read(f *finder, page string) ([]message.Diagnostic, error) {
	real, err := realPath(page)
	if err != nil {
		return nil, err
	}
	g := &target{shown: filepath.ToSlash(page)}
	if err := f.place(g, real); err != nil {
		return nil, err
	}
	text, err := g.read()
	if err != nil {
		return nil, err
	}
	// A journal may bear the same name from its own root: a page of rules is known
	// by what the builder called it, behind a sign that no path holds.
	name := "\x00" + g.shown
	h.pages[name] = message.NewSource(visible(g.shown), text)
	list, problems, err := worksheet.Rules(name, text)
	for i := range problems {
		problems[i].Span.File = name
	}
	h.rules = append(h.rules, list...)
	return problems, err
}

// judge holds what a file came to against the rules.
func (h *house) judge(g *target, r *worksheet.Result) (list []wire.Judged) {
	if h == nil || r == nil {
		return nil
	}
	j := r.Journal(g.shown)
	if j == nil {
		return nil
	}
	for _, rule := range h.rules {
		list = append(list, wire.Judged{Text: rule.Text, Broken: rule.Judge(j)})
	}
	return list
}

// checkOne checks a worksheet, and holds it against the rules.
func (h *house) checkOne(ctx context.Context, g *target) outcome {
	o := checkOne(ctx, g)
	if h != nil {
		o.rules, o.pages = h.judge(g, o.result), h.pages
	}
	return o
}

// rulesBroken counts the rules of the house that an outcome breaks.
func (o outcome) rulesBroken() (n int) {
	for _, j := range o.rules {
		if len(j.Broken) > 0 {
			n++
		}
	}
	return n
}
