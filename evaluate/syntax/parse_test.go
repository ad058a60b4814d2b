package syntax

import (
	"fmt"
	"strings"
	"testing"
)

// blockOf makes one block of a text, its offsets those of the text.
func blockOf(text string) []Block {
	var b Block
	offset := 0
	for _, line := range strings.SplitAfter(text, "\n") {
		b.Lines = append(b.Lines, Line{strings.TrimRight(line, "\r\n"), offset})
		offset += len(line)
	}
	return []Block{b}
}

// show prints a statement for the tables below.
func show(s Statement) string {
	params := func(open string, list []Param, end string) string {
		if list == nil {
			return ""
		}
		var parts []string
		for _, p := range list {
			parts = append(parts, withUnit(p.Name.Name, p.Unit, "{", "}"))
		}
		return open + strings.Join(parts, " ") + end
	}
	exprs := func(list []Expr) string {
		var text string
		for _, x := range list {
			text += " " + printed(x)
		}
		return text
	}
	switch s := s.(type) {
	case *Definition:
		return withUnit(s.Name.Name, s.Unit, "{", "}") + " = " + printed(s.Value)
	case *Function:
		return withUnit(s.Name.Name+params("(", s.Params, ")"), s.Unit, "{", "}") + " = " + printed(s.Body)
	case *Limit:
		return fmt.Sprintf("limit %s %q", printed(s.Bound), s.Advice)
	case *Use:
		return fmt.Sprintf("use %q as %q%s", s.Path.Value, s.As.Name, params(" (", s.Columns, ")"))
	case *Digits:
		return "digits " + printed(&s.Count) + exprs(s.Names)
	case *Draws:
		return "draws " + printed(&s.Count)
	case *Measured:
		return "measured " + printed(s.Of) + " = " + printed(s.Value)
	case *Budget:
		return "budget " + printed(s.Of)
	case *Study:
		return "study " + printed(s.What)
	case *Chart:
		return fmt.Sprintf("chart %q%s against%s from%s", s.Title.Value, exprs(outputParts(s.Lines)), exprs(outputParts([]Output{s.Against})), exprs(s.From))
	}
	return fmt.Sprintf("%T", s)
}

