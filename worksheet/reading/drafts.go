package reading

import (
	"context"
	"path"
	"slices"
	"strings"

	"inkwing/evaluate"
	"inkwing/evaluate/message"
	"inkwing/worksheet"
)

// A Draft is a file with what was tried in it, to be written by whoever may.
type Draft struct {
	File     string
	Old, New []byte
}

// A part is those of some changes that stand in one file.
type part struct {
	file    string
	changes []Change // under the names of the page
	inputs  []Input  // what stands there, one each
}

// Drafts puts tried values into the files in which they stand, each in the place of
// the old one and nowhere else: those that the page uses, then its own. File is the
// stamp of the text that the reader was shown; the other files have to hold what the
// page was worked from. Back takes all of it back again. Nothing is written, and the
// room's own text stays.
func (r *Room) Drafts(ctx context.Context, file string, changes []Change) (drafts []Draft, back []Change, problems []Problem, err error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	base, problems, err := r.keepable(ctx, file, changes)
	if err != nil || len(problems) > 0 {
		return nil, nil, problems, err
	}
	parts, problems := split(base, changes)
	if len(problems) > 0 {
		return nil, nil, problems, nil
	}
	for _, p := range parts {
		d, problems, err := r.draft(ctx, base, p)
		if err != nil || len(problems) > 0 {
			return nil, nil, problems, err
		}
		drafts = append(drafts, d)
		for i, c := range p.changes {
			back = append(back, Change{Name: c.Name, Text: p.inputs[i].Text})
		}
	}
	return drafts, back, nil, nil
}

// FilesOf names the files in which what is changed stands, the page's own last. What
// is not within reach stands in none.
func (r *Room) FilesOf(ctx context.Context, changes []Change) (files []string) {
	r.mu.Lock()
	defer r.mu.Unlock()
	base, _ := r.standing(ctx)
	if base == nil {
		return nil
	}
	parts, _ := split(base, changes)
	for _, p := range parts {
		files = append(files, p.file)
	}
	return files
}

// split parts changes by the files in which they stand, the page's own last.
func split(base *work, changes []Change) (parts []part, problems []Problem) {
	for _, c := range changes {
		in := base.input(c.Name)
		if in.at.End == 0 {
			problems = append(problems, noPlace(c.Name, in))
			continue
		}
		file := in.File
		if file == "" {
			file = base.doc.Name
		}
		i := slices.IndexFunc(parts, func(p part) bool { return p.file == file })
		if i < 0 {
			i, parts = len(parts), append(parts, part{file: file})
		}
		parts[i].changes, parts[i].inputs = append(parts[i].changes, c), append(parts[i].inputs, in)
	}
	own := func(p part) int { return first(p.file == base.doc.Name) }
	slices.SortStableFunc(parts, func(a, b part) int { return own(a) - own(b) })
	return parts, problems
}

// noPlace says why a value can be tried and not kept.
func noPlace(name string, in Input) Problem {
	p := Problem{Name: name, Summary: message.Quote(name) + " can be tried, and not kept.", Hint: "Write it into its file by hand."}
	if in.Name == "" {
		p.Summary = message.Quote(name) + " can be tried, and not kept: its file is too long for that."
	} else {
		p.Summary += " It stands on several lines, or among other signs."
	}
	return p
}

// draft is one file with its changes.
func (r *Room) draft(ctx context.Context, base *work, p part) (Draft, []Problem, error) {
	if p.file == r.path {
		kept, problems, err := r.splice(ctx, base, p.changes)
		if err != nil || len(problems) > 0 {
			return Draft{}, problems, err
		}
		return Draft{p.file, r.text, kept.Text}, nil, nil
	}
	text, err := r.files.Read(p.file)
	if err != nil || stamp(text) != base.taken.stamps[p.file] {
		return Draft{}, nil, ErrOther
	}
	for i, c := range p.changes {
		if c.Was != "" && c.Was != p.inputs[i].Text {
			return Draft{}, nil, ErrOther
		}
	}
	if strings.EqualFold(path.Ext(p.file), ".csv") {
		return r.cells(ctx, base, p, text)
	}
	return r.used(ctx, p, text)
}

// used puts values into a page that is used, where they go under other names.
func (r *Room) used(ctx context.Context, p part, text []byte) (Draft, []Problem, error) {
	there := Open(r.files.files, p.file, text, r.options)
	changes := make([]Change, len(p.changes))
	for i, c := range p.changes {
		_, name, _ := strings.Cut(c.Name, ".") // behind the name under which the file is used
		changes[i] = Change{Name: name, Text: c.Text, Was: p.inputs[i].Text}
	}
	kept, problems, err := there.Keep(ctx, stamp(text), changes)
	for i := range problems {
		if k := slices.IndexFunc(changes, func(c Change) bool { return c.Name == problems[i].Name }); k >= 0 {
			problems[i].Name = p.changes[k].Name
		}
	}
	if err != nil || len(problems) > 0 {
		return Draft{}, problems, err
	}
	return Draft{p.file, text, kept.Text}, nil, nil
}

// cells puts values into a file of data, and looks at all that can be changed in what
// came of it.
func (r *Room) cells(ctx context.Context, base *work, p part, text []byte) (Draft, []Problem, error) {
	d := Draft{p.file, text, slices.Clone(text)}
	order := make([]int, len(p.inputs))
	for i, in := range p.inputs {
		order[i] = i
		if string(text[in.at.Start:in.at.End]) != in.Text {
			return Draft{}, []Problem{noPlace(in.Name, in)}, nil
		}
	}
	slices.SortFunc(order, func(a, b int) int { return p.inputs[b].at.Start - p.inputs[a].at.Start })
	for _, i := range order {
		at := p.inputs[i].at
		d.New = slices.Replace(d.New, at.Start, at.End, []byte(p.changes[i].Text)...)
	}
	doc, load, _ := worksheet.Document(ctx, instead{r.files.files, d.File, d.New}, r.path, r.text)
	if doc == nil {
		return Draft{}, nil, ErrLost
	}
	return d, nil, same(base.inputs, inputs(doc, evaluate.Inputs(ctx, doc.Sheet(), load)), p.changes)
}

// instead are files of which one holds something else.
type instead struct {
	worksheet.Files
	name string
	text []byte
}

func (f instead) Read(name string) ([]byte, error) {
	if path.Clean(name) == f.name {
		return f.text, nil
	}
	return f.Files.Read(name)
}
