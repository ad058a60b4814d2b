package formula

import (
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"
	"unicode/utf8"

	"inkwing/evaluate/message"
	"inkwing/evaluate/syntax"
)

// read is MathML as a line that a person can read: {a}/{b} for a fraction, a_{b}
// below, a^{b} above, and letters in 'quotes' that are upright though alone.
func read(t *testing.T, ml string) string {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader("<math>" + ml + "</math>"))
	d.Strict = true
	text, err := readElement(d, xml.StartElement{Name: xml.Name{Local: "math"}})
	if err != nil {
		t.Fatalf("%s: %v", ml, err)
	}
	return text
}

func readElement(d *xml.Decoder, at xml.StartElement) (string, error) {
	var parts []string
	for {
		token, err := d.Token()
		switch x := token.(type) {
		case xml.StartElement:
			part, err := readElement(d, x)
			if err != nil {
				return "", err
			}
			parts = append(parts, part)
		case xml.CharData:
			parts = append(parts, string(x))
		case xml.EndElement:
			return shape(at, parts)
		}
		if err != nil {
			return strings.Join(parts, ""), skipEOF(err)
		}
	}
}

func skipEOF(err error) error {
	if errors.Is(err, io.EOF) {
		return nil
	}
	return err
}

// children are how many an element must have: a script with one too few is drawn
// as an error.
var children = map[string]int{"mfrac": 2, "msub": 2, "msup": 2, "msubsup": 3}

func shape(at xml.StartElement, parts []string) (string, error) {
	name := at.Name.Local
	if n, fixed := children[name]; fixed && len(parts) != n {
		return "", errors.New(name + " of " + strings.Join(parts, " "))
	}
	all := strings.Join(parts, "")
	switch name {
	case "mfrac":
		return "{" + parts[0] + "}/{" + parts[1] + "}", nil
	case "msub":
		return parts[0] + "_{" + parts[1] + "}", nil
	case "msup":
		return parts[0] + "^{" + parts[1] + "}", nil
	case "msubsup":
		return parts[0] + "_{" + parts[1] + "}^{" + parts[2] + "}", nil
	case "mtext": // upright anyway; the gap before a unit is as wide as any other
		all = strings.ReplaceAll(all, unitGap, " ")
		if utf8.RuneCountInString(all) == 1 && all != "%" && all != "°" {
			return "'" + all + "'", nil
		}
		return all, nil
	case "msqrt":
		return "√{" + all + "}", nil
	case "mspace":
		return " ", nil
	case "mtr":
		return strings.Join(parts, " ") + "; ", nil
	case "mi":
		if len(at.Attr) > 0 {
			return "'" + all + "'", nil
		}
	}
	return all, nil
}

func definition(t *testing.T, text string) *syntax.Definition {
	t.Helper()
	tree, problems := syntax.Parse("x.md", []syntax.Block{{Lines: []syntax.Line{{Text: text}}}})
	if len(problems) > 0 {
		t.Fatalf("%s: %v", text, problems)
	}
	return tree.Statements[0].(*syntax.Definition)
}

func TestOf(t *testing.T) {
	n := Notation{Folded: func(f string) bool { return f == "hold_up_time" }}
	for _, c := range [][2]string{
		{"1/2 * store.capacitance * V_full^2", "{1}/{2}⋅capacitance_{store}⋅V_{full}^{2}"},
		{"a * (b + c)", "a⋅(b+c)"},
		{"(a + b) / (2 * c)", "{a+b}/{2⋅c}"},
		{"a / b / (c / 2)", "{a}/{b⋅(c/2)}"},
		{"a / (b / 2)", "{a}/{b/2}"},
		{"a / b * c", "{a}/{b}⋅c"},
		{"a - (b - c)", "a−(b−c)"},
		{"a - -3 V", "a−(−3 V)"},
		{"-3 V * a", "−3 V⋅a"},
		{"-x^2", "−x^{2}"},
		{"(-x)^2", "(−x)^{2}"},
		{"(3 V)^2", "(3 V)^{2}"},
		{"(a / b)^2", "({a}/{b})^{2}"},
		{"a^(1/2) + b^0.5", "√{a}+√{b}"},
		{"a^(2/3)", "a^{2/3}"},
		{"exp(-t / (R * C))", "'e'^{−t/(R⋅C)}"},
		{"sqrt(a^2 + b^2)", "√{a^{2}+b^{2}}"},
		{"2 * 3 * x", "2×3⋅x"},
		{"2 * €3.20", "2×'€'3.20"},
		{"-€3.20 + 1_000 USD", "−'€'3.20+1000 USD"},
		{"sin(a) + ln(a + b)", "sin a+ln\u2061(a+b)"},
		{"floor(x / 2) + abs(x)", "⌊{x}/{2}⌋+|x|"},
		{"min(a, b)", "min\u2061(a, b)"},
		{"hold_up_time(store, from: 5 V) + 1 s", "hold\u00a0up\u00a0time\u2061('…')+1 s"},
		{`cells["B50"].mass`, "mass_{B50}"},
		{"xs[1]", "xs_{1}"},
		{"t_charge with treadle = 85 rpm", "t_{charge} with treadle=85 rpm"},
		{"10 V ± (0.5 % * 10 V)", "10 V±(0.5 %×10 V)"},
		{"within 14 mΩ to 18 mΩ", "14 mΩ to 18 mΩ"},
		{"if a > 3 V then b else c", "{b if a>3 V; c otherwise; "},
		{"1.2e-3 kg·m/s^2", "1.2×10^{−3} kg·m/s²"},
		{"10_000 * 30°", "10000×30°"},
		{"a <= b and not (b == c)", "a≤b and not (b=c)"},
	} {
		if got := read(t, n.Of(definition(t, "x = "+c[0]).Value)); got != c[1] {
			t.Errorf("%s\n got %s\nwant %s", c[0], got, c[1])
		}
	}
}

