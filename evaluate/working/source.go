package working

import (
	"cmp"
	"context"
	"regexp"
	"slices"
	"sort"
	"strings"
	"sync"

	"inkwing/evaluate/check"
	"inkwing/evaluate/message"
	"inkwing/evaluate/sheet"
	"inkwing/evaluate/syntax"
)

// A Source reads and parses a sheet and what it uses, each once.
type Source struct {
	Main   *sheet.Sheet
	Sheets map[string]*sheet.Sheet // those read, by name
	Inputs map[string]*check.Input // the same, parsed
	Found  map[Use]string          // the sheet that each use names
	// Swap puts other statements or tables in place of some of a sheet's, before
	// it is checked; nil for a sheet as it stands.
	Swap func(*check.Input)
	// Typed are texts by the name that messages give them: what a builder typed,
	// which stands in no file.
	Typed map[string]string
	// Anew reports whether a statement is to be read anew that an earlier source has read;
	// nil for none.
	Anew    func(syntax.Statement) bool
	earlier map[string]*check.Input // of an earlier source
	load    sheet.Loader
}

// A Use is a use statement's path and the sheet that says it.
type Use struct{ From, Path string }

// NewSource is a sheet, and the way to what it uses.
func NewSource(main *sheet.Sheet, load sheet.Loader) *Source {
	return &Source{
		Main: main, load: load, Sheets: map[string]*sheet.Sheet{main.Name: main},
		Inputs: map[string]*check.Input{}, Found: map[Use]string{},
	}
}

// Again is a source of the same sheets as this one read them, to be checked anew.
func (s *Source) Again() *Source { return s.Next(s.Main, read{s}) }

// Next is the source of a sheet that came of this one's by an edit: what stands in it as it
// stood is not parsed again.
func (s *Source) Next(main *sheet.Sheet, load sheet.Loader) *Source {
	next := NewSource(main, load)
	next.earlier = s.Inputs
	return next
}

// read gives what a source has read.
type read struct{ *Source }

func (r read) Load(from, path string) (*sheet.Sheet, error) {
	if name, ok := r.Found[Use{from, path}]; ok {
		return r.Sheets[name], nil
	}
	return r.load.Load(from, path)
}

// use loads what a sheet uses. A file without blocks and with one table is
// data: it has no tree.
func (s *Source) use(ctx context.Context, from, path string) (*check.Input, error) {
	used, err := s.Load(Use{from, path})
	if err != nil {
		return nil, err
	}
	s.Found[Use{from, path}] = used.Name
	if in, ok := s.Inputs[used.Name]; ok {
		return in, nil
	}
	s.Sheets[used.Name] = used
	return s.input(ctx, used), nil
}

// Load loads what a use statement names, anew.
func (s *Source) Load(u Use) (*sheet.Sheet, error) { return s.load.Load(u.From, u.Path) }

// input is a sheet as text and tree.
func (s *Source) input(ctx context.Context, x *sheet.Sheet) *check.Input {
	in := &check.Input{Name: x.Name, Tables: x.Tables}
	if !x.Data {
		e := syntax.Earlier{Anew: s.Anew}
		if before := s.earlier[x.Name]; before != nil {
			e.Tree = before.Tree
		}
		in.Tree, in.Problems = syntax.ParseAfter(ctx, x.Name, x.Blocks, e)
		in.Unread = unread(x, in.Problems, in.Tree.Conflicts)
	}
	if s.Swap != nil {
		s.Swap(in)
	}
	s.Inputs[x.Name] = in
	return in
}

// beginning is the name that a definition or function begins with.
var beginning = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^\s*([\pL_][\pL\pN_]*)`) })

// anyWithin reports whether one of some places, in order, stands on a line.
func anyWithin(starts []int, l syntax.Line) bool {
	i, _ := slices.BinarySearch(starts, l.Offset)
	return i < len(starts) && starts[i] <= l.Offset+len(l.Text)
}

// anyAround reports whether a line begins in one of some spans, in order.
func anyAround(spans []message.Span, l syntax.Line) bool {
	i := sort.Search(len(spans), func(i int) bool { return spans[i].Start > l.Offset })
	return i > 0 && l.Offset < spans[i-1].End
}

// unread are the names of the lines that could not be parsed, each found at the
// margin line of its statement.
func unread(s *sheet.Sheet, problems []message.Diagnostic, conflicts []message.Span) []string {
	if len(problems)+len(conflicts) == 0 {
		return nil
	}
	var names []string
	starts := make([]int, len(problems))
	for i, p := range problems {
		starts[i] = p.Span.Start
	}
	slices.Sort(starts)
	conflicts = slices.Clone(conflicts)
	slices.SortFunc(conflicts, func(a, b message.Span) int { return cmp.Compare(a.Start, b.Start) })
	for _, b := range s.Blocks {
		margin, name := 0, ""
		for i, l := range b.Lines {
			indent := len(l.Text) - len(strings.TrimLeft(l.Text, " \t"))
			if i == 0 {
				margin = indent
			}
			if m := beginning().FindStringSubmatch(l.Text); m != nil && indent <= margin {
				name = m[1]
			}
			if name != "" && (anyWithin(starts, l) || anyAround(conflicts, l)) {
				names = append(names, name)
			}
		}
	}
	return names
}
