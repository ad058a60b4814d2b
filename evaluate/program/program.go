// Package program is a checked sheet with all that it uses: what its lines mean,
// apart from how that was found out and from how it is evaluated.
//
// A [Program] holds every definition, numbered, and the graph of what needs
// what. What a [Def] is stands in its Body, of which there is one type a kind of
// definition; its expressions are trees of [Node], each with its [Type] and the
// place of what the builder wrote.
package program

import (
	"inkwing/evaluate/graph"
	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
)

// A Program is a sheet and all that it uses, checked.
type Program struct {
	Main     *Sheet
	Sheets   []*Sheet
	Defs     []*Def // all of them, functions last; Defs[i].ID == i
	Graph    *graph.Graph
	Problems []message.Diagnostic // of the main sheet, unsorted
	// Correlations are those of typed values, of the used sheets too.
	Correlations []Correlation
}

// A Sheet is one file's names.
type Sheet struct {
	Name      string
	Tree      *syntax.Tree // nil for a file that is one table
	Defs      []*Def       // in the order of the file, without the functions
	Functions map[string]*Def
	Names     map[string]*Def
	Uses      map[string]*Sheet // by the name it goes under; see Use
	under     map[*Sheet]string // the first of the names that each goes under
	UsesOrder []string
	Digits    int             // 0 when not said
	DigitsOf  map[string]int  // by name with dots
	Draws     int             // of draws; 0 when not said
	Broken    map[string]bool // what could not be used
	Problems  []message.Diagnostic
}

// Statements are the sheet's statements in the order of the file.
func (s *Sheet) Statements() []syntax.Statement {
	if s.Tree == nil {
		return nil
	}
	return s.Tree.Statements
}

// Use notes that a sheet uses another one by a name.
func (s *Sheet) Use(name string, used *Sheet) {
	if s.Uses == nil {
		s.Uses = map[string]*Sheet{}
	}
	if s.under == nil {
		s.under = map[*Sheet]string{}
	}
	s.Uses[name] = used
	if first, ok := s.under[used]; !ok || name < first {
		s.under[used] = name
	}
}

// Under is the name that a sheet uses another one by: of several the first in
// order. False where it does not use it itself.
func (s *Sheet) Under(used *Sheet) (first string, ok bool) {
	first, ok = s.under[used]
	return first, ok
}