// TestLong sets what is long as what is short.
func TestLong(t *testing.T) {
	for text, want := range map[string]string{
		"a" + strings.Repeat(" or b and c", 500): "a" + strings.Repeat(" or b and c", 500),
		"a" + strings.Repeat(" - b", 500):        "a" + strings.Repeat("−b", 500),
		"-a" + strings.Repeat(" * b", 500):       "−a" + strings.Repeat("⋅b", 500),
		"a" + strings.Repeat(" / b", 500):        "{a}/{b" + strings.Repeat("⋅b", 499) + "}",
		"2" + strings.Repeat(" * 3", 500):        "2" + strings.Repeat("×3", 500),
	} {
		got := strings.ReplaceAll(read(t, Notation{}.Of(definition(t, "x = "+text).Value)), "\u00a0", " ")
		if got != want {
			t.Errorf("%s\n got %s\nwant %s", text, got, want)
		}
	}
}

// TestDeep leaves what stands in more fractions than anybody can read as it was written.
func TestDeep(t *testing.T) {
	for n, left := range map[int]bool{deepest / 2: false, deepest: false, 2 * deepest: true} {
		got := read(t, Notation{}.Of(definition(t, "x = a"+strings.Repeat(" / b * c", n)).Value))
		if asWritten := strings.Contains(got, "a\u00a0/\u00a0b\u00a0*\u00a0c"); asWritten != left {
			t.Errorf("%d fractions: as written %v, want %v: %s", n, asWritten, left, got)
		}
	}
}

func TestName(t *testing.T) {
	for name, want := range map[string]string{
		"V": "V", "V_full": "V_{full}", "t_top_up": "t_{top\u00a0up}", "eta_path": "η_{path}", "CL_max": "C_{L,max}", "CD0": "C_{D0}",
		"Kv": "K_{'v'}", "CDi": "C_{Di}", "V1": "V_{1}", "AR": "AR", "Re": "Re", "pi": "π", "Ω": "Ω", "turns_needed": "turns\u00a0needed", "gap": "gap", "μ": "μ", "n_series": "n_{series}",
	} {
		if got := read(t, Name(name)); got != want {
			t.Errorf("%s: got %s, want %s", name, got, want)
		}
	}
}

func TestPath(t *testing.T) {
	for path, want := range map[string]string{
		"gap": "gap", "V_full": "V_{full}", "coil.resistance": "resistance_{coil}", "journal.store.mass": "mass_{store}", "parts.V_x": "V_{x, parts}",
		`parts.cells["L100"].capacitance`: "capacitance_{L100}", "wire.r_per": "r_{per, wire}",
	} {
		ml, ok := Path(path)
		if got := read(t, ml); !ok || strings.ReplaceAll(got, "\u00a0", " ") != want {
			t.Errorf("%s: got %s, want %s", path, got, want)
		}
	}
	for _, none := range []string{"", "a b", "cells[2].x", "1 V", "a.", "<b>"} {
		if ml, ok := Path(none); ok {
			t.Errorf("%q is no path: %s", none, ml)
		}
	}
}

