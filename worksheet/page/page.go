// Package page makes a worksheet one HTML file: prose, formulas typeset with their
// values put in, the library's calls as cards, limits, cautions, tables and charts.
//
// [Make] lays a worked worksheet out as [Section]s, each with an id of its own, so
// that whoever serves a page again can send those that differ; [Page.Document] is
// the whole file. Nothing is worked here, no number is formatted, and the page
// knows nothing of who worked it. It fetches nothing and needs no script to be
// read. Its limit: Markdown beyond CommonMark and its tables, strikethrough and
// task lists is shown as it was typed.
package page

import (
	"bufio"
	"bytes"
	"context"
	"html"
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/renderer"

	"inkwing/evaluate/explain"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/evaluate/syntax"
	"inkwing/worksheet/markdown"
)

// A Source is what a page is made from.
type Source struct {
	Document *markdown.Document
	Report   *report.Report
	Lines    [][]explain.Line // by block
	// Image reads an image by its path from the worksheet's folder; nil, or false,
	// for what is not to be had.
	Image func(path string) ([]byte, bool)
	// Link is where a link to another file leads, false where that is no page; nil
	// leaves links as they are.
	Link func(path string) (href string, ok bool)
	// Reach is the name by which something that was typed at a place can be changed;
	// nil, or false, for what cannot. It is marked on the page, as plain values are
	// anyway.
	Reach func(at message.Span) (name string, ok bool)
	// Tried are texts by such names that stand in the place of what was typed.
	Tried map[string]string
	// Was is what quantities came to before something was tried, by their names; it
	// is said beside what they come to now.
	Was map[string]string
	// Prefix begins every id, where several of them stand on one page.
	Prefix string
	// Short leaves out what stands behind disclosures, but for notes.
	Short bool
	// Memory remembers what was laid out before; nil for none.
	Memory *Memory
}

// A Page is a worksheet laid out.
type Page struct {
	Title    string
	Sections []Section // in the order in which they are read
	State    State
}

// A Section is a part of a page that stands by itself.
type Section struct {
	ID   string // of the element that holds it, unique in the page
	HTML string // the element
}

// State is what a page says at its top, and an index of it.
type State struct {
	Limits   int
	Broken   []Mark // limits that do not hold
	Doubtful []Mark // limits that may not, within their interval
	Unknown  int    // limits of which it is not known
	Waiting  []Mark // those of them that wait for something
	Failed   []Mark // lines that could not be worked
	Dangers  []Mark // as an overview counts them
	Standing []Mark // hazards of the things themselves
	Warnings []Mark
}

// A Mark is a place of the page and what stands there.
type Mark struct{ ID, Text string }

// Holds reports whether nothing is broken and everything was worked.
func (s State) Holds() bool { return len(s.Broken)+len(s.Failed) == 0 }

// Make lays a worked worksheet out; where the context is done before it has, what is
// given is cut short.
func Make(ctx context.Context, s Source) *Page {
	defer s.Memory.forget()
	m := newMaker(s)
	m.ctx = ctx
	body := m.body()
	p := &Page{Title: m.title, State: m.state}
	if p.Title == "" {
		p.Title = stem(s.Document.Name)
	}
	p.Sections = append(p.Sections, m.top(p.Title))
	p.Sections = append(p.Sections, body...)
	return p
}

// stem is a file's name without its folder and ending.
func stem(path string) string {
	path = path[strings.LastIndexByte(path, '/')+1:]
	if dot := strings.LastIndexByte(path, '.'); dot > 0 {
		path = path[:dot]
	}
	return path
}

// maker holds one page in the making.
type maker struct {
	Source
	ctx        context.Context
	renderer   renderer.Renderer
	title      string
	titleID    string // of the heading that is the title, empty for none
	state      State
	headings   []heading // those for the contents
	headingIDs map[*ast.Heading]string
	slugs      map[string]string // ids of headings by what links call them
	anchors    map[string]bool   // names of quantities that have a place on the page
	naming
	ids        map[string]int // how often each id was given
	own        []string       // what stands at our own places of a run of prose
	placed     int            // how many of them the run has so far
	asTyped    bool           // the builder's HTML is shown as it is typed
	out        *buffer        // of a block in the making
	rendered   *bytes.Buffer  // a run of prose in the making
	writes     *bufio.Writer  // to that: without it, the renderer makes one for each node
	from       origins
	section    string                        // the heading that the text stands under
	codes      map[int]int                   // inline values by their place in the file
	quantities map[string][]*report.Quantity // by the name of their definition
}

// A heading is one for the contents.
type heading struct {
	level    int
	id, html string
}

func newMaker(s Source) *maker {
	m := &maker{Source: s, anchors: map[string]bool{}, ids: map[string]int{}, slugs: map[string]string{}, codes: map[int]int{},
		headingIDs: map[*ast.Heading]string{}, quantities: map[string][]*report.Quantity{}, section: "start", out: new(buffer), rendered: new(bytes.Buffer)}
	m.writes = bufio.NewWriter(m.rendered)
	m.from = origins{maker: m, told: map[*report.Step]int{}, points: map[*report.Step]string{}}
	for i, v := range s.Document.Inline {
		m.codes[v.Span.Start] = i
	}
	for i := range s.Report.Quantities {
		q := &s.Report.Quantities[i]
		name, _, _ := strings.Cut(q.Name, ".")
		m.quantities[name] = append(m.quantities[name], q)
	}
	for _, lines := range s.Lines {
		for _, l := range lines {
			switch x := l.Tree.(type) {
			case *syntax.Definition:
				m.anchors[x.Name.Name] = !isFailed(l)
			case *syntax.Use:
				m.sheets = append(m.sheets, orElse(x.As.Name, stem(x.Path.Value)))
			}
		}
	}
	return m
}

// reach marks an element that shows what was typed there, if it can be changed.
func (m *maker) reach(at message.Span) {
	if name, ok := m.reached(at); ok {
		m.out.put(` data-name="`, html.EscapeString(name), `"`)
	}
}

func (m *maker) reached(at message.Span) (name string, ok bool) {
	if m.Reach == nil {
		return "", false
	}
	return m.Reach(at)
}

// isFailed reports whether a line could not be worked: then only what is wrong
// with it is shown.
func isFailed(l explain.Line) bool { return l.Step != nil && l.Step.State == report.Failed }

// id is an id that the page has not given yet.
func (m *maker) id(wanted string) string {
	m.ids[wanted]++
	if n := m.ids[wanted]; n > 1 {
		return m.id(wanted + "-" + itoa(n))
	}
	return m.Prefix + wanted
}
