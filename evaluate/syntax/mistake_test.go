package syntax

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"inkwing/evaluate/message"
)

// mistakes are wrong statements, the place of the mistake between « and »,
// with what is said about them.
var mistakes = []struct{ text, summary, hint string }{
	{"x = «12V»", "a space is missing between a number and its unit", "write `12 V`"},
	{"x = «90°C»", "a space is missing between a number and its unit", "write `90 °C`"},
	{"x = «5%»", "a space is missing between a number and its unit", "write `5 %`"},
	{"x = 12  «V»", "a unit stands one space behind its number", "write `12 V`"},
	{"x = «1,5»", "a comma between two digits can be read two ways", "write `1.5` for one number, or `1, 5` for two"},
	{"x = f(«1,5»)", "a comma between two digits can be read two ways", "write `1.5` for one number, or `1, 5` for two"},
	{"x = [«1,2»]", "a comma between two digits can be read two ways", "write `1.2` for one number, or `1, 2` for two"},
	{"x = «1,000» V", "a comma between two digits can be read two ways", "write `1000` where the comma parts thousands, `1.000` where it is a decimal one"},
	{"x = «12,500.5» V", "a comma between two digits can be read two ways", "write `12500.5`"},
	{"x = «1,000,000» V", "a comma between two digits can be read two ways", "write `1000000`"},
	{"x = «0,500» V", "a comma between two digits can be read two ways", "write `0.500` for one number, or `0, 500` for two"},
	{"x = «1.000,5» V", "a comma between two digits can be read two ways", "write `1000.5`"},
	{"x = «1.000.000,5» V", "a number has one point", "write `1000000.5`"},
	{"x = «1.000.000» V", "a number has one point", "write `1000000`"},
	{"x = m2«,»5", "a comma between two digits can be read two ways", "put a space behind the comma"},
	{"x = «4.»", "a digit is missing behind the point", "write `4` or `4.0`"},
	{"x = «.5»", "a digit is missing before the point", "write `0.5`"},
	{"x = -«.5»", "a digit is missing before the point", "write `0.5`"},
	{"x = a + «4.» V", "a digit is missing behind the point", "write `4` or `4.0`"},
	{"x = «1.2.3»", "a number has one point", ""},
	{"x = «1_»", "_ stands between two digits", "write `10_000`"},
	{"x = «1e400»", "this number is too large to work with", "choose a larger unit"},
	{"x = «1/2 V»", "this can be read two ways: is the unit below the line or not?", "write `0.5 V` or `1 / (2 V)`"},
	{"x = a * «1/3 V»", "this can be read two ways: is the unit below the line or not?", "write `(1/3) * 1 V` or `1 / (3 V)`"},
	{"x = «1/2 V» ± 0.1 V", "this can be read two ways: is the unit below the line or not?", "write `0.5 V` or `1 / (2 V)`"},
	{"x = 12 «V*»", "`V*` is no unit", "put spaces around the operator to work with a quantity"},
	{"x = 12 «V/(R» + 1)", "`V/(R` is no unit", "put spaces around the operator to work with a quantity"},
	{"x = 2 «(»3 + a)", "an operator is missing before `(`", "write `*` to multiply; nothing is multiplied unsaid"},
	{"x = 2 «sin»(a)", "`sin` directly behind a number is read as a unit", "write `* sin(…)` to multiply; nothing is multiplied unsaid"},
	{"x = a «b»", "an operator is missing before `b`", "write `*` to multiply, `a_b` for one name: names have no blanks"},
	{"x = (a) «b»", "an operator is missing before `b`", "write `*` to multiply; nothing is multiplied unsaid"},
	{"x = a (b) «c»", "an operator is missing before `c`", "write `*` to multiply; nothing is multiplied unsaid"},
	{"x = a «=» b", "a second `=` stands here", "compare with `==`"},
	{"x = a == b == c «<=» d", "a chain of comparisons runs one way", "write two comparisons with `and` between"},
	{"x = a <= b «>=» c", "a chain of comparisons runs one way", "write two comparisons with `and` between"},
	{"x = a «+»", "nothing follows `+`", "indent the next line if it belongs to this one"},
	{"x = «(»a + b", "this bracket is not closed", "close it, or indent the lines that belong to it"},
	{"x = a + b«)»", "`)` closes no bracket", "delete it, or open the bracket"},
	{"x = [a, b«)»", "`)` stands where `]` is wanted", ""},
	{`x = «"abc»`, "this text has no closing quote on its line", `close it with "`},
	{`x = "a«\n»"`, `only \" and \\ are written with a backslash`, `write \\ for a backslash`},
	{"x = «“»abc”", "`“` is not a sign of this notation", "write `\"`"},
	{"x = a «×» b", "`×` is not a sign of this notation", "write `*`"},
	{"x = a «**» b", "`**` is not a sign of this notation", "write `^`"},
	{"x = a «&&» b", "`&&` is not a sign of this notation", "write `and`"},
	{"x = a «−» b", "`−` is not a sign of this notation", "write `-`"},
	{"x = a«²»", "`²` is not a sign of this notation", "write `^2`"},
	{"x = 10 V ± 0.1 V «+» a", "`+` directly behind a value with `±` can be read two ways", "put the value and its spread in brackets: `(10 V ± 0.1 V) + …`"},
	{"x = 10 V ± 0.1 V «-» a", "`-` directly behind a value with `±` can be read two ways", "put the value and its spread in brackets: `(10 V ± 0.1 V) - …`"},
	{"x = 10 V ± 0.1 V «±» 0.2 V", "a value has one spread", "put the two into one, by their squares if they are independent: `± (((3 V)^2 + (4 V)^2)^(1/2))`"},
	{"x = «80 % ± 4 %»", "this can be read two ways: points of `%`, or a part of the value", "write `0.8 ± 0.04` for points, or `0.8 ± 4 %` for a part of the value"},
	{"x = «80 % within 4 %»", "this can be read two ways: points of `%`, or a part of the value", "write `0.8 within 0.04` for points, or `0.8 within 4 %` for a part of the value"},
	{"x = (a + b) «±» 1 V", "`±` stands behind a number, a name, a field or an element", "give the value a name of its own first"},
	{"x = f(a) «±» 1 V", "`±` stands behind a number, a name, a field or an element", "give the value a name of its own first"},
	{"x = «±» 1 V", "a value is wanted where `±` stands", "± stands behind its value: `10 V ± 0.1 V`"},
	{"x «±» 0.1 V = 10 V", "`±` stands behind the value, right of =", "write `x = 10 V ± 0.1 V`"},
	{"x = 10 V ± «b»", "behind `±` stands a number with its unit, or a constant in brackets", "write `(b)` if it is worked from constants"},
	{"x = 10 V ± «-1 V»", "a spread is never below zero", "write `1 V`"},
	{"x = 10 V «±»", "nothing follows `±`", "indent the next line if it belongs to this one"},
	{"x = «within» 20 %", "nothing stands before `within`", "write `50 F within 20 %`, or `within 45 F to 65 F`"},
	{"x = 50 F «within 45 F to» 65 F", "a range has its middle as value, and a value stands before it", "write `within … to …` alone, or one half width behind `within`"},
	{"x = within «a» to b", "a number with its unit is wanted where `a` stands", "write `10 V ± 0.1 V`, `50 F within 20 %` or `within 45 F to 65 F`"},
	{"x = 10 V «+-» 1 V", "`+-` is not a sign of this notation", "write `±`"},
	{"x = 10 V «//» a remark", "`//` is not a sign of this notation", "write `#`"},
	{"x = «√»4", "`√` means nothing here", "write `sqrt(…)`"},
	{"x = 10 V «+/-» 1 V", "`+/-` is not a sign of this notation", "write `±`"},
	{"x = if a then b«»", "`else` is missing at the end of the statement", "write `if … then … else …`: there is always a value"},
	{"x = if a «else» b", "`then` is missing before `else`", "write `if … then … else …`"},
	{"x = 1 + «if» a then b else c", "a value is wanted where `if` stands", "put `if … then … else …` in brackets"},
	{"x = a == «not» b", "a value is wanted where `not` stands", "put `not …` in brackets"},
	{"x = 0.5 N «m»", "an operator is missing before `m`", "units are joined by a point or `*`: `N·m`"},
	{"x = f(0.5 N «m», 2 V)", "an operator is missing before `m`", "units are joined by a point or `*`: `N·m`"},
	{"x = [0.5 N «m»]", "an operator is missing before `m`", "units are joined by a point or `*`: `N·m`"},
	{"limit x < 5 N «m»", "an operator is missing before `m`", "units are joined by a point or `*`: `N·m`"},
	{"x = f(5 V «b»)", "`)` is missing before `b`", "arguments stand between commas: `f(a, name: b)`"},
	{"x = f(a: 1, «2»)", "an argument without a name stands behind one with a name", "put it first, or give it its name"},
	{"x = f(a «=» 1)", "a named argument is written with a colon", "write `a: …`"},
	{"x = f«(»a, b", "this bracket is not closed", "close it, or indent the lines that belong to it"},
	{"x = f(a «b»)", "`)` is missing before `b`", "arguments stand between commas: `f(a, name: b)`"},
	{`x = cells["a"«,» 2]`, "`]` is missing before `,`", "an element is chosen by one number or one key: `cells[2]`, `cells[\"B50\"]`"},
	{"x = cells «[2]»", "a unit in brackets stands only left of =, in a list of outputs or in a heading", "an element is written without the space: `x[2]`"},
	{"x = 12 «[»V]", "a number has no elements", "a unit stands behind its number without brackets: `12 V`"},
	{"«x[»V] = 12", "a space is missing before the bracket with the unit", "write `x [V] = …`"},
	{"x «[]» = 12", "the bracket is empty", "write the unit in it, `[1]` for a pure number, or leave it out"},
	{"x «[»V = 12", "this bracket is not closed behind its unit", "close it with ]"},
	{"«x.»y = 3", "a field cannot be defined by itself", "define a quantity, or change the part in which it is given"},
	{"«x»", "`x` stands alone", "write `x = …` to define it; every quantity is listed by itself"},
	{"x «==» 3", "a comparison stands alone", "write `limit` before it to have it kept, or `name = …` to work it"},
	{"x «<» 3", "a comparison stands alone", "write `limit` before it to have it kept, or `name = …` to work it"},
	{"«limt» a <= b", "no line begins with `limt`", "write `limit a <= b \"what to do\"`"},
	{"«hello» world", "no line begins with `hello`, and no = follows it", "a definition is `name [unit] = value`; prose stands behind #"},
	{"«if» = 3", "`if` is a word of the notation and cannot be a name", "choose another name, such as `if_1`"},
	{"«true» = 3", "`true` is a word of the notation and cannot be a name", "choose another name, such as `true_1`"},
	{"«with» = 2", "`with` is a word of the notation and cannot be a name", "choose another name, such as `with_1`"},
	{"x = «then»", "nothing follows `then`", "indent the next line if it belongs to this one"},
	{"x = a «with»", "nothing follows `with`", "indent the next line if it belongs to this one"},
	{"x = a with b«»", "`=` is missing at the end of the statement", "write `… with turns = 40`"},
	{"x = a with b(«2») = 3", "the name of an argument is wanted where `2` stands", "a number inside a call is named by the quantity and the argument, as in `store(series)`"},
	{"x = (a «with» b = 3)", "`with` stands only at the end of a definition", "give the value a name: `name = … with x = …`"},
	{"limit «a»", "a comparison is wanted here", "write two values with `<=` or `>=` between; one statement for each"},
	{"limit «a + b»", "a comparison is wanted here", "write two values with `<=` or `>=` between; one statement for each"},
	{"limit «a <= b and c <= d»", "a comparison is wanted here", "write two values with `<=` or `>=` between; one statement for each"},
	{"limit «a <= b <= c <= d»", "this chain has more than two comparisons", "write a statement for each bound"},
	{"limit a <= b «what»", "`what` cannot stand here", "write `limit a <= b \"what to do\"`"},
	{"vary x«:» a", "`in` is wanted where `:` stands", "write `vary x in 4 to 12 by 2: a [V], b.time`"},
	{"vary x in 4 to 12«»", "`:` is missing at the end of the statement", "write `vary x in 4 to 12 by 2: a [V], b.time`"},
	{"vary x in 4 to 12 a«»", "`:` is missing at the end of the statement", "write `vary x in 4 to 12 by 2: a [V], b.time`"},
	{"vary x in 4 «by» 2: a", "`:` is wanted where `by` stands", "write `vary x in 4 to 12 by 2: a [V], b.time`"},
	{"vary x in 4 to 12: «a[»V]", "a name or a field is wanted here, not an element", "give the element a name of its own, or put a space before the bracket with a unit: `a [V]`"},
	{"vary x in 4 to 12: «a *» b", "a name or a field is wanted here, not something worked", "define it above under a name, and use that name here"},
	{"vary «3» in 4 to 12: a", "the name of a quantity is wanted where `3` stands", "write `vary x in 4 to 12 by 2: a [V], b.time`"},
	{"adjust x in 1 to 2«»", "`until` is missing at the end of the statement", "write `adjust x in 50 to 600 until a == 17 V`"},
	{"adjust x in 1 to 2 until «a»", "a comparison is wanted here", "write two values with `<=` or `>=` between; one statement for each"},
	{"tune x in 1 to 2 for «a»", "`least` or `most` is wanted where `a` stands", "write `tune x in 3 to 12 by 1 for least a`"},
	{"tune x in 1 to 2 for «best» a", "`least` or `most` is wanted where `best` stands", "write `tune x in 3 to 12 by 1 for least a`"},
	{"budget«»", "the statement ends where the name of a quantity is wanted", "write `budget a`"},
	{"budget a «b»", "`b` cannot stand here", "write `budget a`"},
	{"budget «3»", "the name of a quantity is wanted where `3` stands", "write `budget a`"},
	{"chart «V» against t from log", "a text in quotes is wanted where `V` stands", "write `chart \"title\": V [V] against t [s] from table`"},
	{`chart "a": V [V] «from» log`, "`against` is wanted where `from` stands", "write `chart \"title\": V [V] against t [s] from table`"},
	{`chart "a": V against t«»`, "`from` is missing at the end of the statement", "write `chart \"title\": V [V] against t [s] from table`"},
	{`chart "a" «V» against t from log`, "`:` is wanted where `V` stands", "write `chart \"title\": V [V] against t [s] from table`"},
	{"use «parts».md", "a text in quotes is wanted where `parts` stands", "write `use \"path\" as name (column [unit], …)`"},
	{`use "parts.md" as«»`, "the statement ends where a name is wanted", "write `use \"path\" as name (column [unit], …)`"},
	{`use "parts.md" as «3»`, "a name is wanted where `3` stands", "write `use \"path\" as name (column [unit], …)`"},
	{`use "parts.md" (a «b»)`, "`)` is wanted where `b` stands", "write `use \"path\" as name (column [unit], …)`"},
	{"digits«»", "the statement ends where a whole number is wanted", "write `digits 3`, or `digits 2 a, b`"},
	{"digits «a»", "a whole number is wanted where `a` stands", "write `digits 3`, or `digits 2 a, b`"},
	{"digits «2.5»", "a whole number above zero is wanted", "write `digits 3`, or `digits 2 a, b`"},
	{"digits 2 «3»", "`3` cannot stand here", "write `digits 3`, or `digits 2 a, b`"},
	{"draws «many»", "a whole number is wanted where `many` stands", "write `draws 100_000`"},
	{"measured a«»", "`=` is missing at the end of the statement", "write `measured a = 12 V`"},
	{"measured a «3»", "`=` is wanted where `3` stands", "write `measured a = 12 V`"},
	{"measured a «[V]» = 3 V", "`=` is wanted where `[V]` stands", "write `measured a = 12 V`"},
	{"«ж» = 3", "the letter `ж` is neither Latin nor Greek", "names are of Latin and Greek letters, digits and _"},
	{"«xж» = 3", "the letter `ж` is neither Latin nor Greek", "names are of Latin and Greek letters, digits and _"},
	{"x = «漢»", "the letter `漢` is neither Latin nor Greek", "names are of Latin and Greek letters, digits and _"},
	{"x«₁» = 3", "`₁` cannot stand in a name", "write `_1`"},
	{"x = a «\u202e» b", "an invisible character, `\\u202e`, stands here", "delete it"},
	{"x = \"a«\u202e»b\"", "an invisible character, `\\u202e`, stands here", "delete it, or retype the text"},
	{"x = «§»a", "`§` means nothing here", ""},
	{"x = «`»a", "a backtick means nothing here", "delete it; inside a block nothing is set in backticks"},
	{"x = «$»a", "`$` stands beside a number", "write `$12.50` or `12.50 $`"},
	{"x = a«;» b", "`;` means nothing here", "write one statement a line; the values of a list stand between commas"},
	{"x = «!»a", "`!` is not a sign of this notation", "write `not`"},
	{"x = a «?» b : c", "`?` means nothing here", "a value that is kept up to date stands in the prose, in backticks: `E [J] = ?`; here stands what it is worked from"},
	{"x = a.«.»b", "the name of a field is wanted where `.` stands", ""},
	{"x = a.«3»", "the name of a field is wanted where `3` stands", ""},
	{"x = «3.»a", "a digit is missing behind the point", "write `3` or `3.0`"},
	{"x = a «%» b", "`%` stands only behind a number", "write `5 %`"},
	{"x = 5 ° «3»", "an operator is missing before `3`", "write `*` to multiply; nothing is multiplied unsaid"},
	{"f(«3») = x", "`)` is wanted where `3` stands", "a function is written `f(x [m/s], n) [W] = …`"},
	{"f(a,«)» = x", "a name is wanted where `)` stands", "a function is written `f(x [m/s], n) [W] = …`"},
	{"f«(»a [V], b = x", "this bracket is not closed", "close it, or indent the lines that belong to it"},
	{"f(a) «=» ", "nothing follows `=`", "indent the next line if it belongs to this one"},
	{"«=» 3", "a line begins with a name or with a word such as `limit`, not with `=`", "write `name [unit] = …`; a line that belongs to the one above is indented more"},
	{"«3» = x", "a line begins with a name or with a word such as `limit`, not with `3`", "write `name [unit] = …`; a line that belongs to the one above is indented more"},
	{`«"a"» = 3`, "a line begins with a name or with a word such as `limit`, not with `\"a\"`", "write `name [unit] = …`; a line that belongs to the one above is indented more"},
	{"«+» a", "a line begins with a name or with a word such as `limit`, not with `+`", "write `name [unit] = …`; a line that belongs to the one above is indented more"},
	{"x = («)»", "a value is wanted where `)` stands", ""},
	{"x = [«,»]", "a value is wanted where `,` stands", ""},
	{"x = f(«,»)", "a value is wanted where `,` stands", ""},
	{"x = «^»2", "a value is wanted where `^` stands", ""},
	{"x = a «^»", "nothing follows `^`", "indent the next line if it belongs to this one"},
	{"x = «-» ", "nothing follows `-`", "indent the next line if it belongs to this one"},
	{"x = «not»", "nothing follows `not`", "indent the next line if it belongs to this one"},
	{"x = a «and»", "nothing follows `and`", "indent the next line if it belongs to this one"},
	{"x = «and» a", "a value is wanted where `and` stands", "`and` is a word of the notation and cannot be a name"},
	{"x = a.«and»", "`and` is a word of the notation and cannot be a name", "choose another name, such as `and_1`"},
	{"x = a.«.»b", "the name of a field is wanted where `.` stands", ""},
	{"x = 12 V «3»", "an operator is missing before `3`", "write `*` to multiply; nothing is multiplied unsaid"},
	{"x = 12 «V»(3)", "`V` directly behind a number is read as a unit", "write `* V(…)` to multiply; nothing is multiplied unsaid"},
	{`x = 12 V «"a"»`, "an operator is missing before `\"a\"`", "write `*` to multiply; nothing is multiplied unsaid"},
	{"x = vary y in 1 to 2: z «with» a = 2", "`with` stands only at the end of a definition", "give the value a name: `name = … with x = …`"},
	{"x = 3 + «vary» y in 1 to 2: z", "`vary` stands first in its statement, or directly behind =", "give it a name: `name = vary …`"},
	{"limit a «=» b", "a comparison is wanted here, and `=` defines", "write `<=`, `>=` or `==`"},
	{"limit a «==» b", "a limit is kept with some room, and `==` leaves none", "write `<=` or `>=`"},
	{"f(a, b) «c» = 3", "`=` is wanted where `c` stands", "a function is written `f(x [m/s], n) [W] = …`"},
	{"f(a, «3») = 4", "a name is wanted where `3` stands", "a function is written `f(x [m/s], n) [W] = …`"},
	{"x = (a «:» b)", "`)` is missing before `:`", ""},
	{"x = f(a : b) «:» c", "`:` cannot stand here", ""},
	{`use "a" as «if»`, "nothing follows `if`", "indent the next line if it belongs to this one"},
	{"draws «0»", "a whole number above zero is wanted", "write `draws 100_000`"},
	{"x [V] «3» = 4", "`=` is wanted where `3` stands", ""},
	{"x = 3 «)» + 4", "`)` closes no bracket", "delete it, or open the bracket"},
	{"x = a < «not» b", "a value is wanted where `not` stands", "put `not …` in brackets"},
	{"x = «12.5e»", "a space is missing between a number and its unit", "write `12.5 e`"},
	{"x = «0x10»", "a space is missing between a number and its unit", "write `0 x10`"},
	{"x = «1e»", "a space is missing between a number and its unit", "write `1 e`"},
	{"x = a«[»1", "this bracket is not closed", "close it, or indent the lines that belong to it"},
	{`x = "a" «"b"»`, "an operator is missing before `\"b\"`", "write `*` to multiply; nothing is multiplied unsaid"},
	{"x = a[«]»", "a value is wanted where `]` stands", ""},
	{"x = 1 V«.»a", "a number has no fields", "write `1 * …` to multiply"},
	{"x = if then «else»", "nothing follows `else`", "indent the next line if it belongs to this one"},
	{"x = 12 V «:» 3", "`:` cannot stand here", ""},
	{"x = 10 V ± «(1 ± 2) V»", "a spread has no spread of its own", "write a number with its unit, or a constant in brackets"},
	{"x = 10 V ± «(1 V ± 2 V)»", "a spread has no spread of its own", "write a number with its unit, or a constant in brackets"},
	{"x = «(12.50 ± 0.25)F»", "a space is missing between a number and its unit", "write `(12.50 ± 0.25) F`"},
	{"«2x» = 3", "a name begins with a letter", "write `x_2`"},
	{"x = (12 + 1) «V»", "an operator is missing before `V`", "write `*` to multiply; nothing is multiplied unsaid"},
	// Layout.
	{"x = a\n «y» = b", "this line is indented more than the block's first, so it belongs to the statement above", "give it the indent of the others if it stands by itself"},
	{"x = [1 V,\n  2 V\n  «3» V]", "`]` is missing before `3`", "the elements of a list stand between commas: `[1 V, 2 V]`"},
	{"x = a\n«)»", "`)` closes no bracket", "delete it, or open the bracket"},
	{"x = \"a«\xff»\"", "an invisible character, `\\xff`, stands here", "delete it, or retype the text"},
	{"x = a «\x1b»", "an invisible character, `\\x1b`, stands here", "delete it"},
	{"x [m«\u202e»] = 3", "an invisible character, `\\u202e`, stands here", "delete it"},
}

