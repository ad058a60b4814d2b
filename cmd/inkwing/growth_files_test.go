package main

import (
	"maps"
	"strconv"
	"strings"
)

// data are CSV files whose rows repeat: the head, a row, and what reads it.
var data = map[string][3]string{
	"rows":         {"a [V],b\n", "%d,2\n", "use \"data.csv\" as d\nq = sum(d.a)"},
	"columns told": {"a,b\n", "%d,2\n", "use \"data.csv\" as d (a [V], b [A])\nq = sum(d.a * d.b)"},
	"texts":        {"a,b\n", "of %d,2\n", "use \"data.csv\" as d\nq = d[\"of 3\"].b"},
	"quoted":       {"a,b\n", "\"of, %d\",\"\"\"\"\n", "use \"data.csv\" as d\nq = count(d)"},
	"line ends":    {"a,b\n", "\"of\n%d\",2\n", "use \"data.csv\" as d\nq = count(d)"},
	"quote open":   {"a,b\n", "of,\"%d\n", "use \"data.csv\" as d\nq = count(d)"},
	"one cell":     {"a,b\n1,\"", "of\n", "use \"data.csv\" as d\nq = count(d)"},
	"semicolons":   {"a [V];b\n", "%d,5;2\n", "use \"data.csv\" as d\nq = sum(d.a)"},
	"tabs":         {"a [V]\tb\n", "%d,5\t2\n", "use \"data.csv\" as d\nq = sum(d.a)"},
	"thousands":    {"a [V];b\n", "1,250;2\n", "use \"data.csv\" as d\nq = sum(d.a)"},
	"words":        {"a [V],b\n", "of,2\n", "use \"data.csv\" as d\nq = sum(d.a)"},
	"words, used":  {"a [V],b\n", "of,2\n", "use \"data.csv\" as d\nq = sum(d.a)\nq2 = d.a[3]\nshow d"},
	"empty":        {"a [V],b\n", ",\n", "use \"data.csv\" as d\nq = sum(d.a)"},
	"blank":        {"a [V],b\n", "\n", "use \"data.csv\" as d\nq = sum(d.a)"},
	"long rows":    {"a [V],b\n", "%d,2,3,4\n", "use \"data.csv\" as d\nq = sum(d.a)"},
	"short rows":   {"a [V],b\n", "%d\n", "use \"data.csv\" as d\nq = sum(d.a)"},
	"uncertain":    {"a [V],b\n", "%d ± 0.1,2\n", "use \"data.csv\" as d\nq = mean(d.a)"},
	"plotted":      {"a [V],b [s]\n", "%d,%d\n", "use \"data.csv\" as d\nchart \"of\": a against b from d"},
	"bars":         {"a,b [s]\n", "of %d,%d\n", "use \"data.csv\" as d\nchart \"of\": b against a from d"},
	"shown":        {"a [V],b\n", "%d,2\n", "use \"data.csv\" as d\nshow d"},
	"where":        {"a [V],b\n", "%d,2\n", "use \"data.csv\" as d\nq = sum((d where a > 3 V sorted by a).a)"},
	"varied":       {"a,b\n", "%d,2\n", "use \"data.csv\" as d (a [1], b [1])\nvary n in d.a: m"},
	"observed":     {"a [V],b\n", "%d,2\n", "use \"data.csv\" as d\nq = observed(d.a)\nbudget q"},
	"fitted":       {"a [V],b [s]\n", "%d,%d\n", "use \"data.csv\" as d\nq = fit_line(d.b, d.a)\nq2 = interpolate(2 s, d.b, d.a)"},
	"carriage":     {"a [V],b\r", "%d,2\r", "use \"data.csv\" as d\nq = sum(d.a)"},
}

// dataColumns are CSV files of one row whose columns repeat: a heading, a cell, and
// what reads it.
var dataColumns = map[string][3]string{
	"wide":        {"c%d [V],", "%d,", "use \"data.csv\" as d\nq = d[1].c3"},
	"wide texts":  {"c%d,", "of,", "use \"data.csv\" as d\nq = d[1].c3"},
	"wide same":   {"c [V],", "%d,", "use \"data.csv\" as d\nq = d[1].c3"},
	"wide wrong":  {"c (V),", "%d,", "use \"data.csv\" as d\nq = d[1].c3"},
	"wide missed": {"c%d [V],", "%d,", "use \"data.csv\" as d\nq = d.e"},
	"wide empty":  {",", ",", "use \"data.csv\" as d\nq = d.e"},
	"wide words":  {"c%d [V],", "of,", "use \"data.csv\" as d\nq = d[1].c3"},
}

