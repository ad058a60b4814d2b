package run

// A store is the value of each definition, on pages that a fork shares with the
// machine that it was made from until it writes on them: thousands of what-ifs, each
// of which touches a few definitions of a long sheet, take no copy of all values.
// What a store was forked from is not to be written to while the fork is in use.
type store struct {
	pages [][]any
	own   []bool // by page: it is this store's, to be written on
}

// pageSize is how many values stand on a page.
const pageSize = 64

func newStore(n int) store {
	pages := (n + pageSize - 1) / pageSize
	s := store{pages: make([][]any, pages), own: make([]bool, pages)}
	all := make([]any, pages*pageSize)
	for i := range s.pages {
		s.pages[i], s.own[i] = all[i*pageSize:(i+1)*pageSize:(i+1)*pageSize], true
	}
	return s
}

func (s *store) at(id int) any { return s.pages[id/pageSize][id%pageSize] }

func (s *store) put(id int, v any) {
	page := id / pageSize
	if !s.own[page] {
		s.pages[page] = append([]any(nil), s.pages[page]...)
		s.own[page] = true
	}
	s.pages[page][id%pageSize] = v
}

// fork is a store with the same values, and its own from here on.
func (s *store) fork() store {
	return store{pages: append([][]any(nil), s.pages...), own: make([]bool, len(s.pages))}
}
