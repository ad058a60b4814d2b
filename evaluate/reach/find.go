package reach

import (
	"slices"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
)

// A Trouble is why a number cannot be changed by its address, and how it can be.
type Trouble struct {
	Summary, Hint string
	Unknown       bool // it is a cell in which nothing stands so far
}

// Find is the argument of a quantity that an address means: value is the right side
// of the quantity's definition. It may be worked: then it is another in that call, and
// what it is worked from stays.
func (f *Finder) Find(x *syntax.Argument, value syntax.Expr, own Functions) (*Argument, *Trouble) {
	s := search{line: f.line(value, own), x: x, of: syntax.Source(x.Of), speller: &f.speller}
	found := s.given(x)
	switch {
	case len(found) == 0:
		return nil, s.missing()
	case found[0].rest:
		return nil, s.unnamed(found[0])
	case len(found) > 1:
		return nil, s.several(found)
	case found[0].row && !found[0].Plain():
		return nil, &Trouble{Summary: s.address(pathOf(x)) + " is worked for each row", Hint: "a number in it can be changed under a name of its own"}
	}
	return found[0], nil
}

// search is for one address.
type search struct {
	*line
	x       *syntax.Argument
	of      string // the quantity, as written
	speller *message.Speller
}

// address is how another argument of the quantity is written.
func (s *search) address(path string) string { return message.Quote(s.of + "(" + path + ")") }

// missing says what there is where the argument is none of the quantity's.
func (s *search) missing() *Trouble {
	if len(s.all) == 0 {
		return s.noCall()
	}
	if p := s.missed(s.x); p != nil {
		t := &Trouble{Summary: message.Quote(p.Name) + " is not given in " + message.Quote(s.of), Hint: "write " + message.Quote(p.Name+": …") + " into the call"}
		if p.Shown != "" {
			t.Summary += ", and taken as " + p.Shown
			t.Hint = "write " + message.Quote(p.Name+": "+p.Shown) + " into the call, and it can be changed"
		}
		return t
	}
	return &Trouble{Summary: "no call in " + message.Quote(s.of) + " is given " + message.Quote(pathOf(s.x)), Hint: s.others()}
}

func (s *search) noCall() *Trouble {
	t := &Trouble{Summary: message.Quote(s.of) + " is no call, and has no arguments", Hint: "give the number in it a name of its own on a line above"}
	if syntax.Plain(s.value) {
		t.Hint = "it is a plain value itself: write " + message.Quote(s.of)
	}
	return t
}

// pathOf is what an address has in its brackets.
func pathOf(x *syntax.Argument) string {
	if x.Func.Name != "" {
		return x.Func.Name + "." + x.Name.Name
	}
	return x.Name.Name
}

// others names what can be changed in the quantity.
func (s *search) others() string {
	if near := s.speller.Nearest(pathOf(s.x), s.paths); near != "" {
		return "did you mean " + s.address(near) + "?"
	}
	if len(s.paths) == 0 {
		return "give the number in it a name of its own on a line above"
	}
	all := slices.Clone(s.paths[:min(len(s.paths), message.Listed+1)])
	for i, path := range all {
		all[i] = s.of + "(" + path + ")"
	}
	return "what can be changed in it is " + message.Names(all)
}

// unnamed is about the arguments that a function takes as a list.
func (s *search) unnamed(a *Argument) *Trouble {
	return &Trouble{Summary: "what " + message.Quote(a.Func) + " takes in " + message.Quote(s.of) + " is a list, and its values have no names",
		Hint: "give the value that changes a name of its own on a line above"}
}

// several is about an argument that more than one call has.
func (s *search) several(found []*Argument) *Trouble {
	t := &Trouble{Summary: "several calls in " + message.Quote(s.of) + " are given " + message.Quote(s.x.Name.Name)}
	var ways []string
	for _, a := range found[:min(len(found), message.Listed)] {
		if a.Path == "" {
			t.Hint = "give the number that changes a name of its own on a line above"
			return t
		}
		ways = append(ways, s.address(a.Path))
	}
	if len(found) > len(ways) {
		ways = append(ways, "…")
	}
	t.Hint = "say which: " + strings.Join(ways, " or ")
	return t
}
