// Package handbook writes what the language offers as pages to read, to search and to
// print for the shed: every function of the library with its formula, inputs, range,
// source and its example worked, the units, the cautions, and the language.
//
// [Pages] is its one verb. All texts are those of the declarations; nothing is said
// here that is not said there. Its limit: the example of a word that needs other
// files is shown as it is typed, and not worked.
package handbook

import (
	"context"
	"html"
	"slices"
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/manual"
	"inkwing/worksheet/page"
)

// A File is one page of the handbook.
type File struct {
	Name string // index.html, energy.html
	Text []byte
}

// A chapter is a page in the making.
type chapter struct {
	file, title, about string
	body               strings.Builder
	entries            []entry
}

// An entry is a place of the handbook, for its index.
type entry struct {
	id, name, says string
	more           string // further words by which it is found
}

// Pages are the handbook's files, the index first.
func Pages(ctx context.Context) []File {
	var chapters []*chapter
	for _, topic := range manual.Topics() {
		chapters = append(chapters, topicChapter(ctx, topic))
	}
	chapters = append(chapters, languageChapter(ctx), unitChapter(), cautionChapter())
	files := []File{index(chapters)}
	for _, c := range chapters {
		files = append(files, File{c.file, c.page()})
	}
	return files
}

func newChapter(file, title, about string) *chapter {
	return &chapter{file: file + ".html", title: title, about: about}
}

// page is the chapter as a file, with its entries as contents.
func (c *chapter) page() []byte {
	var out strings.Builder
	out.WriteString("<h1>" + html.EscapeString(c.title) + `</h1><p class="about">` + html.EscapeString(c.about) + `</p><nav aria-label="Contents"><ul class="contents` + c.narrow() + `">`)
	for _, e := range c.entries {
		out.WriteString(`<li><a href="#` + html.EscapeString(e.id) + `">` + html.EscapeString(words(e.name)) + "</a></li>")
	}
	out.WriteString("</ul></nav>\n" + c.body.String())
	return page.Document(c.title, out.String(), page.Frame{Before: page.Back("index.html", "The handbook"), Style: style()})
}

// narrow marks contents whose entries are a few characters each: they stand in more
// columns.
func (c *chapter) narrow() string {
	if slices.ContainsFunc(c.entries, func(e entry) bool { return len(e.name) > 12 }) {
		return ""
	}
	return " narrow"
}

// add begins an entry.
func (c *chapter) add(e entry, heading string) {
	c.entries = append(c.entries, e)
	c.body.WriteString(`<section class="entry"><h2 id="` + html.EscapeString(e.id) + `">` + heading + "</h2>")
}

func (c *chapter) end() { c.body.WriteString("</section>\n") }

func (c *chapter) paragraph(class, text string) {
	if text == "" {
		return
	}
	if class != "" {
		class = ` class="` + class + `"`
	}
	c.body.WriteString("<p" + class + ">" + text + "</p>")
}

// titles are what the topics of the library are called at the top of a page.
var titles = map[string]string{"generator": "Generator", "energy": "Energy", "glide": "Flight", "workshop": "Workshop", "plain": "Arithmetic"}

func titleOf(topic string) string {
	if title, ok := titles[topic]; ok {
		return title
	}
	return strings.ToUpper(topic[:1]) + topic[1:]
}

// topicChapter is the functions of a topic, and behind arithmetic the constants.
func topicChapter(ctx context.Context, topic string) *chapter {
	c := newChapter(topic, titleOf(topic), capital(manual.About(topic))+".")
	all := slices.DeleteFunc(library.All(), func(f *library.Function) bool { return f.Topic != topic })
	for _, f := range all {
		c.function(ctx, f)
	}
	if topic == "plain" {
		for _, k := range library.Constants() {
			c.constant(k)
		}
	}
	return c
}

func capital(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

// words is a name as a heading has it.
func words(name string) string { return strings.ReplaceAll(name, "_", " ") }