// folders are inputs of many files.
var folders = []growing{
	{"folder, page of many", func(n int) string {
		return working("use \"many.md\" as p\n" + rep(n, "q%d = p.c%d\n") + "a = 1 V\nb = 2 * a")
	}, func(n int) map[string]string { return with("many.md", working(rep(n, "c%d = %d V\n"))) }},
	{"folder, page of many, unknown", func(n int) string {
		return working("use \"many.md\" as p\n" + rep(n, "q%d = p.z%d\n") + "a = 1 V\nb = 2 * a")
	}, func(n int) map[string]string { return with("many.md", working(rep(n, "c%d = %d V\n"))) }},
	{"folder, page of errors", func(n int) string {
		return working("use \"many.md\" as p\n" + rep(n, "q%d = p.c%d\n") + "a = 1 V\nb = 2 * a")
	}, func(n int) map[string]string { return with("many.md", working(rep(n, "c%d = 1 V + 1 A\n"))) }},
	{"folder, pages through one", func(n int) string {
		return working(rep(n/20, "use \"p%d.md\"\nq%d = p%d.e + 1 V\n") + "a = 1 V\nb = 2 * a")
	}, func(n int) map[string]string {
		files := manyFiles(n/20, "p%d.md", working("use \"hub.md\"\ne = hub.d\n"))
		files["hub.md"] = working(rep(n/20, "use \"d%d.md\"\nf%d = d%d.c\n") + "d = 1 V")
		for i := 1; i <= n/20; i++ {
			files[from(i, i, "d%d.md")] = working("c = 2 V")
		}
		return files
	}},
	{"folder, pages", func(int) string { return setting }, func(n int) map[string]string {
		return manyFiles(n/20, "p%d.md", working("c%d = 2 V\ne%d = 2 * c%d"))
	}},
	{"folder, pages used", func(n int) string {
		return working(rep(n/20, "use \"p%d.md\"\nq%d = p%d.e + 1 V\n") + "a = 1 V\nb = 2 * a")
	}, func(n int) map[string]string {
		return manyFiles(n/20, "p%d.md", working("c = 2 V\ne = 2 * c"))
	}},
	{"folder, pages that use one", func(int) string { return setting }, func(n int) map[string]string {
		return manyFiles(n/20, "p%d.md", working("use \"page.md\"\nc = page.h\n"))
	}},
	{"folder, data used", func(n int) string {
		return working(rep(n/20, "use \"d%d.csv\"\nq%d = sum(d%d.a)\n") + "a = 1 V\nb = 2 * a")
	}, func(n int) map[string]string {
		return manyFiles(n/20, "d%d.csv", "a [V],b\n1,2\n")
	}},
	{"folder, charts left", func(int) string { return setting + working("chart \"of\": m against n from log") }, func(n int) map[string]string {
		return manyFiles(n/20, "notes.charts/of-%d.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\">\n\n\n<metadata>inkwing chart: rewritten by every run</metadata>\n</svg>\n")
	}},
	{"folder, rules", func(int) string { return setting }, func(n int) map[string]string {
		return with("rules.md", "```keeping\n"+rep(n/4, "every quantity where name endsWith \"b%d\": value <= 3 V\n")+"```\n")
	}},
	{"folder, rules broken", func(int) string { return setting }, func(n int) map[string]string {
		return with("rules.md", "```keeping\n"+rep(n/4, "every quantity: value <= %d nV\n")+"```\n")
	}},
	{"folder, rules of pages", func(int) string { return setting }, func(n int) map[string]string {
		return with("rules.md", rep(n/4, "```keeping\nevery quantity where name endsWith \"b%d\": value <= 3 V\n```\n\n"))
	}},
	{"folder, rules of many", func(n int) string { return working(rep(n, "q%d = %d V * 2\nlimit q%d > 3 V\n") + "a = 1 V\nb = 2 * a") }, func(int) map[string]string { return beside }},
	{"folder, rules all break", func(n int) string { return working(rep(n, "q%db = %d V * 2\n") + "a = 1 V\nb = 2 * a") }, func(int) map[string]string { return beside }},
	{"folder, gathered", func(n int) string {
		return working("a = 1 V\nb = 2 * a") + "```gather\nquantity where name == \"e\"\n  from \"pages\"\n  columns journal, name, value\n  units V\n  sort value\n  chart \"of\"\n```\n"
	}, func(n int) map[string]string {
		return manyFiles(n/20, "pages/p%d.md", working("c = %d V\ne = 2 * c"))
	}},
	{"folder, gathered rows", func(n int) string {
		return working("a = 1 V\nb = 2 * a") + "```gather\nquantity\n  from \"pages\"\n  columns journal, name, value\n  sort name\n```\n"
	}, func(n int) map[string]string {
		return with("pages/p.md", working("a = 1 V\n"+rep(n, "e%d = 2 * a\n")))
	}},
}

func manyFiles(n int, name, text string) map[string]string {
	files := maps.Clone(beside)
	for i := 1; i <= n; i++ {
		files[rep(1, strings.ReplaceAll(name, "%d", strconv.Itoa(i)))] = from(i, i, text)
	}
	return files
}
