package model

// Looks bound the work of one call of a function that iterates, in whatever it counts:
// a deadline falls elsewhere on every machine, this does not. An input embeds them to have
// them at hand; copies of it share them, and no worksheet sees them. The zero value
// bounds nothing.
type Looks struct{ left *int }

// BoundedLooks are so many.
func BoundedLooks(most int) Looks { return Looks{&most} }

// Take takes some, and reports whether there were as many.
func (l Looks) Take(n int) bool {
	if l.left == nil {
		return true
	}
	*l.left -= n
	return *l.left >= 0
}

// Spent reports whether more were wanted than there were.
func (l Looks) Spent() bool { return l.left != nil && *l.left < 0 }
