package reading

import (
	"context"
	"fmt"
	"hash/fnv"
	"slices"
	"strings"

	"inkwing/evaluate"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/worksheet/page"
)

// An Answer is how the page stands, told to a reader who has an older state of it.
type Answer struct {
	Stamp    string    `json:"stamp"` // of this state: say it when asking again
	File     string    `json:"file"`  // of the text that it was worked from: say it when keeping
	Title    string    `json:"title"`
	Holds    bool      `json:"holds"`
	Order    []string  `json:"order"`              // the ids of all sections
	Sections []Section `json:"sections,omitempty"` // those that the reader does not have
	Broken   []Limit   `json:"broken,omitempty"`   // by what is tried
	Doubtful []Limit   `json:"doubtful,omitempty"`
	Mended   []Limit   `json:"mended,omitempty"`
	Failing  []Problem `json:"failing,omitempty"` // lines that do not work any more, by what is tried
	Changed  []Value   `json:"changed,omitempty"` // by what is tried: first what the page asks for, then the largest change
	Problems []Problem `json:"problems,omitempty"`
	Inputs   []Input   `json:"inputs,omitempty"` // what is within reach; nil if the reader knows it
	AsMade   []string  `json:"asMade,omitempty"` // the ids of sections that do not follow, of a page that works itself
}

// A Section is a part of the page that stands by itself.
type Section struct {
	ID   string `json:"id"`
	HTML string `json:"html"`
}

// A Value is a result before and after.
type Value struct {
	Name  string `json:"name"`
	Old   string `json:"old"`
	New   string `json:"new"`
	Share string `json:"share,omitempty"` // "+17 %"
	ID    string `json:"id,omitempty"`    // of its place in the page
	Asked bool   `json:"asked,omitempty"` // the page names it in a sentence, a bracket or a limit
}

// A Limit is one that changed sides.
type Limit struct {
	ID      string `json:"id,omitempty"` // of its place in the page
	Text    string `json:"text"`
	Value   string `json:"value"`
	Allowed string `json:"allowed"`
	Verdict string `json:"verdict"`
}

// A Problem is what is wrong, in the builder's terms.
type Problem struct {
	Name    string `json:"name,omitempty"` // what was tried, if it is about that
	File    string `json:"file,omitempty"`
	Line    int    `json:"line,omitempty"` // from 1; 0 for the file as a whole
	Column  int    `json:"column,omitempty"`
	Text    string `json:"text,omitempty"` // the line
	Summary string `json:"summary"`
	Hint    string `json:"hint,omitempty"`
}

// Work works the page with what is tried, nothing for as it was saved, for a reader
// who has the state of that stamp, empty for none. What cannot stand is a problem
// of the answer, which then leaves the page as it was saved.
func (r *Room) Work(ctx context.Context, since string, changes []Change) (*Answer, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	base, problems := r.standing(ctx)
	if ctx.Err() != nil {
		return nil, context.Cause(ctx)
	}
	a := &Answer{File: stamp(r.text), Problems: problems}
	now := base
	if len(changes) > 0 && len(problems) == 0 {
		now, a.Problems = r.try(ctx, base, changes, a)
	}
	if ctx.Err() != nil {
		return nil, context.Cause(ctx)
	}
	r.tell(a, base, now, since)
	return a, nil
}

// Glance is how results move by what is tried, told by their values alone: it comes long
// before the answer of [Room.Work], which knows how sure they are and what the limits say
// to that. It is nil where something stands in the way, which that answer tells, and empty
// where nothing moves.
func (r *Room) Glance(ctx context.Context, changes []Change) []Value {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.gone != "" {
		return nil
	}
	base, _ := r.stands(ctx)
	if base == nil {
		return nil
	}
	ctx = evaluate.Remembering(ctx, r.options.Memo)
	was := base.alone(ctx)
	now, _ := base.stands.ValuesWith(ctx, typed(changes))
	if now == nil || ctx.Err() != nil {
		return nil
	}
	return append([]Value{}, changed(report.Compare(was, now), now)...)
}

// Moved is how results moved by what was saved since the page was worked last, told as
// [Room.Glance] does. It is nil where that cannot be told, or has been worked already.
func (r *Room) Moved(ctx context.Context) []Value {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.gone != "" || r.saved != nil || r.last == nil {
		return nil
	}
	ctx = evaluate.Remembering(ctx, r.options.Memo)
	w, _ := r.stands(ctx)
	if w == nil {
		return nil
	}
	was, now := r.last.alone(ctx), w.alone(ctx)
	if was == nil || now == nil || ctx.Err() != nil {
		return nil
	}
	return append([]Value{}, changed(report.Compare(was, now), now)...)
}

// alone is what a text comes to by values alone, found once.
func (w *work) alone(ctx context.Context) *report.Report {
	if w.values != nil {
		return w.values
	}
	values, _ := w.stands.ValuesWith(ctx, nil)
	if ctx.Err() == nil { // else it may be cut short
		w.values = values
	}
	return values
}

