package desk

import (
	"context"
	"errors"
	"html"
	"net/url"
	"slices"
	"strings"
	"sync"
	"time"

	"inkwing/worksheet"
	"inkwing/worksheet/page"
	"inkwing/worksheet/reading"
)

// A list is the pages of the folder with how each stands.
type list struct {
	desk *Desk
	wake chan struct{}

	mu      sync.Mutex
	found   bool // whether the folder was looked through
	entries map[string]*entry
	seen    bool // whether anybody asked for it
	told    reading.Told
	last    string
}

// An entry is a page of the list.
type entry struct {
	sheet bool // holds something to be worked
	known bool // state and title are those of the files as they are
	title string
	state page.State
	uses  map[string]bool
	saves int // how often it, or what it uses, was saved
}

// mostPages bounds the list.
const mostPages = 5000

func newList(d *Desk) *list {
	return &list{desk: d, wake: make(chan struct{}, 1), entries: map[string]*entry{}}
}

// names lists the entries, by their names from the root.
func (l *list) names() []string {
	names := make([]string, 0, len(l.entries))
	for name, e := range l.entries {
		if e.sheet || !e.known {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return names
}

// answer is the list for a reader who has an older state of it. What is not worked
// yet is said so, and worked behind it.
func (l *list) answer(ctx context.Context, since string) *reading.Answer {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.seen = true
	if !l.found {
		l.look()
	}
	l.stir()
	return l.tell(since)
}

// tell lays the list out.
func (l *list) tell(since string) *reading.Answer {
	title := l.desk.Title
	sections := []page.Section{{ID: "top", HTML: `<header id="top"><h1>` + html.EscapeString(title) + "</h1></header>"}}
	for _, name := range l.names() {
		e, shown := l.entries[name], l.desk.shown(name)
		entry := page.Entry{Title: e.title, Href: "page/" + address(shown), File: shown, State: e.state, Waits: !e.known}
		if e.title == "" {
			entry.Title = shown
		}
		sections = append(sections, entry.Section("p-"+shown))
	}
	if len(sections) == 1 {
		sections = append(sections, page.Section{ID: "none", HTML: `<section id="none"><p>No worksheet lies in this folder yet. A worksheet is a Markdown file with a <code>working</code> block; <code>inkwing new</code> begins a folder with some.</p></section>`})
	}
	return l.told.Answer(since, title, sections)
}

// address is a path as a part of an address.
func address(name string) string {
	parts := strings.Split(name, "/")
	for i, p := range parts {
		parts[i] = url.PathEscape(p)
	}
	return strings.Join(parts, "/")
}

// look finds what lies in the folder now. What is known of a file stays.
func (l *list) look() {
	files, _ := l.desk.Folder.Walk(l.desk.Within, ".md", mostPages)
	now := map[string]*entry{}
	for _, name := range files {
		if !l.desk.serves(name) {
			continue
		}
		if now[name] = l.entries[name]; now[name] == nil {
			now[name] = &entry{}
		}
	}
	l.entries, l.found = now, true
}

// saved notes that files were saved, made or taken away.
func (l *list) saved(names map[string]bool) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if !l.seen {
		return
	}
	l.found = false // it may have come, or gone: looked through behind the open pages
	for name, e := range l.entries {
		if names[name] || slices.ContainsFunc(keys(names), func(n string) bool { return e.uses[n] }) {
			e.known = false
			e.saves++
		}
	}
	l.stir()
}

func (l *list) stir() {
	select {
	case l.wake <- struct{}{}:
	default:
	}
}

// lull is how long the list waits before it works: the open pages come first.
const lull = 150 * time.Millisecond

// follow works what is not known, one page after another, and tells how they stand.
func (l *list) follow(ctx context.Context) {
	for {
		select {
		case <-ctx.Done():
			return
		case <-l.wake:
		}
		select {
		case <-ctx.Done():
			return
		case <-time.After(lull):
		}
		l.work(ctx)
		l.publish()
	}
}

func (l *list) work(ctx context.Context) {
	l.mu.Lock()
	if !l.found {
		l.look()
	}
	l.mu.Unlock()
	published := time.Now()
	for name, saves := l.unknown(); name != "" && ctx.Err() == nil; name, saves = l.unknown() {
		l.learn(name, saves, l.entry(ctx, name))
		if time.Since(published) > 4*lull {
			l.publish()
			published = time.Now()
		}
	}
}

// learn keeps how a page stands, unless it was saved while it was worked: then it is
// worked again.
func (l *list) learn(name string, saves int, e *entry) {
	l.mu.Lock()
	defer l.mu.Unlock()
	before := l.entries[name]
	switch {
	case before == nil:
	case e == nil:
		before.known = true
	default:
		e.saves, e.known = before.saves, before.saves == saves
		l.entries[name] = e
	}
}

// unknown is the first page of which it is not known how it stands, empty for none,
// and how often it was saved so far.
func (l *list) unknown() (name string, saves int) {
	l.mu.Lock()
	defer l.mu.Unlock()
	for _, name := range l.names() {
		if e := l.entries[name]; !e.known {
			return name, e.saves
		}
	}
	return "", 0
}

// entry works a page; nil where that was stopped.
func (l *list) entry(ctx context.Context, name string) *entry {
	text, err := l.desk.Folder.Read(name)
	if err != nil {
		return &entry{known: true, sheet: true, state: page.State{Failed: []page.Mark{{Text: err.Error()}}}}
	}
	e := &entry{known: true, sheet: worksheet.IsSheet(name, text)}
	if !e.sheet {
		return e
	}
	ctx, done, err := l.desk.bounded(ctx)
	if err != nil {
		return nil
	}
	defer done()
	room := l.desk.roomOf(name, text)
	e.title, e.state = room.State(ctx)
	if cause := context.Cause(ctx); cause != nil && !errors.Is(cause, context.Canceled) {
		e.title, e.state = name, page.State{Failed: []page.Mark{{Text: cause.Error()}}}
	}
	e.uses = map[string]bool{}
	for _, f := range room.Files() {
		e.uses[f] = true
	}
	return e
}

// publish tells all who have the list open.
func (l *list) publish() {
	l.mu.Lock()
	since := l.last
	a := l.tell(since)
	l.last = a.Stamp
	l.mu.Unlock()
	if a.Stamp != since {
		l.desk.hub.send(event{Since: since, Answer: a})
	}
}

func keys(set map[string]bool) (list []string) {
	for k := range set {
		list = append(list, k)
	}
	return list
}
