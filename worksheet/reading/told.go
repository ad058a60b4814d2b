package reading

import (
	"fmt"
	"hash/fnv"
	"slices"

	"inkwing/worksheet/page"
)

// Told is what readers were told, by the hashes of the sections: the last states,
// and the last one that was saved. A reader with an older one is told all.
type Told struct{ states []*state }

// A state is what a reader was sent.
type state struct {
	stamp, file string
	saved       bool
	order       []string
	hashes      map[string]uint64
}

// mostTold bounds the states that are kept.
const mostTold = 32

// Answer is an answer with the sections of a page that is no worksheet, for a
// reader with the state of that stamp.
func (t *Told) Answer(since, title string, sections []page.Section) *Answer {
	a := &Answer{Title: title, Holds: true}
	t.tell(a, t.find(since), sections, true)
	return a
}

// tell puts into an answer what somebody with a state, nil for none, does not have.
func (t *Told) tell(a *Answer, had *state, sections []page.Section, saved bool) {
	now := t.add(a.File, sections, saved)
	a.Stamp, a.Order = now.stamp, now.order
	for _, s := range sections {
		if had == nil || had.hashes[s.ID] != now.hashes[s.ID] {
			a.Sections = append(a.Sections, Section{s.ID, s.HTML})
		}
	}
}

// add keeps a state, as the last one.
func (t *Told) add(file string, sections []page.Section, saved bool) *state {
	now := stateOf(file, sections)
	now.saved = saved
	t.states = slices.DeleteFunc(t.states, func(s *state) bool { return s.stamp == now.stamp })
	if saved {
		for _, s := range t.states {
			s.saved = false
		}
	}
	if t.states = append(t.states, now); len(t.states) > mostTold {
		first := slices.IndexFunc(t.states, func(s *state) bool { return !s.saved })
		t.states = slices.Delete(t.states, first, first+1)
	}
	return now
}

func stateOf(file string, sections []page.Section) *state {
	now := &state{file: file, hashes: make(map[string]uint64, len(sections))}
	all := fnv.New64a()
	for _, x := range sections {
		h := fnv.New64a()
		h.Write([]byte(x.HTML))
		now.hashes[x.ID], now.order = h.Sum64(), append(now.order, x.ID)
		fmt.Fprintln(all, x.ID, h.Sum64())
	}
	now.stamp = fmt.Sprintf("%016x", all.Sum64()) + file
	return now
}

func (t *Told) find(stamp string) *state {
	for _, s := range t.states {
		if s.stamp == stamp {
			return s
		}
	}
	return nil
}
