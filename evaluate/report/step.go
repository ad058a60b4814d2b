package report

// A Step says how one quantity came about. All texts are ready to be shown.
type Step struct {
	Name         string // "E_full", "store.capacitance", "parts.strap", `cells["B50"].mass`
	Path         string // the sheet that defines it
	State        State
	Waits        string // the name that it waits for
	Fault        string // why it could not be evaluated
	Shown        string // what it came to
	Formula      string // its right side as written; empty for a cell
	Substituted  string // the formula with the values put in; empty where that is no other
	Where        string // of a cell or row: "row B50, column mass of the table cells"
	Given        bool   // a plain value, a row or a cell: nothing is evaluated from here on
	Note         string
	Calls        []Call
	Dependencies []*Step // what the formula names, in its order
	Above        bool    // explained further up already
}

// A Call is a function in a step's formula.
type Call struct {
	Name      string
	Summary   string // of the library: its first sentence; of the builder's own: the line
	Own       bool
	Formula   string // of the library; empty where it gives none
	Put       string // that with the values put in, as far as it names them; empty for none
	Arguments []Argument
	Fields    []Argument // what it reads of records: "store.capacitance", with its value
	Defaults  []Argument // that nobody gave, and that bear on what it comes to
}

// An Argument is a parameter of a call and what was given for it.
type Argument struct {
	Name  string
	Text  string // as written
	Shown string // its value; empty where that is no single one, or as written
	Put   bool   // its value stands in the call's formula
}
