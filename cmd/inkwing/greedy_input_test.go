//go:build linux

package main

import (
	"bufio"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A text is written and not kept: what the test holds counts for its children.
type text func(w *bufio.Writer)

// of joins strings and texts.
func of(parts ...any) text {
	return func(w *bufio.Writer) {
		for _, p := range parts {
			switch p := p.(type) {
			case string:
				w.WriteString(p)
			case text:
				p(w)
			default:
				panic("no text")
			}
		}
	}
}

// many is n lines, each by its number where it holds a %d.
func many(n int, line string) text {
	numbers := strings.Count(line, "%")
	return func(w *bufio.Writer) {
		for i := range n {
			switch numbers {
			case 0:
				w.WriteString(line)
			case 1:
				fmt.Fprintf(w, line, i)
			default:
				fmt.Fprintf(w, strings.ReplaceAll(line, "%d", "%[1]d"), i)
			}
		}
	}
}

func block(parts ...any) text { return of("```working\n", of(parts...), "\n```\n") }

// lots is about as many bytes as a file may have.
const lots = 15 << 20

// A greedy is an input that asks for much.
type greedy struct {
	name, says string            // says is part of what a check tells
	page       text              // notes.md
	files      map[string]text   // beside it
	links      map[string]string // beside it too, each holding what another holds
}

// greedies are the inputs that have been seen to take gigabytes or minutes.
var greedies = []greedy{
	{name: "wide table, short rows", says: "more than 300000 cells", page: of(block("b = count(t.a1)"), "\n<!-- table: t -->\n\n|", many(3000, "a%d|"), "\n|", many(3000, "-|"), "\n", many(100_000, "|1|\n"))},
	{name: "wide CSV, short rows", says: "more than 2000000 cells", page: block("use \"data.csv\" as d\nb = count(d.a1)"), files: map[string]text{"data.csv": of(many(3000, "a%d,"), "a\n", many(100_000, "1\n"))}},
	{name: "5000 vary", says: "2 quantities, 0 limits", page: block("a = 1\nb = 2 * a\n", many(5000, "vary a in 1 to 2 by 1: b\n"))},
	{name: "5000 vary named", says: "2 quantities", page: block("a = 1\nb = 2 * a\n", many(5000, "t%d = vary a in 1 to 2 by 1: b\n"))},
	{name: "10000 adjust", says: "10002 quantities", page: block("a = 1\nb = 2 * a\n", many(10_000, "t%d = adjust a in 1 to 9 until b == 8\n"))},
	{name: "10000 adjust of limits", says: "touch more than 300,000 limits", page: block("a = 1\nb = 2 * a\n", many(10_000, "t%d = adjust a in 1 to 9 until b == 8\nlimit b < %d\n"))},
	{name: "long text in 10000 rows", says: "larger than 16 MiB", page: block("s = \"", many(60_000, "x"), "\"\nn = 1\nb = 1\nvary n in 1 to 10000 by 1: s")},
	{name: "blank lines", says: "a run takes 300000 at most", page: of(block("a = 1 V"), many(lots, "\n"))},
	{name: "blank lines in a block", says: "a run takes 300000 at most", page: block("a = 1 V\n", many(lots, "\n"))},
	{name: "blank lines in a CSV", says: "more than 2000000 cells", page: block("use \"data.csv\" as d\nb = sum(d.a)"), files: map[string]text{"data.csv": of("a\n", many(lots, "\n"), "1\n")}},
	{name: "inline values", says: "a run takes 300000 at most", page: of(block("a = 1 V"), "\n", many(lots/12, "`a [V] = ?`\n"))},
	{name: "inline values on a line", says: "a run takes 300000 at most", page: of(block("a = 1 V"), "\n", many(lots/12, "`a [V] = ?` "), "\n")},
	{name: "commas in a CSV", says: "more than 2000000 cells", page: block("use \"data.csv\" as d\nb = sum(d.a)"), files: map[string]text{"data.csv": of("a\n", many(lots, ","), "\n")}},
	{name: "commas in a CSV of lines", says: "more than 2000000 cells", page: block("use \"data.csv\" as d\nb = sum(d.a)"), files: map[string]text{"data.csv": of("a\n", many(lots/10, ",,,,,,,,,\n"))}},
	{name: "5000 uncertain", says: "more than 1000 uncertain inputs", page: block(many(5000, "a%d = 1 V ± 0.1 V\n"), "b = a0 + a1\n")},
	{name: "vary of 10000 by 300", says: "more than 200,000 cells", page: block("n = 1\nb = 1\n", many(300, "c%d = n + %d\n"), "vary n in 1 to 10000 by 1: n2", many(300, ", c%d"), "\nn2 = n\n")},
	{name: "vary of 10000 by 300, twenty", says: "more than 200,000 cells", page: block("n = 1\nb = 1\n", many(300, "c%d = n + %d\n"), of(many(20, "t%d = vary n in 1 to 10000 by 1: c1, c2, c3, c4, c5, c6, c7, c8, c9, c10, c11, c12, c13, c14\n")), "\nn2 = n\n")},
	{name: "300 charts", says: "more than 1,000,000 points", page: block("b = 1\nuse \"data.csv\" as d\n", many(300, "chart \"c%d\": q, r, s, t, u, v, w, x against p from d\n")), files: map[string]text{"data.csv": of("p [1],q [1],r [1],s [1],t [1],u [1],v [1],w [1],x [1]\n", many(10_000, "%d,1%d,2%d,3%d,4%d,5%d,6%d,7%d,8%d\n"))}},
	{name: "60 SVGs", says: "1 chart, stale", page: of(charted), files: map[string]text{"notes.charts/old.svg": marked}, links: linked(60, "notes.charts/old%d.svg", "notes.charts/old.svg")},
	{name: "1000 sums of 3000 worked cells", says: "more than 2,000,000 times", page: of("<!-- table: t -->\n\n| part | mass [V] |\n| - | - |\n", many(3_000, "| p%d | `a [V] = ?` |\n"), "\n", block("a = 1 V\n", many(1_000, "q%d = sum(t.mass)\n")))},
	{name: "300 calls of 1000 functions", says: "more than 500,000 parts", page: block("f0(x) = x\n", chained(1000), many(300, "q%d = f1000(%d)\n"))},
	{name: "a table under itself", says: "more than 100,000 rows", page: of("<!-- table: t -->\n\n| time [s] | mass [g] |\n| - | - |\n| 1 | 2 |\n\n", block("q0 = t\n", doubled(40), "chart \"of\": mass against time from q40\n"))},
	{name: "300 uses of one", says: "more than 2,000,000 cells are in use", page: block(many(300, "use \"data.csv\" as d%d\n"), "b = sum(d1.a)"), files: map[string]text{"data.csv": of("a [V],b,c\n", many(99_999, "1.25,2,3\n"))}},
	{name: "300 uses", says: "more than 2000000 cells", page: block(many(300, "use \"data%d.csv\" as d%d\n"), "b = sum(d1.a)"), files: map[string]text{"data.csv": of("a [V],b,c\n", many(99_999, "1.25,2,3\n"))}, links: linked(300, "data%d.csv", "data.csv")},
}

// greedierStill are more of their kind.
var greedierStill = []greedy{
	{name: "long text in rows of rows", says: "larger than 16 MiB", page: block("s = \"", many(60_000, "x"), "\"\nn = 1\nb = 1\nt = vary n in 1 to 10000 by 1: s\nm = 1\nvary m in 1 to 1000 by 1: t.s[1], s")},
	{name: "most cells of a CSV", says: "1 quantity, 0 limits", page: block("use \"data.csv\" as d\nb = sum(d.a1)"), files: map[string]text{"data.csv": of(many(19, "a%d [V],"), "a\n", many(99_999, "1.5,1.5,1.5,1.5,1.5,1.5,1.5,1.5,1.5,1.5,1.5,1.5,1.5,1.5,1.5,1.5,1.5,1.5,1.5,1\n"))}},
	{name: "1000 uncertain in a chain", says: "bear on more than 300,000 values", page: block(many(999, "a%d = 1 V ± 0.1 V\n"), "b = a0", many(998, " + a%d"), "\nc0 = b\n", many(25_000, "d%d = b * %d\n"))},
	{name: "5000 uncertain drawn", says: "more than 1000 uncertain inputs", page: block("draws 10_000_000\n", many(5000, "a%d = 1 V ± 0.1 V\n"), "b = a0 + a1\n")},
	{name: "900 uncertain drawn", says: "1800 quantities", page: block("draws 10_000_000\n", many(900, "a%d = 1 V ± 0.1 V\nb%d = 2 * a%d\n"))},
	{name: "most cells of a table", says: "more than 300000 cells", page: of(block("b = sum(t.a1)"), "\n<!-- table: t -->\n\n|", many(20, "a%d [V]|"), "\n|", many(20, "-|"), "\n", many(99_999, "|1|1|1|1|1|1|1|1|1|1|1|1|1|1|1|1|1|1|1|1|\n"))},
	{name: "table of prose", says: "a run takes 300000 at most", page: of(block("b = 1 V"), "\n|", many(20, "a%d|"), "\n|", many(20, "-|"), "\n", many(350_000, "|1|1|1|1|1|1|1|1|1|1|1|1|1|1|1|1|1|1|1|1|\n"))},
	{name: "emphasis", says: "fresh", page: of(block("b = 1 V"), "\n", many(lots/4, "*a* "), "\n")},
	{name: "links", says: "fresh", page: of(block("b = 1 V"), "\n", many(lots/7, "[a](b) "), "\n")},
	{name: "code spans", says: "a run takes 300000 at most", page: of(block("b = 1 V"), "\n", many(lots/4, "`a` "), "\n")},
	{name: "raw HTML", says: "a run takes 300000 at most", page: of(block("b = 1 V"), "\n", many(lots/4, "<a> "), "\n")},
	{name: "paragraphs", says: "a run takes 300000 at most", page: of(block("b = 1 V"), "\n", many(lots/3, "a\n\n"))},
	{name: "list", says: "a run takes 300000 at most", page: of(block("b = 1 V"), "\n", many(lots/4, "- a\n"))},
	{name: "headings", says: "a run takes 300000 at most", page: of(block("b = 1 V"), "\n", many(lots/4, "# a\n"))},
	{name: "fences", says: "a run takes 300000 at most", page: of(block("b = 1 V"), "\n", many(lots/8, "```\n```\n"))},
	{name: "blocks", says: "a run takes 300000 at most", page: many(lots/32, "```working\na%d = 1 V\n```\n\n")},
	{name: "comments", says: "a run takes 300000 at most", page: of(block("b = 1 V"), "\n", many(lots/12, "<!-- a -->\n\n"))},
	{name: "quotes", says: "a run takes 300000 at most", page: of(block("b = 1 V"), "\n", many(lots/5, "> a\n\n"))},
	{name: "definitions", says: "29000 quantities", page: block(many(29_000, "a%d = %d V\n"))},
	{name: "records", says: "more than 50,000 values", page: block(many(24_000, "a%d = capacitor(50 F, 2.7 V)\n"))},
	{name: "errors", says: "29000 errors", page: block(many(29_000, "a%d = 1 V + 1 A\n"))},
	{name: "syntax errors", says: "29000 errors", page: block(many(29_000, "a%d = 1 V + \n"))},
	{name: "long sums", says: "3001 quantities", page: block("b = 1 V\n", many(3_000, "c%d = 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V + 1 V\n"))},
	{name: "long statements", says: "bytes of working blocks", page: block(many(240, "a%d = 1 V"+strings.Repeat(" + 1 V", 9000)+"\n"))},
	{name: "notes on one line", says: "without a unit in its bracket", page: of(block("V = 3 V\n"), "\n", many(20_000, "`V = ?` "), "\n")},
	{name: "1000 correlated in a chain", says: "1001 quantities", page: block(many(1000, "a%d = 1 V ± 0.1 V\n"), correlated(999), "b = a1 + a2\n")},
	{name: "as much of statements as may be", says: "19 quantities", page: block(many(19, "a%d = 1 V"+strings.Repeat(" + 1 V", 9000)+"\n"))},
	{name: "long lists", says: "1 quantity", page: block("b = 1 V\n", "a = [", many(6000, "%d V, "), "1 V]\n", many(4000, "c%d = a\n"))},
	{name: "nested vary", says: "4 quantities", page: block("a = 1\ne = 2 * a\nt = vary a in 1 to 10000 by 1: e\nc = 1\nb = c * sum(u.e)\nu = vary a in 1 to 10000 by c: e\nvary c in 1 to 10000 by 1: b\n")},
	{name: "12 uncertain, in 28000", says: "bear on more than 300,000 values", page: block(many(20, "a%d = 1 V ± 0.1 V\n"), "b = a0 + a1 + a2 + a3 + a4 + a5 + a6 + a7 + a8 + a9 + a10 + a11\n", many(28_000, "c%d = b * %d\n"))},
	{name: "29000 drawn", says: "29001 quantities", page: block("draws 10_000_000\na = 1 V ± 0.1 V\n", many(29_000, "b%d = %d * a\n"))},
}

// marked is an SVG that looks like a chart that a run left over.
var marked = of("<svg xmlns=\"http://www.w3.org/2000/svg\">\n\n\n<metadata>inkwing chart: rewritten by every run</metadata>\n", strings.Repeat("x", 1<<10), "\n", many(lots>>10, strings.Repeat("x", 1<<10)), "</svg>\n")

// linked are n names of one file.
func linked(n int, name, of string) map[string]string {
	links := map[string]string{}
	for i := range n {
		links[fmt.Sprintf(name, i)] = of
	}
	return links
}

// write puts the input into a folder.
func (g greedy) write(t *testing.T, dir string) {
	t.Helper()
	put(t, filepath.Join(dir, "notes.md"), g.page)
	for name, what := range g.files {
		put(t, filepath.Join(dir, name), what)
	}
	for name, of := range g.links {
		if err := os.Link(filepath.Join(dir, of), filepath.Join(dir, name)); err != nil {
			t.Fatal(err)
		}
	}
}

func put(t *testing.T, name string, what text) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
		t.Fatal(err)
	}
	f, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	w := bufio.NewWriter(f)
	what(w)
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
}

// chained is n functions, each of which calls the one before it.
func chained(n int) text {
	return func(w *bufio.Writer) {
		for i := range n {
			fmt.Fprintf(w, "f%d(x) = f%d(x) + 1\n", i+1, i)
		}
	}
}

// doubled is n tables, each the one before it under itself.
func doubled(n int) text {
	return func(w *bufio.Writer) {
		for i := range n {
			fmt.Fprintf(w, "q%d = q%d + q%d\n", i+1, i, i)
		}
	}
}

// correlated is n lines, each of which says that an input goes with the next.
func correlated(n int) text {
	return func(w *bufio.Writer) {
		for i := range n {
			fmt.Fprintf(w, "correlation a%d, a%d = 0.1\n", i, i+1)
		}
	}
}
