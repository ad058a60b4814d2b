package main

import (
	"bytes"
	"context"
	"errors"
	"path/filepath"
	"slices"
	"strings"

	"inkwing/worksheet"
	"inkwing/worksheet/living"
	"inkwing/worksheet/packing"
	"inkwing/worksheet/page"
)

// isPage reports whether a path of the command line is a page to be checked.
func isPage(name string) bool { return strings.EqualFold(filepath.Ext(name), ".html") }

// checkPages works pages again from what they carry. All paths have to be pages:
// what is printed of a worksheet says nothing of them.
func (t *tool) checkPages(ctx context.Context, p *paths, args []string) error {
	if p.json || p.format != asText || p.changed != "" || slices.ContainsFunc(args, func(a string) bool { return !isPage(a) }) {
		return trouble{errors.New("pages are checked by themselves"), "for example: inkwing check journal.html"}
	}
	for _, name := range args {
		text, pack, err := openPage(name)
		if err == nil {
			err = t.checkPage(ctx, name, text, pack)
		}
		if err != nil {
			t.complain(err)
		}
	}
	return ctx.Err()
}

// checkPage says whether a page shows what its sources come to.
func (t *tool) checkPage(ctx context.Context, name string, text []byte, pack *packing.Pack) error {
	made, err := t.workPack(ctx, pack)
	if made == nil || err != nil {
		return err
	}
	head := t.out.bold(visible(filepath.ToSlash(name))) + ": "
	again, err := workedAgain(ctx, made, pack, living.Is(text))
	if err != nil {
		return err
	}
	d, differ := page.Differ(text, again)
	switch {
	case differ:
		t.worsen(attention)
		t.out.line(head + t.out.red("shows something else") + " than its sources come to" + t.madeElsewhere(pack))
		t.out.printf("%s", t.out.names([][2]string{{"first at", visible(orBeginning(d.Where))}, {"it shows", visible(shortText(d.Old))}, {"worked now", visible(shortText(d.New))}}))
	case living.Is(text) && engine() == nil:
		t.worsen(attention)
		t.out.line(head + "holds the words and numbers that its sources come to, but " + t.out.yellow("the evaluator in it cannot be checked") +
			" by this program, which was built without one" + t.madeElsewhere(pack) + ". To be sure, unpack it and make the page anew.")
	case !bytes.Equal(text, again):
		t.worsen(attention)
		t.out.line(head + "holds the words and numbers that its sources come to, but " + t.out.yellow("looks or acts in a way that this program did not write") +
			", which can change what a reader sees" + t.madeElsewhere(pack) + ". To be sure, unpack it and make the page anew.")
	default:
		t.out.line(head + t.out.green("shows what its sources come to") + t.madeElsewhere(pack))
	}
	if !made.State.Holds() {
		t.worsen(attention)
		t.out.line(stateText(made.State))
	}
	return nil
}

// workPack works what a page carries; nil where it is refused, which is then said.
func (t *tool) workPack(ctx context.Context, pack *packing.Pack) (*page.Page, error) {
	text, err := pack.Read(pack.Sheet)
	if err != nil {
		return nil, err
	}
	ctx, done := boundedWork(ctx)
	defer done()
	made, refused := worksheet.Page(ctx, pack, pack.Sheet, text, pack.Link())
	if ctx.Err() != nil {
		return nil, context.Cause(ctx)
	}
	if len(refused) > 0 {
		g := &target{shown: pack.Sheet, name: pack.Sheet}
		t.refuse(newPlaces(outcome{target: g, result: &worksheet.Result{Source: text}}), refused)
		return nil, nil
	}
	return made, nil
}

// workedAgain is the file that a page should be, by whichever version it was made.
func workedAgain(ctx context.Context, made *page.Page, pack *packing.Pack, live bool) ([]byte, error) {
	carried, err := pack.HTML()
	if err != nil {
		return nil, err
	}
	up := noList
	if pack.Site {
		up = pack.Up
	}
	var with *living.Engine
	if live {
		with = engine()
	}
	return assembled(ctx, made, pack, carried, with, up)
}

// madeElsewhere tells of another version, whose results or looks may be others.
func (t *tool) madeElsewhere(pack *packing.Pack) string {
	if pack.Made == built() {
		return ""
	}
	return " (made by " + visible(shortText(pack.Made)) + ", checked by " + built() + ")"
}

func orBeginning(where string) string {
	if where == "" {
		return "the beginning"
	}
	return where
}

// shortText is what fits a line or two.
func shortText(text string) string {
	const most = 100
	if text == "" {
		return "nothing more"
	}
	if r := []rune(text); len(r) > most {
		return string(r[:most]) + "…"
	}
	return text
}

// stateText says what does not hold on a page.
func stateText(s page.State) string {
	var parts []string
	for _, m := range s.Broken {
		parts = append(parts, "limit broken: "+visible(shortText(m.Text)))
	}
	for _, m := range s.Failed {
		parts = append(parts, "not worked: "+visible(shortText(m.Text)))
	}
	return "  " + strings.Join(parts, "\n  ")
}
