// Package living makes a page that works itself: it carries its sources and, beside
// them, the evaluator as WebAssembly, so that a reader tries other values with
// nothing installed and no network.
//
// [Document] writes such a page on the maker's side. On the reader's, the evaluator
// opens what the page carries with [Open] and answers the page's script by
// [Sheet.Glance], [Sheet.Work] and [Sheet.Keep], in JSON. Its limit: blocks that ask of other
// journals stay as they were when the page was made, and are named in each answer that
// does not bear on them.
package living

import (
	"context"
	"encoding/json"
	"errors"
	"path"
	"slices"
	"strings"

	"inkwing/worksheet"
	"inkwing/worksheet/markdown"
	"inkwing/worksheet/packing"
	"inkwing/worksheet/page"
	"inkwing/worksheet/reading"
)

// A Sheet is a worksheet that is open inside of its page.
type Sheet struct {
	room  *reading.Room
	pack  *packing.Pack
	began bool     // it was worked as it stands
	asks  []string // the sections that ask of other journals, from then on
	other bool     // it holds something else than the page was made from
}

// Open opens what a page carries, as the JSON that is packed in it. Changed are files that
// were saved in other words since, by their path, as JSON; it may be empty.
func Open(ctx context.Context, carried, changed []byte) (*Sheet, error) {
	pack := &packing.Pack{}
	if err := json.Unmarshal(carried, pack); err != nil {
		return nil, err
	}
	other, err := replaced(pack, changed)
	if err != nil {
		return nil, err
	}
	text, err := pack.Read(pack.Sheet)
	if err != nil {
		return nil, err
	}
	s := &Sheet{room: reading.Open(pack, pack.Sheet, text, reading.Options{Link: pack.Link()}), pack: pack, other: other}
	s.room.Glance(ctx, nil)
	return s, nil
}

// Begin works the page as it stands, so that what is tried can be compared with it. An
// answer does so by itself, which then takes the longer for it.
func (s *Sheet) Begin(ctx context.Context) error {
	if s.began {
		return nil
	}
	a, err := s.room.Work(ctx, "", nil)
	if err != nil {
		return err
	}
	if len(a.Problems) > 0 {
		return errors.New(a.Problems[0].Summary)
	}
	for _, section := range a.Sections {
		if page.IsAsked(section.HTML) {
			s.asks = append(s.asks, section.ID)
		}
	}
	s.began = true
	return nil
}

// replaced puts changed files into a pack, and reports whether there were any.
func replaced(pack *packing.Pack, changed []byte) (bool, error) {
	files := map[string]string{}
	if len(changed) > 0 {
		if err := json.Unmarshal(changed, &files); err != nil {
			return false, err
		}
	}
	for name, text := range files {
		if err := pack.Replace(name, []byte(text)); err != nil {
			return false, err
		}
	}
	return len(files) > 0, nil
}

// A question is what the page's script asks.
type question struct {
	Since   string           `json:"since"`
	File    string           `json:"file"`
	Changes []reading.Change `json:"changes"`
}

// Glance answers a question at first: which results move, by their values alone.
func (s *Sheet) Glance(ctx context.Context, asked []byte) ([]byte, error) {
	var q question
	if err := json.Unmarshal(asked, &q); err != nil {
		return nil, err
	}
	return json.Marshal(s.room.Glance(ctx, q.Changes))
}

// Work answers a question for what is tried: the sections that differ.
func (s *Sheet) Work(ctx context.Context, asked []byte) ([]byte, error) {
	var q question
	if err := json.Unmarshal(asked, &q); err != nil {
		return nil, err
	}
	a, err := s.answer(ctx, q.Since, q.Changes)
	if err != nil {
		return nil, err
	}
	return json.Marshal(a)
}

func (s *Sheet) answer(ctx context.Context, since string, changes []reading.Change) (*reading.Answer, error) {
	if err := s.Begin(ctx); err != nil {
		return nil, err
	}
	a, err := s.room.Work(ctx, since, changes)
	if err != nil {
		return nil, err
	}
	a.Sections = slices.DeleteFunc(a.Sections, func(section reading.Section) bool { return page.IsAsked(section.HTML) })
	if s.other || len(changes) > 0 {
		a.AsMade = s.asks
	}
	return a, nil
}

// A saved is what was changed by what was tried, ready to be put away as files.
type saved struct {
	Files  []file          `json:"files,omitempty"` // the page's own last
	Answer *reading.Answer `json:"answer"`
}

// A file is one of them: its path among what is carried, and a name by itself.
type file struct {
	Path string `json:"path"`
	Name string `json:"name"`
	Text string `json:"text"`
}

// Keep answers with the changed files, the results in them worked anew, and with the
// page as it stands from then on.
func (s *Sheet) Keep(ctx context.Context, asked []byte) ([]byte, error) {
	var q question
	if err := json.Unmarshal(asked, &q); err != nil {
		return nil, err
	}
	drafts, _, problems, err := s.room.Drafts(ctx, q.File, q.Changes)
	if err != nil {
		return nil, err
	}
	out := saved{}
	if len(problems) == 0 {
		if out.Files, err = s.save(ctx, drafts); err != nil {
			return nil, err
		}
	}
	if out.Answer, err = s.answer(ctx, q.Since, nil); err != nil {
		return nil, err
	}
	out.Answer.Problems = append(out.Answer.Problems, problems...)
	return json.Marshal(out)
}

// save has the pack hold what was tried, and gives what became another by that: those
// files, and the page's own where its results did.
func (s *Sheet) save(ctx context.Context, drafts []reading.Draft) (files []file, err error) {
	var names []string
	for _, d := range drafts {
		if err := s.pack.Replace(d.File, d.New); err != nil {
			return nil, err
		}
		names = append(names, d.File)
	}
	own, err := s.pack.Read(s.pack.Sheet)
	if err != nil {
		return nil, err
	}
	if !slices.Contains(names, s.pack.Sheet) && string(s.worked(ctx, s.pack.Sheet, own)) != string(own) {
		names = append(names, s.pack.Sheet)
	}
	for _, name := range names {
		text, err := s.pack.Read(name)
		if err == nil {
			text = s.worked(ctx, name, text)
			err = s.pack.Replace(name, text)
		}
		if err != nil {
			return nil, err
		}
		files = append(files, file{name, alone(name, names), string(text)})
	}
	s.other = true
	own, err = s.pack.Read(s.pack.Sheet)
	s.room.Save(own)
	return files, err
}

// alone is a file's name without its folders, which a browser would leave out; they
// are written into it where another one has the same.
func alone(name string, names []string) string {
	for _, n := range names {
		if n != name && path.Base(n) == path.Base(name) {
			return strings.ReplaceAll(name, "/", "-")
		}
	}
	return path.Base(name)
}

// worked is a worksheet with its results brought up to date, so that none stands there
// that is no longer right. Where it asks of journals that are not here, it is left to
// the next run, and so is what is no worksheet.
func (s *Sheet) worked(ctx context.Context, name string, text []byte) []byte {
	if !strings.EqualFold(path.Ext(name), ".md") {
		return text
	}
	doc, _, _ := worksheet.Document(ctx, s.pack, name, text)
	if doc == nil || slices.ContainsFunc(doc.Blocks, func(b markdown.Block) bool { return page.Asks(b.Word) }) {
		return text
	}
	r := worksheet.WorkText(ctx, s.pack, name, text)
	if len(r.Refused) > 0 {
		return text
	}
	return r.Output
}
