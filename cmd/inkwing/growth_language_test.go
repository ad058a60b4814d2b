package main

// setting is what the statements of growing pages speak of.
const setting = "```working\na = 1 V\nb = 2 * a\nn = 3\nu = 1 V ± 0.1 V\nv = 1 A ± 0.1 A\nw = u * v\nr = [1 V, 2 V, 3 V]\nlog = vary n in 1 to 3: m\nm = 2 * n\nf(x) = 2 * x\ncell = capacitor(50 F, 2.7 V)\n```\n\n" +
	"<!-- table: parts -->\n\n| part | kind | mass [g] |\n| :--- | :--- | -------: |\n| fin | slow | 4.3 |\n| tail | fast | 4 |\n\n"

// statements are the language's, with their number for %d and the one before it for %p.
var statements = map[string]string{
	"number":             "q%d = %d V",
	"bracket":            "q%d [mV] = %d V",
	"bare number":        "q%d [mV] = %d",
	"remark":             "# of %d",
	"note":               "q%d = %d V # of %d",
	"of one":             "q%d = a + %d V",
	"chain":              "q%d = q%p + 1 V\nq%p = a",
	"spread":             "q%d = %d V ± 0.1 V (k = 2)",
	"of uncertain":       "q%d = u * %d",
	"within":             "q%d = %d V within 5 %\np%d = 2 * q%d",
	"within two":         "q%d = within 1 V to %d V + 2 V",
	"certificate":        "q%d = 1 V ± 0.1 V (k = 2.26, ν = %d)",
	"draws":              "draws 1_0%d",
	"text":               "q%d = \"of %d\"",
	"yes":                "q%d = a < %d V and not b > 3 V",
	"branch":             "q%d = if a < %d V then 1 else 2",
	"money":              "q%d = €3.20 * %d",
	"temperature":        "q%d = 20 °C + %d K",
	"list":               "q%d = [1 V, %d V]",
	"of list":            "q%d = sum(r) + r[1] * %d",
	"row":                "q%d = parts[\"fin\"].mass + %d g",
	"column":             "q%d = sum(parts.mass) + %d g",
	"where":              "q%d = count(parts where mass < %d g)",
	"rows":               "q%d = parts where mass < %d g sorted by mass falling first 2",
	"for least":          "q%d = (parts for least mass).part",
	"function":           "f%d(x) = %d * x",
	"function called":    "f%d(x [V]) [V] = %d * x\nq%d = f%d(a)",
	"function chain":     "f%d(x) = f%p(x) + 1\nf%p(x) = x",
	"call":               "q%d = f(%d V)",
	"record":             "q%d = capacitor(%d F, 2.7 V)",
	"cautions":           "q%d = pack(capacitor(%d F, 2.7 V), series: 4)",
	"limit":              "limit a < %d V\n  \"Less of it.\"",
	"limit both":         "limit 0 V <= a <= %d V",
	"limit broken":       "limit a > %d V + 9 V",
	"limit of own":       "q%d = %d V\nlimit q%d < 3 V",
	"with":               "q%d = b with a = %d V",
	"vary":               "vary n in 1 to 2: m",
	"vary named":         "q%d = vary n in 1 to 2: m",
	"with argument":      "q%d = cell with cell(capacitance) = %d F",
	"with own argument":  "q%d = f(%d V)\np%d = b with q%d(x) = 2 V",
	"vary two":           "vary n in 1 to 2, a in [1 V, %d V]: m",
	"vary a table":       "q%d = parts[\"fin\"]\nvary q%d in parts: q%d.mass",
	"vary argument":      "vary cell(capacitance) in [1 F, %d F]: cell.capacitance",
	"vary own":           "q%d = %d\nvary q%d in 1 to 2: p%d\np%d = q%d + a / (1 V)",
	"adjust":             "q%d = adjust n in 1 to 9 by 1 until m >= 4",
	"adjust own":         "q%d = %d\ns%d = adjust q%d in 1 to 9 until p%d == 4\np%d = q%d + 1",
	"adjust in vain":     "q%d = adjust n in 1 to 9 until m == 100 + %d",
	"tune two":           "q%d = tune n in 1 to 3 by 1, a in 1 V to 2 V by 1 V for least m",
	"tune":               "q%d = tune n in 1 to 3 by 1 for most m",
	"budget":             "budget w",
	"budget own":         "q%d = u * %d\nbudget q%d at 99 %",
	"correlation":        "q%d = 1 V ± 0.1 V\np%d = 1 V ± 0.1 V\ncorrelation q%d, p%d = 0.9",
	"correlation far":    "correlation q%d, z%d = 0.9",
	"correlation of one": "correlation u, v = 0.%d",
	"measured":           "measured b = %d V",
	"measured own":       "q%d = %d V\nmeasured q%d = [1 V ± 0.1 V, 2 V]",
	"chart":              "chart \"of %d\": m against n from log",
	"chart alike":        "chart \"of\": m against n from log",
	"chart bars":         "chart \"of %d\": mass [g] against part from parts",
	"show":               "show parts: part, mass [g] where mass < %d g sorted by mass total mass",
	"show record":        "show cell: capacitance",
	"show list":          "show r",
	"digits":             "digits 3",
	"digits own":         "q%d = %d V\ndigits 2 q%d",
	"digits far":         "digits 2 q%d",
	"show total":         "show parts: part, mass where mass < %d g first 2 total mass",
	"overview":           "overview",
	"use data":           "use \"data.csv\" as q%d (a [V], b)",
	"use none":           "use \"none%d.md\"",
	"use page":           "use \"page.md\" as q%d",
	"observed":           "q%d = observed(1 V, 2 V, %d V)",
	"continued":          "q%d = 1 V +\n  %d V",
	"blank":              "",
	"same":               "same = 1 V",
	"circle":             "q%d = q%p + 1\nq%p = q%d + 1",
	"unknown":            "q%d = z%d",
	"unknown near":       "quantity%d = quantiti%d + 1",
	"unknown far":        "q%d = xxxxxxxxxxxxx%d",
	"unknown unit":       "q%d = 1 quux%d",
	"unknown function":   "q%d = fun%d(1)",
	"unknown argument":   "q%d = capacitor(50 F, 2.7 V, of%d: 3)",
	"unknown field":      "q%d = cell.of%d",
	"unknown column":     "q%d = parts.of%d",
	"unknown row":        "q%d = parts[\"of%d\"].mass",
	"unknown table":      "chart \"of %d\": m against n from log%d",
	"unknown with":       "q%d = b with z%d = 1 V",
	"unknown argument,":  "vary cell(of%d) in 1 to 2: b",
	"unknown cell":       "vary parts[\"of%d\"].mass in 1 g to 2 g by 1 g: b",
	"unknown budget":     "budget z%d",
	"unknown measured":   "measured z%d = 1 V",
	"unknown total":      "show parts: mass total of%d",
	"replaced worked":    "q%d = 2 * q%p\np%d = b with q%d = 1 V\nq%p = a",
	"not touched":        "q%d = 2 * q%p + 2 V\nvary n in 1 to 2: q%d\nq%p = a",
	"unknown vary":       "vary z%d in 1 to 2: b",
	"unknown show":       "show z%d: b",
	"unknown digits":     "digits 2 z%d",
	"unknown word":       "lymit a < %d V",
	"unfit":              "q%d = a + %d A",
	"unfit bracket":      "q%d [A] = a * %d",
	"unfit argument":     "q%d = capacitor(%d V, 2.7 V)",
	"unfit limit":        "limit a < %d A",
	"waits":              "q%d = bad + %d\nbad = 1 V + 1 A",
	"zero division":      "q%d = a / (0 V * %d)",
	"cut after =":        "q%d =",
	"cut after +":        "q%d = 1 V +",
	"cut bracket":        "q%d = (1 V",
	"cut text":           "q%d = \"of",
	"cut limit":          "limit a <",
	"cut vary":           "vary n in 1 to",
	"cut with":           "q%d = b with",
	"cut chart":          "chart \"of %d\": m against",
	"cut use":            "use \"data.csv",
	"cut unit":           "q%d [V = 3",
	"odd signs":          "q%d = 1 V ~~ @ 3",
	"no words":           "of this and that %d",
	"two ways":           "q%d = 1,5 V",
	"no blank":           "q%d = 12V",
	"closed":             "q%d = )",
	"deep":               "q%d = ((((((((((((((((((((a))))))))))))))))))))",
	"deep to the bottom": "q%d = ------------------------------------------------------------------------------------------------------------1",
}

