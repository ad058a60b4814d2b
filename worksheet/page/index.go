package page

import (
	"bytes"
	"html"
	"strings"
)

// generator is how a file says that it was written here.
const generator = `<meta name="generator" content="inkwing page">`

// IsOurs reports whether a file's text is a page that was written here.
func IsOurs(text []byte) bool {
	return bytes.HasPrefix(text, []byte("<!DOCTYPE html>")) && bytes.Contains(text[:min(len(text), 1200)], []byte(generator))
}

// An Entry is a page of a folder.
type Entry struct {
	Title string
	Href  string
	File  string // of the worksheet, as the builder calls it
	State State
	Waits bool // how it stands is not known yet
}

// Section is the entry as a part of a page that stands by itself.
func (e Entry) Section(id string) Section {
	return Section{id, `<section class="pages" id="` + html.EscapeString(id) + `">` + e.inside() + "</section>"}
}

// inside is the entry's title and how it stands.
func (e Entry) inside() string {
	stands := e.State.HTML(e.Href)
	if e.Waits {
		stands = `<p class="remark">being worked …</p>`
	}
	return `<h2><a href="` + html.EscapeString(e.Href) + `">` + html.EscapeString(e.Title) + `</a> <span class="file">` + html.EscapeString(e.File) + "</span></h2>" + stands
}

// Index is the file that lists the pages of a folder and says how each stands.
func Index(title string, entries []Entry) []byte {
	var out strings.Builder
	out.WriteString("<h1>" + html.EscapeString(title) + "</h1>" + together(entries) + `<ul class="pages">`)
	for _, e := range entries {
		out.WriteString("<li>" + e.inside() + "</li>")
	}
	out.WriteString("</ul>\n")
	return Document(title, out.String(), Frame{})
}

// together says of all pages how they stand, and leads to those that want attention.
func together(entries []Entry) string {
	if len(entries) < 2 {
		return ""
	}
	var links []string
	for _, e := range entries {
		if !e.State.Holds() {
			links = append(links, `<a href="`+html.EscapeString(e.Href)+`">`+html.EscapeString(e.Title)+"</a>")
		}
	}
	if len(links) == 0 {
		return `<p class="about">` + counted(len(entries), "page", "pages") + ": on all of them everything is worked and every limit holds.</p>"
	}
	return `<p class="about">` + counted(len(entries), "page", "pages") + "; " + counted(len(links), "wants", "want") + " attention: " + strings.Join(links, ", ") + ".</p>"
}

// Back is the way to the page that lists this one.
func Back(href, says string) string {
	return `<nav class="back" aria-label="Back"><a href="` + html.EscapeString(href) + `">` + html.EscapeString(says) + "</a></nav>\n"
}
