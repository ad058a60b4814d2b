package main

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