// accepted are statements and their trees.
var accepted = []struct{ text, tree string }{
	{`cell = cells["B50"]`, `cell = (at cells "B50")`},
	{`n_series = 4   # straps fit four`, `n_series = 4`},
	{`store = pack(cell, series: n_series)`, `store = (call pack cell series:n_series)`},
	{`V_full [V] = 10 V ± 0.1 V`, `V_full{V} = (± 10{V} 0.1{V})`},
	{`E_full [Wh] = 1/2 * store.capacitance * V_full^2`, `E_full{Wh} = (* (* (/ 1 2) (.capacitance store)) (^ V_full 2))`},
	{"limit V_full / n_series <= cell.rated_voltage\n  \"Charge lower.\"", `limit (compare (/ V_full n_series) <= (.rated_voltage cell)) "Charge lower."`},
	{`limit 1 V <= a <= b "x"`, `limit (compare 1{V} <= a <= b) "x"`},
	{`limit a ≥ 2 V`, `limit (compare a >= 2{V}) ""`},
	{`f(x [m/s], n) [W] = x * n`, `f(x{m/s} n){W} = (* x n)`},
	{`f() = 1`, `f() = 1`},
	{`use "rundown.csv" as log (t [ms], U [V], I [A])`, `use "rundown.csv" as "log" (t{ms} U{V} I{A})`},
	{`use "parts.md"`, `use "parts.md" as ""`},
	{`use "parts.md" as parts`, `use "parts.md" as "parts"`},
	{`digits 3`, `digits 3`},
	{`digits 2 t_fly, store.margin`, `digits 2 t_fly (.margin store)`},
	{`draws 100_000`, `draws 100_000`},
	{`measured store.mass = 41 g ± 1 g`, `measured (.mass store) = (± 41{g} 1{g})`},
	{`budget t_fly`, `budget t_fly`},
	{`budget = 40 g`, `budget = 40{g}`},
	{`budget [g] = 40 g`, `budget{g} = 40{g}`},
	{`limit(x) = x`, `limit(x) = x`},
	{`vary x in 4 to 12 by 2: a [V], b.time`, `study (vary (list x 4 12 2 _) a {V} (.time b))`},
	{`vary cell in cells: a`, `study (vary (list cell _ _ _ cells) a)`},
	{`vary x in [1 V, 2 V], y in 1 in to 5 in by 1 in: a`, `study (vary (list x _ _ _ (list 1{V} 2{V})) (list y 1{in} 5{in} 1{in} _) a)`},
	{`vary x in -3 to -1 by 1: a`, `study (vary (list x -3 -1 1 _) a)`},
	{`s = vary x in 4 V to 12 V by 2 V: a`, `s = (vary (list x 4{V} 12{V} 2{V} _) a)`},
	{`adjust x in 50 to 600 until a == 17 V`, `study (adjust (list x 50 600 _ _) (compare a == 17{V}))`},
	{`needed = adjust x in 50 to 600 by 5 until a >= 17 V`, `needed = (adjust (list x 50 600 5 _) (compare a >= 17{V}))`},
	{`tune x in 3 to 12 by 1 for least a`, `study (tune-least (list x 3 12 1 _) a)`},
	{`best = tune x in 3 V to 12 V, y in 1 to 2 for most a.b`, `best = (tune-most (list x 3{V} 12{V} _ _) (list y 1 2 _ _) (.b a))`},
	{`chart "Ride": V [V], I [A] against t [s] from ride.history, log`, `chart "Ride" V {V} I {A} against t {s} from (.history ride) log`},
	{`vary = 3`, `vary = 3`},
	{`x = vary + 1`, `x = (+ vary 1)`},
	// Precedence.
	{`x = a + b * c ^ d ^ e`, `x = (+ a (* b (^ c (^ d e))))`},
	{`x = a - b - c`, `x = (- (- a b) c)`},
	{`x = a / b / c`, `x = (/ (/ a b) c)`},
	{`x = -a^2`, `x = (- (^ a 2))`},
	{`x = -2^2`, `x = (- (^ 2 2))`},
	{`x = a^-2`, `x = (^ a -2)`},
	{`x = a^-b`, `x = (^ a (- b))`},
	{`x = a -3`, `x = (- a 3)`},
	{`x = a - 3`, `x = (- a 3)`},
	{`x = a-3`, `x = (- a 3)`},
	{`x = a * -3`, `x = (* a -3)`},
	{`x = (a) -3`, `x = (- (() a) 3)`},
	{`x = 2 V -3 V`, `x = (- 2{V} 3{V})`},
	{`x = - 3`, `x = (- 3)`},
	{`x = not a and b or c`, `x = (or (and (not a) b) c)`},
	{`x = not a == b`, `x = (not (compare a == b))`},
	{`x = a < b <= c`, `x = (compare a < b <= c)`},
	{`x = a ≠ b`, `x = (compare a != b)`},
	{`x = if a > 1 V then b else if c then d else e`, `x = (if (compare a > 1{V}) b (if c d e))`},
	{`x = a with b = 3 V, c.d = 4`, `x = (with a (= b 3{V}) (= (.d c) 4))`},
	{`x = xs[1] + cells[2].mass`, `x = (+ (at xs 1) (.mass (at cells 2)))`},
	{`x = [1 V, 2 V]`, `x = (list 1{V} 2{V})`},
	{`x = []`, `x = (list)`},
	{`x = "a \"b\" \\ c"`, `x = "a \"b\" \\ c"`},
	{`x = true`, `x = true`},
	// Units.
	{`x = 9.81 m/s^2`, `x = 9.81{m/s^2}`},
	{`x = 0.2 N·m`, `x = 0.2{N·m}`},
	{`x = 0.00393 K^-1`, `x = 0.00393{K^-1}`},
	{`x = 3 J/(kg*K) * a`, `x = (* 3{J/(kg*K)} a)`},
	{`x = 2 m^(1/2)`, `x = 2{m^(1/2)}`},
	{`x = 3 m⁻¹`, `x = 3{m⁻¹}`},
	{`x = 90°`, `x = 90{°}`},
	{`x = 90 °`, `x = 90{°}`},
	{`x = -20 °C`, `x = -20{°C}`},
	{`x = 5 %`, `x = 5{%}`},
	{`x = 12 V/R`, `x = 12{V/R}`},
	{`x = 12 V / R`, `x = (/ 12{V} R)`},
	{`x = 3 in`, `x = 3{in}`},
	{`x = if 3 then 4 else 5`, `x = (if 3 4 5)`},
	{`x = 3 and 4 or 5`, `x = (or (and 3 4) 5)`},
	{`x = 1.2e-3 F`, `x = 1.2e-3{F}`},
	{`x = 10_000`, `x = 10_000`},
	{`x = 1 V / 2 V`, `x = (/ 1{V} 2{V})`},
	{`x = 1 / (2 V)`, `x = (/ 1 (() 2{V}))`},
	{"x = 5\u00a0V", `x = 5{V}`},
	{`x = 5 kΩ`, `x = 5{kΩ}`},
	// Uncertainty.
	{`x = a + 10 V ± 0.1 V`, `x = (+ a (± 10{V} 0.1{V}))`},
	{`x = 10 V ± (0.5 % * 10 V + 0.02 V)`, `x = (± 10{V} (() (+ (* 0.5{%} 10{V}) 0.02{V})))`},
	{`x = 50 F within 20 %`, `x = (within 50{F} 20{%})`},
	{`x = within 45 F to 65 F`, `x = (within _ 45{F} to 65{F})`},
	{`x = cells.mass ± 0.1 g`, `x = (± (.mass cells) 0.1{g})`},
	{`x = cells[1].mass ± 1 %`, `x = (± (.mass (at cells 1)) 1{%})`},
	{`x = (12.50 ± 0.25) F`, `x = (± 12.50{F} 0.25{F})`},
	{`x = (12.50 ± 0.25) F * 2`, `x = (* (± 12.50{F} 0.25{F}) 2)`},
	{`x = (12.50 ± 0.25) F + a`, `x = (+ (± 12.50{F} 0.25{F}) a)`},
	{`x = (12.50 ± 0.25) F^2 ^ 2`, `x = (^ (± 12.50{F^2} 0.25{F^2}) 2)`},
	{`x = f(a,)`, `x = (call f a)`},
	{`f(x) = a with b = 3`, `f(x) = (with a (= b 3))`},
	{`x = f (a)`, `x = (call f a)`},
	{`x = (10 V ± 0.1 V) + 1 V`, `x = (+ (() (± 10{V} 0.1{V})) 1{V})`},
	{`x = -a ± 1 V`, `x = (- (± a 1{V}))`},
	{`C [F] = 50 ± 2`, `C{F} = (± 50 2)`},
	// Names: composed, one mu, one ohm.
	{"µ_r = 1", "μ_r = 1"},
	{"\u2126 = e\u0301", "\u03a9 = \u00e9"},
	// Layout.
	{"x = f(\n  a,\n  b\n)", `x = (call f a b)`},
	{"x = a\n  + b # note", `x = (+ a b)`},
	{"x = [1 V,\n\n  # between\n  2 V]", `x = (list 1{V} 2{V})`},
	{"  x = a\n    + b\n  ", `x = (+ a b)`},
}

func TestParseAccepts(t *testing.T) {
	for _, c := range accepted {
		tree, problems := Parse("a.md", blockOf(c.text))
		if len(problems) > 0 {
			t.Errorf("%s: %+v", c.text, problems)
			continue
		}
		if len(tree.Statements) != 1 {
			t.Errorf("%s: %d statements", c.text, len(tree.Statements))
			continue
		}
		if got := show(tree.Statements[0]); got != c.tree {
			t.Errorf("%s\n got %s\nwant %s", c.text, got, c.tree)
		}
	}
}
