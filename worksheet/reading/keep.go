package reading

import (
	"context"
	"errors"
	"slices"
	"strings"

	"inkwing/evaluate"
	"inkwing/worksheet"
)

// ErrOther says that the text is another than the one that was shown.
var ErrOther = errors.New("the file was saved by another program since this was shown")

// ErrLost says that a value could not be put into the text without touching more.
var ErrLost = errors.New("it cannot be written at its place alone; write it by hand")

// A Kept is a text with what was tried in it, and what takes that back again.
type Kept struct {
	Text []byte
	Back []Change // the values that stood there before
}

// Keep puts tried values into the text, each in the place of the old one and
// nowhere else. File is the stamp of the text that the reader was shown. A room's
// own text stays: whoever wrote the new one says so by [Room.Save].
func (r *Room) Keep(ctx context.Context, file string, changes []Change) (*Kept, []Problem, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	base, problems := r.standing(ctx)
	switch {
	case ctx.Err() != nil:
		return nil, nil, context.Cause(ctx)
	case file != stamp(string(r.text)):
		return nil, nil, ErrOther
	case len(problems) > 0:
		return nil, problems, nil
	}
	if problems := r.fits(ctx, base, changes); len(problems) > 0 {
		return nil, problems, nil
	}
	return r.splice(ctx, base, changes)
}

// fits says why changes cannot stand.
func (r *Room) fits(ctx context.Context, base *work, changes []Change) []Problem {
	_, problems := r.try(ctx, base, changes, &Answer{})
	return problems
}

// splice puts the values into the text, from its end to its beginning.
func (r *Room) splice(ctx context.Context, base *work, changes []Change) (*Kept, []Problem, error) {
	list := base.inputs
	type put struct {
		Input
		text string
	}
	var puts []put
	kept := &Kept{}
	for _, c := range changes {
		i := slices.IndexFunc(list, func(in Input) bool { return in.Name == c.Name })
		if i < 0 || list[i].File != "" || list[i].at.End == 0 {
			return nil, []Problem{elsewhere(c.Name, list, i)}, nil
		}
		if c.Was != "" && c.Was != list[i].Text {
			return nil, nil, ErrOther
		}
		puts = append(puts, put{list[i], c.Text})
		kept.Back = append(kept.Back, Change{Name: c.Name, Text: list[i].Text})
	}
	slices.SortFunc(puts, func(a, b put) int { return b.at.Start - a.at.Start })
	kept.Text = slices.Clone(r.text)
	for _, p := range puts {
		kept.Text = slices.Replace(kept.Text, p.at.Start, p.at.End, []byte(p.text)...)
	}
	return kept, nil, r.sound(ctx, list, changes, kept.Text)
}

// elsewhere says why a value cannot be kept in this file.
func elsewhere(name string, list []Input, i int) Problem {
	p := Problem{Name: name, Summary: "`" + name + "` cannot be kept here.", Hint: "Write it by hand."}
	if i >= 0 && list[i].File != "" {
		p.Summary, p.Hint = "`"+name+"` stands in "+list[i].File+".", "It can be tried here; change it there."
	}
	return p
}

// A Part is those of some changes that stand in one file.
type Part struct {
	File    string   // empty for the page's own
	Changes []Change // under the names that they have there
	Before  []Change // what stands there, as it was shown, under the names of this page
}

// Split parts changes by the files in which they stand, the page's own last.
func (r *Room) Split(ctx context.Context, changes []Change) (parts []Part) {
	r.mu.Lock()
	defer r.mu.Unlock()
	base, _ := r.standing(ctx)
	for _, c := range changes {
		in := base.input(c.Name)
		before := Change{Name: c.Name, Text: in.Text}
		if _, rest, ok := strings.Cut(c.Name, "."); ok && in.File != "" {
			c.Name = rest // behind the name under which the file is used
		}
		i := slices.IndexFunc(parts, func(p Part) bool { return p.File == in.File })
		if i < 0 {
			i, parts = len(parts), append(parts, Part{File: in.File})
		}
		parts[i].Changes, parts[i].Before = append(parts[i].Changes, c), append(parts[i].Before, before)
	}
	slices.SortStableFunc(parts, func(a, b Part) int { return strings.Compare(b.File, a.File) })
	return parts
}

// input is what is within reach by a name; the zero Input for none.
func (w *work) input(name string) Input {
	if w == nil {
		return Input{}
	}
	i := slices.IndexFunc(w.inputs, func(in Input) bool { return in.Name == name })
	if i < 0 {
		return Input{}
	}
	return w.inputs[i]
}

// sound holds that a new text says what was tried, and all else as before.
func (r *Room) sound(ctx context.Context, before []Input, changes []Change, text []byte) error {
	doc, load, _ := worksheet.Document(ctx, r.files, r.path, text)
	if doc == nil {
		return ErrLost
	}
	after := inputs(doc, evaluate.Inputs(ctx, doc.Sheet(), load))
	if len(after) != len(before) {
		return ErrLost
	}
	for i, in := range after {
		want := before[i].Text
		for _, c := range changes {
			if c.Name == in.Name {
				want = c.Text
			}
		}
		if in.Name != before[i].Name || in.Text != want {
			return ErrLost
		}
	}
	return nil
}
