// Package check finds out what the statements of a sheet mean: names,
// dimensions and types, every error of a file at once.
//
// [Check] makes a [program.Program] of a sheet and what it uses. Nothing is
// evaluated here.
package check

import (
	"context"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/reach"
	"inkwing/evaluate/syntax"
)

// Bounds of one run, each said in the message that names it.
const (
	MaxUseDepth   = 16     // a sheet that uses a sheet that uses …
	MaxExpression = 20_000 // nodes of one statement, the builder's functions put in
)

// An Input is a sheet as text and tree.
type Input struct {
	Name     string
	Tree     *syntax.Tree
	Tables   []*syntax.Table
	Problems []message.Diagnostic // found while reading and parsing
	// Unread are the names that lines begin with which could not be parsed:
	// what needs them waits, and causes no second error.
	Unread []string
}

// Load finds what a sheet uses; its error is shown to the builder.
type Load func(from, path string) (*Input, error)

// An analysis is a program while it is being checked.
type analysis struct {
	*program.Program
	ctx    context.Context // of the one check that the analysis is made for
	late   bool            // it is done, and that is said
	load   Load
	sheets map[*program.Sheet]*sheet
	byName map[string]*sheet
	open   []string // the chain of sheets being collected
	// uncertain counts the deviations so far, against maxDeviations.
	uncertain int
	owners    [][2]*program.Def // deviations, and the definitions in which they stand
	// read counts the cells of all tables so far, against program.MaxCells.
	read int
	// values counts the numbers of all definitions so far, against maxValues, and
	// pairs the what-ifs with a limit each that they touch, against maxPairs.
	values, pairs int
	// looked counts the cells that lines look at, against maxLooked, and put the parts of the
	// builder's functions that are put in for their calls, against maxPut.
	looked, put int
	// cells are the deviations of a table's cells, by their place.
	cells       map[*program.Def]map[message.Span]*program.Def
	speller     message.Speller
	instead     reachWalk // to what can be changed in the place of what is worked
	reach       reach.Finder
	paramPlaces map[*syntax.Param]map[string]int  // of a function, by the first of them
	places      map[*program.Field]map[string]int // of many fields, by the first of them; see place
	keys        map[*program.Rows][]string        // names of rows in order, once asked for
	measured    map[*program.Def]bool             // is it data, once asked for
	called      map[*program.Def]bool             // functions that a call has checked
	failing     map[*program.Def]int              // functions that fail with any call: which problem says so
	exhausted   map[*program.Def]bool             // MaxExpression was passed, and said
}

// A sheet is one that is being checked.
type sheet struct {
	*program.Sheet
	unread    map[string]bool // see Input.Unread
	own       reach.Functions // its function
	spelling  []string        // its names in order, once asked for
	calls     []string        // what it can call, the same
	functions []*program.Def
	// digitsNames are what digits statements name, to be looked up when all
	// names are known.
	digitsNames []syntax.Ident
	// deviations are those of each ± and within, and of each call that knows its
	// own uncertainty.
	deviations map[syntax.Expr][]*program.Def
	// stands are the definitions of numbers that a what-if changes without a name:
	// by what is written there, and by each address of it.
	stands map[syntax.Expr]*program.Def
	// unreached says of an address why it finds none.
	unreached map[syntax.Expr]*reach.Trouble
}

func (s *sheet) say(d message.Diagnostic) { s.Problems = append(s.Problems, d) }

func (s *sheet) fail(at message.Span, summary, hint string) {
	s.say(message.Diagnostic{Span: at, Summary: summary, Hint: hint})
}

// of is the sheet of a definition.
func (a *analysis) of(d *program.Def) *sheet { return a.sheets[d.Sheet] }

// fail puts a definition's own line in error.
func (a *analysis) fail(d *program.Def, at message.Span, summary, hint string) {
	d.Failed = true
	a.of(d).fail(at, summary, hint)
}

// checker checks the expressions of a definition.
func (a *analysis) checker(d *program.Def) *checker {
	return &checker{whole: a, def: d, sheet: a.of(d)}
}
