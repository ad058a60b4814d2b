package page

// Lean writes HTML in fewer bytes.
var Lean = lean
