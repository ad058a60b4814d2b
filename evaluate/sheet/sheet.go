// Package sheet is what a worksheet holds for the language: text with places.
//
// A [Sheet] comes out of a Markdown file or a table of data, and a [Loader] finds
// those that it uses. [Sheet.Text] gives back what the builder wrote.
package sheet

import (
	"sync"

	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
)

// A Sheet is what a worksheet holds for the language, as text with places.
type Sheet struct {
	Name   string // path from the run's root, with slashes
	Blocks []syntax.Block
	Tables []*syntax.Table
	Inline []Inline
	Data   bool // a file that is one table and nothing else: CSV

	once   sync.Once
	filled []int // see withLines
}

// An Inline is a code span `name [unit] = …` in the prose.
type Inline struct {
	Span message.Span // of the span's inside, the ticks left out
	Name string       // as written: "t_fly", "store.capacitance"
	At   message.Span // of the name
	Unit syntax.Unit  // inside the brackets
	// IsData reports that it is a cell of a data table: what is wrong with it is
	// found where the table is checked.
	IsData bool
}

// A Loader finds what a sheet uses. Path is as written in the use statement,
// from is the name of the sheet that says it. The error's text is shown to the
// builder behind the path: lower case, no full stop.
type Loader interface {
	Load(from, path string) (*Sheet, error)
}
