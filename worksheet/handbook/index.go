package handbook

import (
	_ "embed"
	"html"
	"strings"
	"sync"

	"inkwing/worksheet/page"
)

// search narrows the index to what is typed. Without it the index is what it is: a
// table of contents.
//
//go:embed search.js
var search string

//go:embed handbook.css
var styleText string

// style is how the handbook looks, beside a page's own style sheet.
var style = sync.OnceValue(func() string { return page.Sheet(styleText) })

// index is the page that lists all entries, chapter by chapter.
func index(chapters []*chapter) File {
	var out strings.Builder
	out.WriteString(`<h1>Handbook</h1><div id="search"></div>`)
	for _, c := range chapters {
		out.WriteString(`<section class="chapter"><h2><a href="` + c.file + `">` + html.EscapeString(c.title) + `</a></h2><p class="about">` + html.EscapeString(c.about) + `</p><ul class="index">`)
		for _, e := range c.entries {
			out.WriteString(`<li data-words="` + html.EscapeString(strings.ToLower(e.more)) + `"><a href="` + c.file + "#" + html.EscapeString(e.id) + `">` + html.EscapeString(words(e.name)) + "</a> <span>" + html.EscapeString(e.says) + "</span></li>")
		}
		out.WriteString("</ul></section>\n")
	}
	return File{"index.html", page.Document("Handbook", out.String(), page.Frame{Script: search, Style: style()})}
}
