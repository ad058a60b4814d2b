package study

import "inkwing/evaluate/program"

// Standard is what tests of this package's callers see of standard.
func (u *Uncertainty) Standard(d *program.Def, leaf int) float64 {
	return zeroed(at(u.standards(d), leaf))
}
