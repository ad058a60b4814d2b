package reading

import (
	"context"
	"errors"
	"slices"

	"inkwing/evaluate"
	"inkwing/worksheet"
)

// ErrOther says that the text is another than the one that was shown.
var ErrOther = errors.New("the file was saved by another program since this was shown")

// ErrLost says that a value could not be put into the text without touching more.
var ErrLost = errors.New("what was tried cannot be written at its place alone; write it by hand")

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
	base, problems, err := r.keepable(ctx, file, changes)
	if err != nil || len(problems) > 0 {
		return nil, problems, err
	}
	return r.splice(ctx, base, changes)
}

// keepable is the page as it was saved, if changes can stand in it and it is what the
// reader was shown: its own text and all that it uses.
func (r *Room) keepable(ctx context.Context, file string, changes []Change) (*work, []Problem, error) {
	base, problems := r.standing(ctx)
	switch {
	case ctx.Err() != nil:
		return nil, nil, context.Cause(ctx)
	case file != stamp(r.text), base != nil && !base.taken.still():
		return nil, nil, ErrOther
	case len(problems) > 0:
		return nil, problems, nil
	}
	_, problems = r.try(ctx, base, changes, &Answer{})
	return base, problems, nil
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
	return same(before, inputs(doc, evaluate.Inputs(ctx, doc.Sheet(), load)), changes)
}

// same reports where inputs differ in more than changes, or in less. What stands at
// the place of a change is changed under all its names.
func same(before, after []Input, changes []Change) error {
	if len(after) != len(before) {
		return ErrLost
	}
	texts := map[place]string{}
	for _, c := range changes {
		if i := slices.IndexFunc(before, func(in Input) bool { return in.Name == c.Name }); i >= 0 {
			texts[before[i].place()] = c.Text
		}
	}
	for i, in := range after {
		want, changed := texts[before[i].place()]
		if !changed {
			want = before[i].Text
		}
		if in.Name != before[i].Name || in.Text != want {
			return ErrLost
		}
	}
	return nil
}
