// Package reading is a room for a page that is open: it is worked again as its
// reader tries other values or its files are saved, and says what came out
// otherwise.
//
// [Open] opens one, [Room.Work] works it with what is tried and gives those sections
// that differ from what the reader has, [Room.Keep] puts tried values into the
// text and [Room.Drafts] into all files in which they stand, and [Room.Document] is the whole page with the [Script] that asks for all
// this. Who works the page does not matter to it: a server beside the reader or the
// page itself. A room reads files by its Files alone and writes none.
package reading

import (
	"context"
	"sync"

	"inkwing/evaluate"
	"inkwing/evaluate/explain"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/evaluate/syntax"
	"inkwing/worksheet"
	"inkwing/worksheet/markdown"
	"inkwing/worksheet/page"
)

// Options are what a room may have beside its text.
type Options struct {
	// Link is where a link to another file leads, false where that is no page; nil
	// leaves links as they are.
	Link func(path string) (href string, ok bool)
	// Memo remembers what was worked; rooms may share one, and without it a room has
	// its own.
	Memo *evaluate.Memo
}

// A Change is another value for something within reach, as a builder types it.
type Change struct {
	Name string `json:"name"`
	Text string `json:"text"`
	// Was is what stood there when it was tried; empty where that is not said.
	Was string `json:"was,omitempty"`
}

// A Room holds a page that is open. It may be used by several goroutines at once,
// which take turns.
type Room struct {
	path    string
	files   *recorder
	options Options

	mu    sync.Mutex
	text  []byte
	read  *work // of the text as it stands, read and not worked; nil if it is to be read
	saved *work // of the same, worked; nil if it is to be worked
	last  *work // of the last text that was no ruin
	gone  string
	told  Told
	laid  *page.Memory // what was laid out
}

// A work is a text that was worked, with what was tried in it.
type work struct {
	doc    *markdown.Document
	stands *evaluate.Standing
	report *report.Report
	lines  [][]explain.Line
	page   *page.Page
	inputs []Input
	taken  *taken // what it uses

	values *report.Report // before it is known how sure they are, for [Room.Glance]
}

// Open opens a room for a text. Path is the name that messages give it and that
// its use statements are relative to.
func Open(files worksheet.Files, path string, text []byte, options Options) *Room {
	if options.Memo == nil {
		options.Memo = evaluate.NewMemo()
	}
	return &Room{path: path, files: &recorder{files: files, seen: map[string]bool{}}, options: options, text: text, laid: page.NewMemory()}
}

// Save says what the file holds now, or that something which it uses was saved.
func (r *Room) Save(text []byte) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.text, r.read, r.saved, r.gone = text, nil, nil, ""
}

// Lose says why the file cannot be read any more. What it came to last stays.
func (r *Room) Lose(why string) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.read, r.saved, r.gone = nil, nil, why
}

// Uses reports whether the page depends on a file: itself, one that it uses or
// shows, or one that it looked for.
func (r *Room) Uses(path string) bool { return path == r.path || r.files.has(path) }

// Files names what the page depends on beside itself.
func (r *Room) Files() []string { return r.files.names() }

// State is how the page stands as it was saved, and its title.
func (r *Room) State(ctx context.Context) (string, page.State) {
	r.mu.Lock()
	defer r.mu.Unlock()
	w, problems := r.standing(ctx)
	if w == nil {
		return r.path, page.State{Failed: []page.Mark{{ID: problemsID, Text: problems[0].Summary}}}
	}
	state := w.page.State
	for _, p := range problems {
		state.Failed = append(state.Failed, page.Mark{ID: problemsID, Text: p.Summary})
	}
	return w.page.Title, state
}

// standing is the page as it was saved. Where that cannot be read, it is the last
// that could be, nil for none, with what is wrong.
func (r *Room) standing(ctx context.Context) (*work, []Problem) {
	if r.gone != "" {
		return r.last, []Problem{{File: r.path, Summary: message.Sentence(r.path + " " + r.gone)}}
	}
	if r.saved != nil {
		return r.saved, nil
	}
	w, refused := r.stands(ctx)
	if w != nil {
		refused = r.evaluate(ctx, w, nil)
	}
	if len(refused) > 0 {
		return r.last, r.problems(refused)
	}
	r.lay(ctx, w, nil, nil)
	if ctx.Err() != nil { // what was laid out may be cut short
		return r.last, r.problems([]message.Diagnostic{{Span: message.Span{File: r.path}, Summary: syntax.Stopped}})
	}
	r.saved, r.last = w, w
	return w, nil
}

// stands reads the text as it was saved; the reasons why that cannot be.
func (r *Room) stands(ctx context.Context) (*work, []message.Diagnostic) {
	if r.read != nil {
		return r.read, nil
	}
	taken := &taken{Files: r.files, stamps: map[string]string{}}
	doc, load, refused := worksheet.Document(ctx, taken, r.path, r.text)
	if doc == nil {
		return nil, refused
	}
	stand := evaluate.Stand
	if r.last != nil {
		stand = r.last.stands.Next
	}
	w := &work{doc: doc, stands: stand(ctx, doc.Sheet(), load), taken: taken}
	if ctx.Err() == nil { // else it may be cut short
		r.read = w
	}
	return w, nil
}

// evaluate works what was read, with what is tried.
func (r *Room) evaluate(ctx context.Context, w *work, changes []evaluate.Change) []message.Diagnostic {
	ctx = evaluate.Remembering(ctx, r.options.Memo)
	read, refused := w.stands.LinesWith(ctx, changes)
	if read == nil {
		return refused
	}
	if w.report, w.lines = read.Report, read.Lines; w.inputs == nil {
		w.inputs = inputs(w.doc, w.stands.Inputs())
	}
	worksheet.Gathered(ctx, r.files, w.doc, w.report)
	return nil
}

// lay makes the page of what was worked; was are the results before it was tried.
func (r *Room) lay(ctx context.Context, w *work, changes []Change, was map[string]string) {
	tried := map[string]string{}
	for _, c := range changes {
		tried[c.Name] = c.Text
	}
	w.page = page.Make(ctx, page.Source{Document: w.doc, Report: w.report, Lines: w.lines, Link: r.options.Link,
		Image: worksheet.Images(r.files, r.path), Was: was, Tried: tried, Reach: reach(w.inputs, changes), Memory: r.laid})
}

// A place is where something stands: the file, and the offset in it.
type place struct {
	file  string
	start int
}

func (in Input) place() place { return place{in.at.File, in.at.Start} }

// reach finds what can be changed by its place: in the file, or in what was tried.
func reach(list []Input, changes []Change) func(message.Span) (string, bool) {
	names := map[place]string{}
	for _, in := range list {
		if in.at.End == 0 {
			continue
		}
		names[in.place()] = in.Name
	}
	files := map[string]string{}
	for _, c := range changes {
		files[c.typed().File()] = c.Name
	}
	return func(at message.Span) (string, bool) {
		if name, ok := files[at.File]; ok {
			return name, true
		}
		name, ok := names[place{at.File, at.Start}]
		return name, ok
	}
}

// typed is a change as a builder types it.
func (c Change) typed() evaluate.Change { return evaluate.Change{Text: c.Name + "=" + c.Text} }
