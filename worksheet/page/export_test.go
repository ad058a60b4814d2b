package page

// Lean writes HTML in fewer bytes.
var Lean = lean

// Breakable is breakable, for tests.
var Breakable = breakable