// cut takes « and » out of a text, and gives the place between them.
func cut(t *testing.T, marked string) (text string, at message.Span) {
	before, rest, ok := strings.Cut(marked, "«")
	inside, after, ok2 := strings.Cut(rest, "»")
	if !ok || !ok2 {
		t.Fatalf("%s: no place marked", marked)
	}
	return before + inside + after, message.Span{File: "a.md", Start: len(before), End: len(before) + len(inside)}
}

func TestMistakes(t *testing.T) {
	for _, c := range mistakes {
		text, at := cut(t, c.text)
		tree, problems := Parse("a.md", blockOf(text))
		if len(problems) != 1 || len(tree.Statements) != 0 {
			t.Errorf("%s: %d problems, %d statements: %v", c.text, len(problems), len(tree.Statements), problems)
			continue
		}
		d := problems[0]
		if d.Summary != c.summary || d.Hint != c.hint || d.Span != at {
			t.Errorf("%s\n got %q, %q at %d-%d\nwant %q, %q at %d-%d", c.text, d.Summary, d.Hint, d.Span.Start, d.Span.End, c.summary, c.hint, at.Start, at.End)
		}
	}
	if len(mistakes) < 60 {
		t.Errorf("only %d mistakes", len(mistakes))
	}
}

// No message shows how the program is built.
func TestMistakesInBuildersTerms(t *testing.T) {
	for _, c := range mistakes {
		for _, word := range []string{"Parser", "Line", "token", "EOF", "expected", "syntax", "parse", "nil", "%!"} {
			if strings.Contains(c.summary+c.hint, word) {
				t.Errorf("%s: %q says %q", c.text, c.summary+"; "+c.hint, word)
			}
		}
	}
}

