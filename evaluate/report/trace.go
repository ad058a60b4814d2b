package report

// A Cause is something that differs between two versions of a sheet and what it
// uses: a plain value, a cell of a table, a file of data, or a formula.
type Cause struct {
	Name     string // "n_series", `cells["B50"].mass`, "rundown.csv", "the formula of E_full"
	Old, New string // empty for what is new, or gone
}

// A Trace is two versions compared, each changed quantity traced to the causes.
type Trace struct {
	*Comparison
	Old, Now *Report
	Causes   []Cause
}
