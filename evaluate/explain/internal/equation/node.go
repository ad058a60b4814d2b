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
	}
	negative struct{ x node }
	binary   struct {
		op   string // + - · × / ^
		x, y node
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