// wide are the parts of the language that repeat within one statement: what stands
// before, what is repeated, and what stands behind.
var wide = map[string][3]string{
	"sum":              {"q = a", " + %d V", ""},
	"difference":       {"q = a", " - a", ""},
	"product":          {"q = n", " * n", ""},
	"quotient":         {"q = n", " / n", ""},
	"and":              {"q = a < 1 V", " and a < %d V", ""},
	"or":               {"q = a < 1 V", " or a < %d V", ""},
	"and with or":      {"q = a < 1 V", " and a < %d V or b < %d V", ""},
	"not":              {"q = a < 1 V", " and not a < %d V", ""},
	"times and over":   {"q = n", " * %d / n", ""},
	"sum in a call":    {"q = f(a", " + %d V", ")"},
	"product in a sum": {"q = n", " + n * n * %d", ""},
	"sum with calls":   {"q = a", " + f(%d V)", ""},
	"sum of fields":    {"q = 1 F", " + cell.capacitance", ""},
	"limit of sum":     {"limit a", " + %d V", " < 3 V"},
	"limit of more":    {"limit 0 V", " <= %d V", ""},
	"varied list":      {"vary n in 1 to 2: m", ", m + %d", ""},
	"function of sum":  {"f1(x) = x", " + %d * x", "\nq = f1(2)"},
	"where of or":      {"q = count(parts where mass > 1 g", " or mass > %d g", ")"},
	"compared":         {"q = 0 V", " < %d V", ""},
	"list":             {"q = [1 V", ", %d V", "]"},
	"list of names":    {"q = [a", ", a", "]"},
	"list of errors":   {"q = [1 V", ", %d A", "]"},
	"list unknown":     {"q = [1 V", ", z%d", "]"},
	"list continued":   {"q = [1 V", ",\n  %d V", "]"},
	"arguments":        {"q = max(1 V", ", %d V", ")"},
	"named arguments":  {"q = capacitor(50 F, 2.7 V", ", of%d: 1", ")"},
	"parameters":       {"f1(x", ", x%d", ") = x"},
	"with":             {"q = b with a = 1 V", ", a = %d V", ""},
	"with unknown":     {"q = b with a = 1 V", ", z%d = 1 V", ""},
	"vary":             {"vary n in 1 to 2: m", ", m", ""},
	"vary over":        {"vary n in [1", ", %d", "]: m"},
	"chart":            {"chart \"of\": m", ", m", " against n from log"},
	"chart from":       {"chart \"of\": m against n from log", ", log", ""},
	"show":             {"show parts: part", ", mass [g]", ""},
	"show unknown":     {"show parts: part", ", of%d", ""},
	"digits":           {"digits 2 a", ", q%d", ""},
	"columns":          {"use \"data.csv\" as q (a [V]", ", c%d [V]", ")"},
	"measured":         {"measured b = [1 V", ", %d V", "]"},
	"observed":         {"q = observed(1 V", ", %d V", ")"},
	"rows":             {"q = parts", " where mass > 1 g", ""},
	"tables":           {"q = parts", " + parts", ""},
	"sorted":           {"q = parts", " sorted by mass", ""},
	"branches":         {"q = if a < 1 V then 1", " else if a < %d V then 1", " else 2"},
	"brackets":         {"q = ", "(", "1"},
	"closing brackets": {"q = 1", ")", ""},
	"signs":            {"q = ", "-", "1"},
	"powers":           {"q = n", "^1", ""},
	"name":             {"q", "x", " = 1 V"},
	"name unknown":     {"q = z", "x", ""},
	"name in bits":     {"q", "_x", " = 1 V"},
	"fields":           {"q = cell", ".of", ""},
	"unit":             {"q = 1 m", "·m", ""},
	"unit of quotient": {"q = 1 m", "/m", ""},
	"unit in bracket":  {"q [m", "*m", "] = 1"},
	"unknown unit":     {"q = 1 z", "z", ""},
	"digits of number": {"q = 1", "0", " V"},
	"places":           {"q = 1.", "1", " V"},
	"text":             {"q = \"", "of ", "\""},
	"text of signs":    {"q = \"", "\\\"", "\""},
	"text of pipes":    {"q = \"", "|", "\""},
	"text cut":         {"q = \"", "of ", ""},
	"remark":           {"q = 1 V # ", "of ", ""},
	"note with marks":  {"q = a + 1 V # ", "*of* `a` [b](c) <d> | ", ""},
	"title":            {"chart \"", "of ", "\": m against n from log"},
	"sentence":         {"limit a < 3 V\n  \"", "of ", "\""},
	"path":             {"use \"", "of/", "data.csv\""},
	"blanks":           {"q =", " ", "1 V"},
	"tabs":             {"q =", "\t", "1 V"},
	"odd signs":        {"q = ", "~", ""},
	"control signs":    {"q = ", "\x01", ""},
	"words":            {"of", " of", ""},
	"sevens":           {"", "7 ", ""},
	"commas":           {"q = ", ",", ""},
	"brackets, square": {"q = ", "[", ""},
	"indexes":          {"q = r", "[1]", ""},
	"calls":            {"q = ", "f(", "a"},
	"dots":             {"q = ", "...", ""},
	"degrees":          {"q = ", "1° ", ""},
	"plus and minus":   {"q = a", " ± 1 V", ""},
	"equal signs":      {"q ", "= ", "1"},
	"correlation":      {"correlation u", ", v", " = 0.5"},
	"budget":           {"budget w", ", w", ""},
	"tune":             {"q = tune n in 1 to 3 by 1", ", n in 1 to 3 by 1", " for most m"},
}

