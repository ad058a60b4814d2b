package syntax

import "inkwing/evaluate/message"

// A Line is one line of a working block and the file offset of its first byte.
// Byte k of Text stands at Offset+k in the file; a tab that the container
// turned into spaces may make the first few of these point before the line.
type Line struct {
	Text   string // without its line end
	Offset int
}

// A Block is the inside of one working block.
type Block struct{ Lines []Line }

// A Tree is what the working blocks of a file say, in order.
type Tree struct {
	File       string
	Statements []Statement
	Conflicts  []message.Span // lines that a merge left undecided, of which nothing was read
	read       map[int]known  // the statements, by where their lines begin in the file
}

// A known statement is one with the lines that it was read from.
type known struct {
	lines     logicalLine
	statement Statement
}

// A Statement is one line of a working block with its continuations.
type Statement interface {
	Place() message.Span // from its first byte to its last, the note left out
	Common() *Head
}

// Head is what every statement has.
type Head struct {
	Span  message.Span
	Block int    // index of its block in the file
	Note  string // the comment behind it, without # and blanks around
}

// Place is the statement's span.
func (h *Head) Place() message.Span { return h.Span }

// Common is the statement's head.
func (h *Head) Common() *Head { return h }

// The statements.
type (
	// Definition is name [unit] = expression. Value may be a *Vary, *Adjust or
	// *Tune: those are expressions only here.
	Definition struct {
		Head
		Name  Ident
		Unit  *Unit // nil without brackets
		Value Expr
	}
	// Function is f(x [unit], n) [unit] = expression.
	Function struct {
		Head
		Name   Ident
		Params []Param
		Unit   *Unit
		Body   Expr
	}
	// Limit is limit comparison "what to do".
	Limit struct {
		Head
		Bound  *Compare // one or two comparisons
		Advice string
	}
	// Use is use "path" as name (column [unit], …).
	Use struct {
		Head
		Path    Text
		As      Ident   // Name empty when not given
		Columns []Param // nil when not given
	}
	// Digits is digits 3, or digits 2 a, b.c.
	Digits struct {
		Head
		Count Number
		Names []Expr // *Name or *Field; empty for the whole file
	}
	// Draws is draws 100_000.
	Draws struct {
		Head
		Count Number
	}
	// Overview is overview.
	Overview struct{ Head }
	// Measured is measured a = value.
	Measured struct {
		Head
		Of    Expr // *Name or *Field
		Value Expr
	}
	// Budget is budget a, or budget a at 99 %.
	Budget struct {
		Head
		Of       Expr
		Coverage Coverage // K or Level, else none
	}
	// Correlation is correlation a, b = 0.9: of two values that are typed with ±.
	Correlation struct {
		Head
		Of    [2]Expr // addresses
		Value Number
	}
	// Study is vary, adjust or tune standing by itself.
	Study struct {
		Head
		What Expr // *Vary, *Adjust or *Tune
	}
	// Show is show x: a [unit], b total a. What chooses among the rows stands in Of,
	// wherever it is written.
	Show struct {
		Head
		Of      Expr
		Columns []Output // nil for all of them
		Total   []Ident  // what is added up in a last row
	}
	// Chart is chart "title": y [unit], … against x [unit] from table, ….
	Chart struct {
		Head
		Title   Text
		Lines   []Output
		Against Output
		From    []Expr
	}
)

// An Expr is a node of an expression.
type Expr interface{ Place() message.Span }

// At gives a node its span.
type At struct{ Span message.Span }

// Place is the node's span.
func (a At) Place() message.Span { return a.Span }

type (
	// Ident is a name with its place. Names are NFC, µ as μ (U+03BC) and Ω as U+03A9.
	Ident struct {
		At
		Name string
	}
	// Unit is the text of a unit with its place, brackets not included. One of money
	// may stand before its number.
	Unit struct {
		At
		Text    string
		Leading bool
	}
	// Param is name [unit] in a function's head, a column list or outputs.
	Param struct {
		Name Ident
		Unit *Unit
	}
	// Output is expression [unit], the expression a *Name or *Field.
	Output struct {
		Of   Expr
		Unit *Unit
	}
)