// TestSymbols sets fields by the letters that the trade has for them, and leaves the
// name of a used worksheet out.
func TestSymbols(t *testing.T) {
	d := definition(t, "x = store.capacitance + parts.R_lead + a.b")
	symbols := map[string]string{"store.capacitance": "C", "parts.R_lead": Sheet}
	n := Notation{Symbol: func(at message.Span) string {
		return symbols["x = store.capacitance + parts.R_lead + a.b"[at.Start:at.End]]
	}}
	if got, want := read(t, n.Of(d.Value)), "C_{store}+R_{lead}+b_{'a'}"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestValue(t *testing.T) {
	for shown, want := range map[string]string{
		"12.5 V": "12.5 V", "(95.5 ± 2.8) s": "(95.5±2.8) s", "7.54e-5 V·s/rad": "7.54×10^{−5} V·s/rad", "30°": "30°", "-9.2 s": "−9.2 s",
		"yes": "yes", "87": "87", "11.33 ± 0.49": "11.33±0.49", "25 %": "25 %", "(1.20 ± 0.30)e-5 A": "(1.20±0.30)×10^{−5} A", "—": "'—'", "<b>": "<b>",
	} {
		if got := read(t, Value(shown)); got != want {
			t.Errorf("%s: got %s, want %s", shown, got, want)
		}
	}
}

// TestPut puts values into the places of names, with the brackets that they then
// want.
func TestPut(t *testing.T) {
	shown := map[string]string{"a": "2 V", "b": "-3 V", "c": "4", "d": "(2.0 ± 0.1) V"}
	for _, c := range [][2]string{
		{"a^2", "(2 V)^{2}"}, {"c^2", "4^{2}"}, {"b * c", "−3 V×4"}, {"c * b", "4×(−3 V)"}, {"a - b", "2 V−(−3 V)"},
		{"a / (b * c)", "{2 V}/{−3 V×4}"}, {"(a + b) * c", "(2 V+(−3 V))×4"}, {"-b", "−(−3 V)"}, {"d * x", "(2.0±0.1) V⋅x"},
	} {
		d := definition(t, "x = "+c[0])
		n := Notation{Put: func(at message.Span) (string, bool) {
			text, ok := shown[("x = " + c[0])[at.Start:at.End]]
			return text, ok
		}}
		if got := read(t, n.Of(d.Value)); got != c[1] {
			t.Errorf("%s\n got %s\nwant %s", c[0], got, c[1])
		}
	}
}

// TestPieces cuts long sums at their signs, and loses nothing.
func TestPieces(t *testing.T) {
	d := definition(t, "x = alpha_one * beta + gamma_two * delta - (epsilon + zeta) * eta + theta")
	pieces := Notation{}.Pieces(d.Value, 12)
	var all string
	for i, p := range pieces {
		all += read(t, p)
		if signed := strings.HasPrefix(read(t, p), "+") || strings.HasPrefix(read(t, p), "−"); signed != (i > 0) {
			t.Errorf("piece %d: %s", i, read(t, p))
		}
	}
	if whole := read(t, Notation{}.Of(d.Value)); len(pieces) != 3 || all != whole {
		t.Errorf("%d pieces\n%s\n%s", len(pieces), all, whole)
	}
}

// TestClauses sets the formulas of doc comments: what is one, and nothing that is
// prose.
func TestClauses(t *testing.T) {
	for _, c := range [][2]string{
		{"E = C·V²/2.", "[E={C⋅V^{2}}/{2}]"},
		{"V_stall = √(2W/(ρ·S·CL_max))", "[V_{stall}=√{{2W}/{ρ⋅S⋅C_{L,max}}}]"},
		{"T = (2·ρ·A·P²)^⅓", "[T=(2⋅ρ⋅A⋅P^{2})^{1/3}]"},
		{"efficiency V/(V + v)", "efficiency [{V}/{V+v}]"},
		{"I = (√(V² + 4PR) − V)/(2R)", "[I={√{V^{2}+4PR}−V}/{2R}]"},
		{"R·C·ln(V/to)", "[R⋅C⋅ln\u2061({V}/{to})]"},
		{"V·e^(−t/(R·C))", "[V⋅'e'^{−t/(R⋅C)}]"},
		{"dV/dt = (I(V, ω) − V/R_leak)/C with the bridge's mean current", "[{'d'V}/{'d't}={I(V, ω)−{V}/{R_{leak}}}/{C}] with the bridge's mean current"},
		{"(2/3)·Br·(R/(R + z))³", "[{2}/{3}⋅B_{'r'}⋅({R}/{R+z})^{3}]"},
		{"kd = |Σ ±e^(j·p·θ)|/n, p pole pairs", "[k_{'d'}={|Σ±'e'^{j⋅p⋅θ}|}/{n}], [p] pole pairs"},
		{"of a sine on a.c. k = V/ω", "of a sine on a.c. [k={V}/{ω}]"},
		{"f = p·ω/(2πn)", "[f={p⋅ω}/{2πn}]"},
		{"control time = ∫ C·dV/(radio + leak) down to the minimum", "[control\u00a0time=∫{C⋅'d'V}/{radio+leak}] down to the minimum"},
		{"Σ m·x / Σ m", "[{Σm⋅x}/{Σm}]"},
		{"x̄ = (x₁ + … + xₙ)/n", "[x¯={x_{1}+…+x_{'n'}}/{n}]"},
		{"ρ = (1 + 0.00393 K^-1·(T − 20 °C))/58 Ω·mm²/m", "[ρ={1+0.00393 K⁻¹⋅(T−20 °C)}/{58 Ω·mm²/m}]"},
		{"melting 80.0 A·(d/mm)^1.5", "melting [80.0 A⋅({d}/{mm})^{1.5}]"},
		{"the reverse voltage is 1.5 × the peak that one bridge sees", "the reverse voltage is 1.5 × the peak that one bridge sees"},
		{"as operating_point, at equal steps of voltage", "as operating_point, at equal steps of voltage"},
		{"a resistance in the motor's path, and two voltages", "a resistance in the motor's path, and two voltages"},
		{"from one disc to its m-th neighbour", "from one disc to its m-th neighbour"},
		{"|x|", "[|x|]"},
		{"CP = P1 − W′/t1", "[C_{'P'}=P_{1}−{W^{′}}/{t_{1}}]"},
		{"L = 0.8 µH/in·a²·N²/(6·a), a the radius of a coil", "[L={0.8 µH/in⋅a^{2}⋅N^{2}}/{6⋅a}], a the radius of a coil"},
		{"less < & \"more\"", "less &lt; &amp; &#34;more&#34;"},
	} {
		got := strings.NewReplacer(`<span class="nb">`, "", "</span>", "").Replace(clause(strings.TrimSuffix(c[0], ".")))
		for {
			before, rest, found := strings.Cut(got, `<math>`)
			if !found {
				break
			}
			ml, after, _ := strings.Cut(rest, "</math>")
			got = before + "[" + read(t, ml) + "]" + after
		}
		if got = strings.ReplaceAll(got, "&#39;", "'"); got != c[1] {
			t.Errorf("%s\n got %s\nwant %s", c[0], got, c[1])
		}
	}
}

// TestMarksBehind keeps a comma on the line of the formula before it.
func TestMarksBehind(t *testing.T) {
	got := clause("a bridge of k = V/ω, in a star k = 2, and so on, where R = V/I is it")
	if strings.Count(got, "<span") != 2 || strings.Count(got, "</span>") != 2 {
		t.Errorf("%s", got)
	}
	for _, want := range []string{`<span class="nb"><math>`, "</math>,</span> in a star"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %s in %s", want, got)
		}
	}
	if alone := clause("k = V/ω is it"); strings.Contains(alone, "<span") {
		t.Errorf("nothing stands behind it: %s", alone)
	}
}