// calls are a definition of n calls, each of a function of its own.
func calls(n int) string {
	return rep(n, "g%d(x%d) = x%d\n") + "q = 1" + rep(n, " + g%d(1)") + "\n"
}

// behindChain is a chain of n definitions, and n lines that stand behind all of it.
func behindChain(n int, line string) string {
	return "q0 = a\n" + rep(n, "q%d = q%p + 1 V\n") + lastly(n, "end = q%d\n") + rep(n, line)
}

// webs are blocks whose statements hang together, of n statements.
var webs = map[string]func(n int) string{
	"chain":              func(n int) string { return "q0 = a\n" + rep(n, "q%d = q%p + 1 V\n") },
	"chain upwards":      func(n int) string { return rep(n, "q%p = q%d + 1 V\n") + lastly(n, "q%d = a\n") },
	"chain uncertain":    func(n int) string { return "q0 = u\n" + rep(n, "q%d = q%p + 1 V\n") },
	"chain of functions": func(n int) string { return "g0(x) = x\n" + rep(n, "g%d(x) = g%p(x) + 1\n") + lastly(n, "q = g%d(1)\n") },
	"doubled functions": func(n int) string {
		return "g0(x) = x\n" + rep(n, "g%d(x) = g%p(x) + g%p(x)\n") + lastly(n, "q = g%d(1)\n")
	},
	"functions that use": func(n int) string {
		return "g0(x) = x\n" + rep(n, "x%d = %d\ng%d(x) = g%p(x) + x%d\n") + lastly(n, "q = g%d(1)\n")
	},
	"functions of units": func(n int) string { return rep(n, "x%d = %d\ng%d(x [1]) = x + x%d\n") },
	"functions called":   func(n int) string { return rep(n, "g%d(x) = x\n") + "q = 1" + rep(n, " + g%d(1)") + "\n" },
	"arguments replaced": func(n int) string { return calls(n) + "k = 3\n" + rep(n, "p%d = k with q(x%d) = 2\n") },
	"arguments unknown":  func(n int) string { return calls(n) + "k = 3\n" + rep(n, "p%d = k with q(z%d) = 2\n") },
	"arguments of one name": func(n int) string {
		return "h(x) = x\nq = 1" + rep(n, " + h(%d)") + "\nk = 3\n" + rep(n, "p%d = k with q(x) = 2\n")
	},
	"arguments of functions": func(n int) string {
		return rep(n, "g%d(x) = x\n") + "q = 1" + rep(n, " + g%d(1)") + "\nk = 3\n" + rep(n, "p%d = k with q(x) = 2\n")
	},
	"arguments left out": func(n int) string {
		return "q = 1" + rep(n, " + round(%d.5)") + "\nk = 3\n" + rep(n, "p%d = k with q(digits) = 2\n")
	},
	"arguments correlated": func(n int) string {
		return rep(n/20, "g%d(x%d) = x%d\n") + "q = 1" + rep(n/20, " + g%d(1 ± 0.1)") + "\n" + from(2, n/20, "correlation q(x%p), q(x%d) = 0.5\n")
	},
	"chain replaced": func(n int) string {
		return "q0 = a\n" + rep(n, "q%d = q%p + 1 V\n") + rep(n, "p%d = b with q%d = 1 V\n")
	},
	"chain not touched": func(n int) string {
		return "q0 = a\n" + rep(n, "q%d = q%p + 1 V\n") + rep(n, "p%d = tune n in 1 to 3 by 1 for most q%d\n")
	},
	"chain of with worked": func(n int) string {
		return "q0 = r[1]\n" + rep(n, "q%d = q%p + r[2]\n") + rep(n, "p%d = b with q%d = 1 V\n")
	},
	"vary behind a chain": func(n int) string { return behindChain(n, "p%d = end * n\nvary n in 1 to 2: p%d\n") },
	"adjust behind a chain": func(n int) string {
		return behindChain(n, "p%d = end * n\ns%d = adjust n in 1 to 2 by 1 until p%d > 1 V\n")
	},
	"tune behind a chain": func(n int) string {
		return behindChain(n, "p%d = end * n\ns%d = tune n in 1 to 2 by 1 for least p%d\n")
	},
	"with behind a chain":   func(n int) string { return behindChain(n, "p%d = end * n\ns%d = p%d with n = 2\n") },
	"limit behind a chain":  func(n int) string { return behindChain(n, "limit end < %d V\n") },
	"budget behind a chain": func(n int) string { return behindChain(n, "p%d = end * u\nbudget p%d\n") },
	"chart behind a chain": func(n int) string {
		return behindChain(n/4, "t%d = vary n in 1 to 2: p\n") + "p = end * n\n" + rep(n/4, "chart \"of %d\": p against n from t%d\n")
	},
	"where behind a chain": func(n int) string {
		return behindChain(n, "p%d = count(parts where mass * end > %d g * 1 V)\n")
	},
	"cells of all":  func(n int) string { return rep(n, "q%d = r[1] * %d\np%d = if q%d > 3 V then q%d else r[2]\n") },
	"tables of all": func(n int) string { return rep(n, "q%d = log + log\np%d = q%d[1]\ns%d = p%d.m\n") },
	"records of records": func(n int) string {
		return rep(n, "q%d = pack(capacitor(%d F, 2.7 V), series: 4)\np%d = q%d.capacitance\n")
	},
	"means": func(n int) string {
		return rep(n/20, "q%d = observed(1 V, 2 V, %d V)\n") + "all = 0 V" + rep(n/20, " + q%d") + "\nbudget all\n"
	},
	"function of parameters": func(n int) string {
		return "g(x" + rep(n, ", x%d") + ") = x\nq = g(1" + rep(n, ", %d") + ")\np = g(1" + rep(n, ", x%d: 1") + ")\n"
	},
	"function of parameters called": func(n int) string {
		return "g(x" + rep(n, ", x%d") + ") = x\n" + rep(n, "q%d = g(1)\np%d = g(x%d: 1)\n")
	},
	"outputs of all": func(n int) string {
		return rep(n, "q%d = n * %d\n") + "vary n in 1 to 2: q1" + from(2, n, ", q%d") + "\n"
	},
	// What is uncertain in a list bears on all of it: a square, within the bound on what
	// inputs bear on.
	"spreads in a list":            func(n int) string { return "q = [1 V" + rep(n/20, ", 1 V ± 0.1 V") + "]\n" },
	"unread names":                 func(n int) string { return rep(n, "q%d = 1 V +\n") + rep(n, "p%d = q%d + z%d\n") },
	"unused names":                 func(n int) string { return rep(n, "use \"none%d.md\" as q%d\n") + rep(n, "p%d = q%d.a + z%d\n") },
	"function that fails":          func(n int) string { return "g(x [V]) = x + 1 A\n" + rep(n, "q%d = g(%d V)\n") },
	"function that fails for some": func(n int) string { return "g(x) = x + 1 A\n" + rep(n, "q%d = g(%d V)\n") },
	"chain of tables":              func(n int) string { return "q0 = parts\n" + rep(n, "q%d = q%p where mass > 1 g\n") },
	"chain of lists":               func(n int) string { return "q0 = r\n" + rep(n, "q%d = q%p + 1 V\n") },
	"chain of records":             func(n int) string { return "q0 = cell\n" + rep(n, "q%d = q%p\n") },
	"chain of with":                func(n int) string { return "q0 = a\n" + rep(n, "p%d = b with a = q%p\nq%d = p%d + 1 V\n") },
	"chain of limits":              func(n int) string { return "q0 = a\n" + rep(n, "q%d = q%p + 1 V\nlimit q%d > 0 V\n") },
	"chain of errors":              func(n int) string { return "q0 = 1 V + 1 A\n" + rep(n, "q%d = q%p + 1 V\n") },
	"chain of records that warn": func(n int) string {
		return "q0 = cell\n" + rep(n, "q%d = pack(cell, series: 4)\np%d = q%p.capacitance\n")
	},
	"ladder":            func(n int) string { return "q0 = 0 V\nq1 = a\n" + from(2, n, "q%d = q%p + q%o\n") },
	"circle of all":     func(n int) string { return rep(n, "q%d = q%p + 1 V\n") + lastly(n, "q0 = q%d\n") },
	"star of all":       func(n int) string { return rep(n, "q%d = a + %d V\n") + "all = q1" + rep(n, " + q%d") + "\n" },
	"list of all":       func(n int) string { return rep(n, "q%d = a + %d V\n") + "all = sum([q1" + rep(n, ", q%d") + "])\n" },
	"vary of all":       func(n int) string { return rep(n, "q%d = m + %d\n") + "vary n in 1 to 2: q1" + rep(n, ", q%d") + "\n" },
	"vary over limits":  func(n int) string { return rep(n, "limit m < %d\n") + "vary n in 1 to 20: m\n" },
	"vary over points":  func(n int) string { return lastly(n, "vary n in 1 to %d: m\n") },
	"vary over errors":  func(n int) string { return rep(n, "q%d = 1 / (n - %d)\n") + "vary n in 1 to 3: m\n" },
	"adjust over limit": func(n int) string { return rep(n, "limit m < %d\n") + "q = adjust n in 1 to 9 until m == 4\n" },
	"tune over limits":  func(n int) string { return rep(n, "limit m < %d\n") + "q = tune n in 1 to 9 by 1 for most m\n" },
	"uncertain": func(n int) string {
		return rep(n/20, "i%d = 1 V ± 0.1 V\n") + "q = u" + rep(n/20, " + i%d") + "\nbudget q\n"
	},
	"one of uncertain": func(n int) string { return rep(n/20, "i%d = 1 V ± 0.1 V\nq%d = i%d * 2\nbudget q%d\n") },
	"uncertain limits": func(n int) string { return rep(n, "limit u < %d V\n") },
	"correlated": func(n int) string {
		return rep(n/20, "i%d = 1 V ± 0.1 V\n") + from(2, n/20, "correlation i%p, i%d = 0.5\n") + "q = i1 + i2\n"
	},
	"drawn":        func(n int) string { return "draws 1_000\n" + rep(n/20, "q%d = u * %d\n") },
	"drawn inputs": func(n int) string { return "draws 1_000\n" + rep(n/20, "i%d = 1 V ± 0.1 V\nq%d = 2 * i%d\n") },
	"drawn limits": func(n int) string { return "draws 1_000\n" + rep(n/20, "limit w * %d < 3 W\n") },
	"charts of vary": func(n int) string {
		return rep(n/10, "l%d = vary n in 1 to 3: m\nchart \"of %d\": m against n from l%d\n")
	},
	"charts limits": func(n int) string { return rep(n/10, "limit m < %d\nchart \"of %d\": m against n from log\n") },
	"points drawn": func(n int) string {
		return lastly(n, "l = vary n in 1 to %d: m\n") + "chart \"of\": m against n from l\n"
	},
	"bands drawn": func(n int) string {
		return lastly(n/10, "l = vary n in 1 to %d: p\np = n * u\n") + "chart \"of\": p against n from l\n"
	},
	"overview of all": func(n int) string { return "overview\n" + rep(n, "q%d = a + %d V\nlimit q%d < 3 V\n") },
	"digits of all":   func(n int) string { return rep(n, "q%d = a + %d V\ndigits 2 q%d\n") },
	"shown of all":    func(n int) string { return rep(n, "q%d = parts where mass < %d g\nshow q%d: part\n") },
	"measured of all": func(n int) string { return rep(n, "q%d = a + %d V\nmeasured q%d = 2 V\n") },
	"hidden names":    func(n int) string { return rep(n, "pi = %d\n") },
	"greek":           func(n int) string { return rep(n, "α%d = β%d\n") },
	"near names": func(n int) string {
		return rep(n, "name_of_quantity_%d = a\n") + rep(n, "p%d = name_of_quantiti_%d\n")
	},
	"names that differ little": func(n int) string { return rep(n, "U_%d = a\n") + rep(n, "p%d = u_%d\n") },
	"same names far":           func(n int) string { return rep(n, "q%d = a\n") + rep(n, "q%d = b\n") },
	"texts compared":           func(n int) string { return rep(n, "q%d = if \"of %d\" == \"of\" then 1 else 2\n") },
	"calls in calls":           func(n int) string { return rep(n, "q%d = f(f(f(f(f(a)))))\n") },
	"histories": func(n int) string {
		return rep(n/100, "q%d = pack(cell, series: %d)\np%d = hold_up_time(q%d, from: 5.5 V, to: 4.5 V, current: 0.15 A)\n")
	},
}