// The expressions.
type (
	// Number is a literal with the unit that follows it.
	Number struct {
		At
		Text   string  // as written, sign included
		Value  float64 // what it says
		Unit   *Unit   // nil for none
		Digits message.Span
	}
	// Text is "…" with escapes undone.
	Text struct {
		At
		Value string
	}
	// Truth is true or false.
	Truth struct {
		At
		Value bool
	}
	// Name is a quantity, parameter, table or constant.
	Name struct{ Ident }
	// List is [a, b].
	List struct {
		At
		Items []Expr
	}
	// Field is x.name.
	Field struct {
		At
		X    Expr
		Name Ident
	}
	// Index is x[key].
	Index struct {
		At
		X, Key Expr
	}
	// Call is f(a, name: b).
	Call struct {
		At
		Func Ident
		Args []Arg
	}
	// Argument is a number inside a call, where a what-if changes it: store(series),
	// or store(pack.series) where several calls of that quantity have one. Its name
	// and its function stand in the brackets.
	Argument struct {
		At
		Of   Expr  // *Name or *Field
		Func Ident // Name empty when not given
		Name Ident
	}
	// Unary is -x or not x.
	Unary struct {
		At
		Op   string // "-" or "not"
		OpAt message.Span
		X    Expr
	}
	// Binary is x op y with op one of + - * / ^ and or.
	Binary struct {
		At
		Op   string
		OpAt message.Span
		X, Y Expr
	}
	// Compare is a < b, or a chain a <= b <= c.
	Compare struct {
		At
		Operands []Expr
		Ops      []string // ASCII: < <= > >= == !=
		OpsAt    []message.Span
	}
	// If is if c then a else b.
	If struct {
		At
		Cond, Then, Else Expr
	}
	// Paren is (x); kept so that the tree says what the builder wrote.
	Paren struct {
		At
		X Expr
	}
	// Uncertain is value ± spread, or value within bound (to upper).
	Uncertain struct {
		At
		Op    string // "±" or "within"
		OpAt  message.Span
		Value Expr
		// Spread is the ± spread, the rectangular half width, or the lower bound
		// when Upper is not nil. Value is nil for "within 45 F to 65 F" read as a
		// literal with no value of its own.
		Spread, Upper Expr
		Coverage      Coverage
	}
	// Chosen is rows of a table: x where Of, x sorted by Of, x first Of, or the one
	// row x for least Of, x for most Of.
	Chosen struct {
		At
		X   Expr
		How Choice
		Of  Expr
	}
	// With is x with name = value, ….
	With struct {
		At
		X        Expr
		Replaces []Replace
	}
)

// A Choice is how rows of a table are chosen or ordered.
type Choice string

// The choices, as they are written.
const (
	Where   Choice = "where"
	Rising  Choice = "sorted by"
	Falling Choice = "falling" // sorted by … falling
	First   Choice = "first"
	Least   Choice = "for least"
	Most    Choice = "for most"
)

// IsRow reports whether one row is chosen, and not a table of them.
func (c Choice) IsRow() bool { return c == Least || c == Most }

// A Coverage is what is said of an interval: how much it covers, by a factor or a
// level of confidence, its degrees of freedom, and that between hard limits the
// middle is likelier than the ends. The zero Coverage says nothing.
type Coverage struct {
	At
	K, Level, Freedom *Number // nil for none
	Triangular        bool
}

// Arg is one argument of a call.
type Arg struct {
	Name  Ident // Name.Name empty for a positional one
	Value Expr
}

// Replace is name = value behind with; Of is an address, as in a Sweep.
type Replace struct {
	Of    Expr
	Value Expr
}

// The what-ifs.
type (
	// Vary is vary x in range: outputs.
	Vary struct {
		At
		Over    []Sweep
		Outputs []Output
	}
	// Adjust is adjust x in a to b (by s) until condition.
	Adjust struct {
		At
		Over  Sweep
		Until *Compare
	}
	// Tune is tune x in range, … for least y.
	Tune struct {
		At
		Over []Sweep
		Most bool // most, else least
		Of   Expr
	}
)

// A Sweep is what a variable runs over: From to To (by By), or In, a list or table.
type Sweep struct {
	Of           Expr // an address: *Name, *Argument, or *Field of a name or a row
	From, To, By Expr // nil where not given
	In           Expr // a list or table, else nil
}

// A Table is a data table of the sheet, as text with places: the head names the
// columns ("mass [g]"), every row has its cells. Container and Markdown escapes
// are already undone in the texts.
type Table struct {
	Name Ident
	Head []Cell
	Rows [][]Cell
	// Columns, when not nil, name the columns in place of the head (use … (t [ms])).
	Columns  []Param
	Commas   bool                 // the numbers may have decimal commas: the cells stand between something else
	Problems []message.Diagnostic // what the reader of the table found wrong: ragged rows
}

// A Cell is one cell's text and place.
type Cell struct {
	At
	Text   string
	Worked *Worked // nil for one that is typed
}

// A Worked is the inline value that a cell is: its value is that of the quantity.
// The cell's text is then what stands left of the equals sign.
type Worked struct {
	Of   Expr // *Name or *Field
	Unit Unit
}
