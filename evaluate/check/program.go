// Package check finds out what the statements of a sheet mean: names,
// dimensions and types, every error of a file at once.
//
// [Check] is its verb. A [Program] holds every definition of the sheet and of
// what it uses, numbered, each with its checked expression, and the graph of
// what needs what. Nothing is worked here.
package check

import (
	"strings"

	"inkwing/evaluate/graph"
	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// Bounds of one run, each said in the message that names it.
const (
	MaxUseDepth   = 16      // a sheet that uses a sheet that uses …
	MaxRows       = 100_000 // rows of a table
	MaxExpression = 20_000  // nodes of one statement, the builder's functions put in
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

// A Program is a sheet and all that it uses, checked.
type Program struct {
	Main     *Sheet
	Sheets   []*Sheet
	Defs     []*Def // all of them; Defs[i].ID == i
	Graph    *graph.Graph
	Problems []message.Diagnostic // of the main sheet, unsorted
}

// A Sheet is one file's names.
type Sheet struct {
	Name      string
	Defs      []*Def // in the order of the file
	Functions map[string]*Function
	Names     map[string]*Def
	Uses      map[string]*Sheet // by the name it goes under
	UsesOrder []string
	Digits    int            // 0 when not said
	DigitsOf  map[string]int // by name with dots
	Draws     int            // of draws; 0 when not said
	Broken    []string       // what could not be used
	problems  []message.Diagnostic
	// digitsNames are what digits statements name, to be looked up when all
	// names are known.
	digitsNames []syntax.Ident
	// offsets are those of each ± and within, and of each call that knows its
	// spread.
	offsets map[syntax.Expr][]*Def
	input   Input
}

// Role says what a definition is for.
type Role uint8

// The roles.
const (
	Value   Role = iota // name = expression
	Data                // a table
	Bound               // a limit
	Offset              // how far an uncertain value stands off its middle: 0 unless a study says otherwise
	Reading             // measured a = value
	Budget              // budget a
	Chart               // chart "title": …
)

// A Def is one numbered definition.
type Def struct {
	ID    int
	Sheet *Sheet
	Role  Role
	Name  string
	Place message.Span // of the name
	Stmt  syntax.Statement
	Block int
	Unit  units.Unit // shown in; the zero unit when not said
	Given bool       // a plain value
	Type  Type
	Node  Node   // of a Value
	Bound []Node // of a limit: its operands
	Ops   []string
	Rows  *Rows // of a Data
	// Drawing is what a Chart draws.
	Drawing *Drawing

	// Doubt is what an Offset is made of; nil where its line failed.
	Doubt *Doubt

	// Limits are those that a study's variables touch: worked before it, and
	// tested again at each of its values.
	Limits []*Def

	// Failed says that its own line is in error; Waits names what it waits for
	// because that failed. Both leave Type nil.
	Failed bool
	Waits  string

	// Converted says that a plain value is shown in another unit than the one it
	// is written in: then it is a result too.
	Converted bool

	touched   map[int]bool // of a study: its variables and what depends on them
	exhausted bool         // MaxExpression was passed, and said
	cells     *syntax.Table
	unsure    map[message.Span]*Def // the offset of a cell, by its place
	needs     []int
}

// OK reports whether the definition can be worked.
func (d *Def) OK() bool { return !d.Failed && d.Waits == "" }

// Function is a function of the builder's own.
type Function struct {
	Stmt    *syntax.Function
	Sheet   *Sheet
	ID      int // in the graph, behind the definitions
	Failed  bool
	checked map[string]Node
}

// Needs are the numbers of what the definition names; those past the last
// definition are functions.
func (d *Def) Needs() []int { return d.needs }

// Shown is the definition's name as a sheet would write it: parts.n_series for
// one of a used sheet.
func (d *Def) Shown(from *Sheet) string {
	if d.Sheet == from {
		return d.Name
	}
	for name, used := range from.Uses {
		if used == d.Sheet {
			return name + "." + d.Name
		}
	}
	return d.Name
}

// Statements are the sheet's statements in the order of the file.
func (s *Sheet) Statements() []syntax.Statement {
	if s.input.Tree == nil {
		return nil
	}
	return s.input.Tree.Statements
}

// RowText is the table row or heading on which a place stands, as text.
func (d *Def) RowText(at message.Span) (string, bool) {
	for _, row := range append([][]syntax.Cell{d.cells.Head}, d.cells.Rows...) {
		if len(row) > 0 && row[0].Span.File == at.File && row[0].Span.Start <= at.Start && at.Start <= row[len(row)-1].Span.End {
			texts := make([]string, len(row))
			for i, c := range row {
				texts[i] = c.Text
			}
			return strings.Join(texts, " | "), true
		}
	}
	return "", false
}

// Index is a field's place in the record, -1 for none.
func (r *Record) Index(name string) int { return find(r.Fields, name) }

// UnitSays is a units error in two sentences: what is wrong, what mends it.
func UnitSays(err error) (summary, hint string) { return unitSays(err) }

// Problems are what is wrong in the sheet, unsorted.
func (s *Sheet) Problems() []message.Diagnostic { return s.problems }