// All mistakes of a file are reported at once, and the right statements stay.
func TestRecovery(t *testing.T) {
	tree, problems := Parse("a.md", blockOf("a = 12V\nb = 2 V\nc = (b\nd = 1 V\n  + 2V\n  + 3V\ne = a + b\n f = 3\n"))
	var names []string
	for _, s := range tree.Statements {
		names = append(names, s.(*Definition).Name.Name)
	}
	if got := strings.Join(names, " "); got != "b" {
		t.Errorf("kept %s", got)
	}
	var places []string
	for _, p := range problems {
		places = append(places, fmt.Sprint(p.Span.Start))
	}
	if got := strings.Join(places, " "); got != "4 20 35 42 56" {
		t.Errorf("problems at %s: %v", got, problems)
	}
}

// What stands at the margin, or left of it, never continues a line.
func TestLayoutMistakes(t *testing.T) {
	for _, c := range []struct {
		text string
		want []string
	}{
		{"x = f(a,\nb)", []string{"5: this bracket is not closed"}},
		{"x = a +\ny = 3", []string{"6: nothing follows `+`"}},
		{"x = a and\ny = 3", []string{"6: nothing follows `and`"}},
		{"  x = a\ny = 3\n  z = 4", []string{"8: this line begins left of the block's first statement"}},
		{"\tx = a\n    y = 3", nil}, // a tab is four columns
		{"# alone\n\n   # indented\nx = a\n# between\n  + b", nil},
		{"", nil},
		{"\u00a0", nil},
	} {
		_, problems := Parse("a.md", blockOf(c.text))
		var got []string
		for _, p := range problems {
			got = append(got, fmt.Sprintf("%d: %s", p.Span.Start, p.Summary))
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%q: got %q, want %q", c.text, got, c.want)
		}
	}
}

// A file that is nothing but mistakes gets a message for each of them.
func TestAllMistakesAtOnce(t *testing.T) {
	var all strings.Builder
	count := 0
	for _, c := range mistakes {
		text, _ := cut(t, c.text)
		if strings.Contains(text, "\n") {
			continue
		}
		// A right line between keeps a mistake from being taken for the rest of another.
		all.WriteString(text + "\nright = 1\n")
		count++
	}
	_, problems := Parse("a.md", blockOf(all.String()))
	if len(problems) != count {
		t.Errorf("%d problems, want %d", len(problems), count)
	}
}