// changed are the results that moved: first what the page asks for, then the largest change.
func changed(c *report.Comparison, now *report.Report) (list []Value) {
	for _, d := range c.Changed {
		if d.New.Given {
			continue
		}
		list = append(list, Value{d.New.Name, d.Old.Shown, d.New.Shown, d.Percent, "q-" + d.New.Record(), now.Asked[d.New.Name]})
	}
	slices.SortStableFunc(list, func(a, b Value) int { return first(b.Asked) - first(a.Asked) })
	return list
}

func typed(changes []Change) []evaluate.Change {
	list := make([]evaluate.Change, len(changes))
	for i, c := range changes {
		list[i] = c.typed()
	}
	return list
}

// try works the page with what is tried and says what comes out otherwise.
func (r *Room) try(ctx context.Context, base *work, changes []Change, a *Answer) (*work, []Problem) {
	list := typed(changes)
	for _, c := range changes {
		if strings.TrimSpace(c.Text) == "" {
			return base, []Problem{{Name: c.Name, Summary: "Nothing is typed here.", Hint: "Type a value such as " + message.Quote(base.input(c.Name).Text) + ", or put it back."}}
		}
	}
	w := &work{doc: base.doc, stands: base.stands, taken: base.taken, inputs: base.inputs}
	if refused := r.evaluate(ctx, w, list); w.report == nil {
		return base, r.tried(refused, changes, list)
	}
	c := report.Compare(base.report, w.report)
	for _, f := range c.Failing {
		a.Failing = append(a.Failing, r.problem(f.Diagnostic))
	}
	a.Changed = changed(c, w.report)
	was := map[string]string{}
	for _, v := range a.Changed {
		was[v.Name] = v.Old
	}
	r.lay(ctx, w, changes, was)
	a.Broken, a.Doubtful, a.Mended = w.limits(c.Broken), w.limits(c.Doubtful), w.limits(c.Mended)
	return w, nil
}

func first(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

func (w *work) limits(list []report.LimitChange) (out []Limit) {
	for _, c := range list {
		if l := c.New; l != nil {
			out = append(out, Limit{w.placeOf(l.Text), l.Text, l.Value, l.Allowed, l.Verdict()})
		}
	}
	return out
}

// placeOf is where a limit that does not surely hold stands on the page; empty for
// others.
func (w *work) placeOf(limit string) string {
	for _, m := range slices.Concat(w.page.State.Broken, w.page.State.Doubtful) {
		if m.Text == limit {
			return m.ID
		}
	}
	return ""
}

// tell puts into an answer what the reader does not have.
func (r *Room) tell(a *Answer, base, now *work, since string) {
	var sections []page.Section
	a.Title = r.path
	if now != nil {
		a.Title, a.Holds, sections = now.page.Title, now.page.State.Holds() && len(a.Problems) == 0, now.page.Sections
	}
	if r.ruined() {
		sections = append([]page.Section{problemSection(a.Problems)}, sections...)
	}
	had := r.told.find(since)
	r.told.tell(a, had, sections, now == base)
	if base != nil && (had == nil || had.file != a.File) {
		a.Inputs = base.inputs
	}
}

// ruined reports whether the text as it stands cannot be read at all.
func (r *Room) ruined() bool { return r.saved == nil }

// stamp is a short text that stands for a long one.
func stamp(text []byte) string {
	h := fnv.New64a()
	h.Write(text)
	return fmt.Sprintf("%016x", h.Sum64())
}

// problems are what is wrong with the page's files.
func (r *Room) problems(list []message.Diagnostic) (out []Problem) {
	for _, d := range list {
		out = append(out, r.problem(d))
	}
	return out
}

func (r *Room) problem(d message.Diagnostic) Problem {
	p := Problem{File: d.Span.File, Summary: message.Sentence(d.Summary), Hint: message.Sentence(d.Hint)}
	if d.Span.File != r.path {
		return p
	}
	source := message.NewSource(r.path, r.text)
	p.Line, p.Column = source.Position(d.Span.Start)
	p.Text = source.Line(p.Line)
	return p
}

// tried are what is wrong with what was tried.
func (r *Room) tried(list []message.Diagnostic, changes []Change, typed []evaluate.Change) (out []Problem) {
	for _, d := range list {
		p := Problem{Summary: message.Sentence(d.Summary), Hint: message.Sentence(d.Hint)}
		for i, c := range typed {
			if c.File() == d.Span.File {
				p.Name, p.Text = changes[i].Name, changes[i].Text
				p.Hint = ofField(p.Hint, p.Name)
			}
		}
		out = append(out, p)
	}
	return out
}

// ofField is a hint for a field, which holds the value alone, where it says how the
// change is written on a command line: "V=12 V".
func ofField(hint, name string) string {
	before, rest, ok := strings.Cut(hint, `"`+name+"=")
	if !ok {
		return hint
	}
	value, after, _ := strings.Cut(rest, `"`)
	return before + message.Quote(value) + after
}
