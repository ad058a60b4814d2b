package main

import (
	"html"
	"strings"

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
func (p *pager) document(made *madePage, name string, up int) []byte {
	carried, err := "", made.misses
	made.pack.Made, made.pack.Up = built(), max(up, 0)
	if !p.bare && err == nil {
		carried, err = made.pack.HTML()
	}
	if err != nil {
		p.err.printf("%s %s carries no sources, since it %s\n", p.err.dim("inkwing: note:"), visible(name), visible(err.Error()))
	}
	return assembled(made.Page, built(), carried, up)
}

// assembled is a page as a file: the way back to a list, and what made it.
func assembled(made *page.Page, version, carried string, up int) []byte {
	f := page.Frame{After: madeBy(version, carried != "") + carried}
	if up != noList {
		f.Before = page.Back(strings.Repeat("../", up)+"index.html", "All pages")
	}
	return made.Document(f)
}

// madeBy is the foot of a page.
func madeBy(version string, carries bool) string {
	text := "Made by inkwing " + html.EscapeString(version) + "."
	if carries {
		text += " Carries its sources: <code>inkwing unpack</code> takes them out, <code>inkwing check</code> works them again."
	}
	return `<footer class="made">` + text + "</footer>\n"
}
