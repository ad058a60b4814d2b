package check

import (
	"strconv"
	"strings"

	"inkwing/evaluate/message"
	"inkwing/evaluate/program"
	"inkwing/evaluate/syntax"
	"inkwing/units"
)

// leaf is a factor of a product.
type leaf struct {
	text string
	dim  units.Dimension
}

// leaves lists the names and fields that stand as factors in an expression.
func (c *checker) leaves(e syntax.Expr, list []leaf) []leaf {
	switch x := syntax.Unparen(e).(type) {
	case *syntax.Name, *syntax.Field:
		quiet := &checker{
			whole: c.whole, def: c.def, params: c.params, row: c.row,
			sheet: &sheet{Sheet: &program.Sheet{Names: c.sheet.Names, Uses: c.sheet.Uses, Functions: c.sheet.Functions}},
		}
		node := quiet.expr(x)
		text, named := syntax.Dotted(x)
		if node == nil || !named {
			return list
		}
		if q, ok := node.Type().(program.Quantity); ok && !q.Dim.IsNumber() {
			list = append(list, leaf{text, q.Dim})
		}
	case *syntax.Binary:
		if x.Op == "*" || x.Op == "/" {
			return c.leaves(x.Y, c.leaves(x.X, list))
		}
		if x.Op == "^" {
			return c.leaves(x.X, list)
		}
	}
	return list
}

// bareFactor points at a factor that is written without a unit, where that is what is
// missing.
func (c *checker) bareFactor(d *message.Diagnostic, e syntax.Expr, missing units.Dimension) {
	var found *program.Def
	var number *syntax.Number
	var unit string
	several := false
	c.bareFactors(e, 1, func(def *program.Def, n *syntax.Number, power int) {
		root, ok := missing.Pow(1, power)
		if !ok || root.IsNumber() || root.Name() == "" {
			return
		}
		several = several || found != nil && found != def
		found, number, unit = def, n, root.Unit()
	})
	if found == nil || several || unit == "" {
		return
	}
	d.Hint = message.Quote(found.Name) + " is written without a unit: write " + message.Quote(number.Text+" "+unit)
	d.Notes = append(d.Notes, message.Note{Span: found.Stmt.Place(), Text: "it stands here"})
}

// bareFactors are the factors of a product that are pure numbers by themselves, each
// with its power.
func (c *checker) bareFactors(e syntax.Expr, power int, found func(*program.Def, *syntax.Number, int)) {
	switch x := syntax.Unparen(e).(type) {
	case *syntax.Name:
		if def, number := c.bareInput(x); def != nil && number.Unit == nil {
			found(def, number, power)
		}
	case *syntax.Binary:
		switch n, isNumber := x.Y.(*syntax.Number); {
		case x.Op == "*":
			c.bareFactors(x.X, power, found)
			c.bareFactors(x.Y, power, found)
		case x.Op == "/":
			c.bareFactors(x.X, power, found)
			c.bareFactors(x.Y, -power, found)
		case x.Op == "^" && isNumber && n.Unit == nil:
			if by, err := strconv.Atoi(n.Text); err == nil {
				c.bareFactors(x.X, power*by, found)
			}
		}
	}
}

// readings names both readings of a unit whose tail is also a quantity here.
func (c *checker) readings(e syntax.Expr) string {
	if e == nil {
		return ""
	}
	if n, ok := e.(*syntax.Number); ok && n.Unit != nil {
		i := strings.LastIndexAny(n.Unit.Text, "/*·")
		if i < 0 {
			return ""
		}
		tail := strings.TrimLeft(n.Unit.Text[i:], "/*·")
		if c.isQuantity(tail) {
			return message.Quote(n.Unit.Text) + " was read as a unit; if the quantity " + message.Quote(tail) + " is meant, put spaces around `" + strings.TrimSuffix(n.Unit.Text[i:], tail) + "`"
		}
		return ""
	}
	for _, child := range syntax.Children(e) {
		if r := c.readings(child); r != "" {
			return r
		}
	}
	return ""
}

func (c *checker) sumHint(x *syntax.Binary, a, b program.Quantity) string {
	if hint := exchange(a.Kind, b.Kind); hint != "" {
		return hint
	}
	if n, ok := x.Y.(*syntax.Number); ok && n.Unit != nil && n.Unit.Text == "%" {
		return "for a part of the value multiply: " + message.Quote("… * (1 "+x.Op+" "+n.Text+" %)")
	}
	if a.Dim.IsNumber() || b.Dim.IsNumber() {
		return join("does one of the two lack its unit?", c.readings(x))
	}
	return join("sums and differences are of one dimension", c.readings(x))
}

// exchange is how an amount of one currency becomes one of another.
func exchange(want, got units.Kind) string {
	to, is := want.Dim.Currency()
	from, too := got.Dim.Currency()
	if !is || !too {
		return ""
	}
	return "multiply it by a rate of your own, such as " + message.Quote("rate = 0.9 "+to+"/"+from)
}
