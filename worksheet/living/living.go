// Package living makes a page that works itself: it carries its sources and, beside
// them, the evaluator as WebAssembly, so that a reader tries other values with
// nothing installed and no network.
//
// [Document] writes such a page on the maker's side. On the reader's, the evaluator
// opens what the page carries with [Open] and answers the page's script by
// [Sheet.Work] and [Sheet.Keep], in JSON. Its limit: blocks that ask of other
// journals stay as they were when the page was made.
package living

import (
	"context"
	"encoding/json"
	"errors"
	"path"

	"inkwing/worksheet"
	"inkwing/worksheet/packing"
	"inkwing/worksheet/page"
	"inkwing/worksheet/reading"
)

// A Sheet is a worksheet that is open inside of its page.
type Sheet struct {
	room *reading.Room
	pack *packing.Pack
	asks bool // of other journals
}

// Open opens what a page carries, as the JSON that is packed in it, and works it, so
// that what is tried can be compared with it.
func Open(ctx context.Context, carried []byte) (*Sheet, error) {
	pack := &packing.Pack{}
	if err := json.Unmarshal(carried, pack); err != nil {
		return nil, err
	}
	text, err := pack.Read(pack.Sheet)
	if err != nil {
		return nil, err
	}
	doc, _, refused := worksheet.Document(ctx, pack, pack.Sheet, text)
	if doc == nil {
		return nil, errors.New(refused[0].Summary)
	}
	s := &Sheet{room: reading.Open(pack, pack.Sheet, text, reading.Options{Link: pack.Link()}), pack: pack}
	for _, b := range doc.Blocks {
		s.asks = s.asks || page.Asks(b.Word)
	}
	_, err = s.room.Work(ctx, "", nil)
	return s, err
}

// A question is what the page's script asks.
type question struct {
	Since   string           `json:"since"`
	File    string           `json:"file"`
	Changes []reading.Change `json:"changes"`
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
	a, err := s.room.Work(ctx, since, changes)
	if err != nil {
		return nil, err
	}
	kept := a.Sections[:0]
	for _, section := range a.Sections {
		if !page.IsAsked(section.HTML) {
			kept = append(kept, section)
		}
	}
	a.Sections = kept
	return a, nil
}

// A saved is the worksheet with what was tried in it, ready to be put away as a file.
type saved struct {
	Name   string          `json:"name,omitempty"`
	Text   string          `json:"text,omitempty"`
	Answer *reading.Answer `json:"answer"`
}

// Keep answers with the changed worksheet, its results worked anew, and with the page
// as it stands from then on.
func (s *Sheet) Keep(ctx context.Context, asked []byte) ([]byte, error) {
	var q question
	if err := json.Unmarshal(asked, &q); err != nil {
		return nil, err
	}
	kept, problems, err := s.room.Keep(ctx, q.File, q.Changes)
	if err != nil {
		return nil, err
	}
	out := saved{}
	if len(problems) == 0 {
		s.room.Save(kept.Text)
		out.Name, out.Text = path.Base(s.pack.Sheet), string(s.worked(ctx, kept.Text))
	}
	if out.Answer, err = s.answer(ctx, q.Since, nil); err != nil {
		return nil, err
	}
	out.Answer.Problems = append(out.Answer.Problems, problems...)
	return json.Marshal(out)
}

// worked is the text with its results brought up to date, so that none stands there
// that is no longer right. Where it asks of journals that are not here, it is left to
// the next run.
func (s *Sheet) worked(ctx context.Context, text []byte) []byte {
	if s.asks {
		return text
	}
	r := worksheet.WorkText(ctx, s.pack, s.pack.Sheet, text)
	if len(r.Refused) > 0 {
		return text
	}
	return r.Output
}