// TestParts cuts comparisons, lists and what is put in by "with" where a line may end;
// together the parts are the whole.
func TestParts(t *testing.T) {
	for text, want := range map[string][]string{
		"min(calm.history) >= least - 2 V":  {"min(history_{calm})", "≥least−2 V"},
		"25 % <= share <= 40 %":             {"25 %", "≤share", "≤40 %"},
		"margin with low = 5 V, high = 6 V": {"margin", "with low=5 V", ", high=6 V"},
		"[11 g, 12 g, 13 g]":                {"[11 g,", "12 g,", "13 g]"},
		"a + b":                             {"a+b"},
	} {
		d := definition(t, "x = "+text)
		parts := Notation{}.Parts(d.Value)
		got := make([]string, len(parts))
		for i, p := range parts {
			got[i] = strings.TrimSpace(strings.NewReplacer("\u2061", "", "  ", " ").Replace(read(t, p)))
		}
		if strings.Join(got, "|") != strings.Join(want, "|") {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}

// TestJoined keeps numbers with their units, and lets other words go.
func TestJoined(t *testing.T) {
	for text, want := range map[string]string{
		"A short drives 270 A and frees 1820 J at once.": "A short drives 270\u00a0A and frees 1820\u00a0J at once.",
		"reads 7 % to 12 % long":                         "reads 7\u00a0% to 12\u00a0% long",
		"commonly 260 °C for 3 seconds":                  "commonly 260\u00a0°C for 3 seconds",
		"Counting 3 lithium cells":                       "Counting 3 lithium cells",
	} {
		if got := Joined(text); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	if got := Text("-1.55 s per rpm"); got != "−1.55 s per rpm" {
		t.Errorf("%q", got)
	}
}
