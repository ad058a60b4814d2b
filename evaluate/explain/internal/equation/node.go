package equation

// A node is a piece of an equation.
type node interface {
	value(of map[string]Value) (Value, bool)
	each(func(letter))
}

type (
	number struct{ exact Value }
	// A letter stands for a value; start and end are its place in the clause.
	letter struct {
		name       string
		start, end int
		summand    bool // something is added to it, or taken from it
	}
	negative struct{ x node }
	binary   struct {
		op         string // + - · × / ^
		x, y       node
		start, end int // of the sign and what stands behind it, of + and -
	}
	call struct {
		name string
		args []node
	}
)

func (number) each(func(letter)) {}

func (l letter) each(do func(letter)) {
	if l.name != "π" {
		do(l)
	}
}

func (n negative) each(do func(letter)) { n.x.each(do) }

func (b binary) each(do func(letter)) {
	b.x.each(do)
	b.y.each(do)
}

func (c call) each(do func(letter)) {
	for _, a := range c.args {
		a.each(do)
	}
}

// summands are what is added within a node to something before it.
func summands(n node) (list []binary) {
	switch n := n.(type) {
	case negative:
		return summands(n.x)
	case call:
		for _, a := range n.args {
			list = append(list, summands(a)...)
		}
	case binary:
		list = append(summands(n.x), summands(n.y)...)
		if n.end > n.start {
			list = append(list, n)
		}
	}
	return list
}
