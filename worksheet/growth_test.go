package worksheet

import (
	"fmt"
	"runtime"
	"strings"
	"testing"
	"time"
)

// A growth is a kind of page, of n parts.
type growth struct {
	name string
	page func(n int) string
	csv  func(n int) string // what it uses as data.csv, if anything
	used func(n int) folder // what else it uses
}

func lines(n int, line func(i int) string) string {
	var out strings.Builder
	for i := range n {
		out.WriteString(line(i))
	}
	return out.String()
}

func inBlock(n int, line func(i int) string) string { return "```working\n" + lines(n, line) + "```\n" }

func same(text string) func(int) string { return func(int) string { return text } }

var growths = []growth{
	{name: "plain", page: func(n int) string { return inBlock(n, func(i int) string { return fmt.Sprintf("a%d = %d V\n", i, i) }) }},
	{name: "unknown names", page: func(n int) string {
		return inBlock(n, func(i int) string { return fmt.Sprintf("name%d = nome%dx + 1\n", i, i) })
	}},
	{name: "unknown names far", page: func(n int) string {
		return inBlock(n, func(i int) string { return fmt.Sprintf("a%d = zzzzzz%d + 1\n", i, i) })
	}},
	{name: "errors", page: func(n int) string {
		return inBlock(n, func(i int) string { return fmt.Sprintf("a%d = 1 V + 1 A\n", i) })
	}},
	{name: "syntax errors", page: func(n int) string { return inBlock(n, func(i int) string { return fmt.Sprintf("a%d = 1 V +\n", i) }) }},
	{name: "commas without blanks", page: func(n int) string { return "```working\na = [1" + strings.Repeat(",2", n) + "]\n```\n" }},
	{name: "errors many blocks", page: func(n int) string {
		return lines(n/4, func(i int) string { return fmt.Sprintf("```working\na%d = 1 V + 1 A\n```\n\n", i) })
	}},
	{name: "limits", page: func(n int) string {
		return inBlock(n, func(i int) string { return fmt.Sprintf("limit %d V < 3 V\n", i) })
	}},
	{name: "limits of names", page: func(n int) string {
		return inBlock(n/2, func(i int) string { return fmt.Sprintf("a%d = %d V\nlimit a%d < 3 V\n", i, i, i) })
	}},
	{name: "inline one line", page: func(n int) string { return "```working\na = 1 V\n```\n\n" + lines(n, same("`a [V] = ?` ")) + "\n" }},
	{name: "inline lines", page: func(n int) string { return "```working\na = 1 V\n```\n\n" + lines(n, same("`a [V] = ?`\n\n")) }},
	{name: "inline unknown", page: func(n int) string {
		return inBlock(n/2, func(i int) string { return fmt.Sprintf("a%d = 1 V\n", i) }) + "\n" + lines(n/2, func(i int) string { return fmt.Sprintf("`b%d [V] = ?`\n\n", i) })
	}},
	{name: "bare", page: func(n int) string {
		return inBlock(n/2, func(i int) string { return fmt.Sprintf("a%d = 1 V\n", i) }) + "\n" + lines(n/2, func(i int) string { return fmt.Sprintf("`a%d [] = 1 V`\n\n", i) })
	}},
	{name: "definitions", page: func(n int) string {
		return "```working\na = 1 V\n```\n\n" + lines(n, func(i int) string { return fmt.Sprintf("[a%d]: b\n", i) })
	}},
	{name: "definitions same", page: func(n int) string { return "```working\na = 1 V\n```\n\n" + lines(n, same("[a]: b\n")) }},
	{name: "deep lists", page: func(n int) string {
		return "```working\na = 1 V\n```\n\n" + lines(n/50, func(int) string { return lines(50, func(i int) string { return strings.Repeat("  ", i) + "- a\n" }) })
	}},
	{name: "lists deeper", page: func(n int) string {
		return "```working\na = 1 V\n```\n\n" + lines(n, func(i int) string { return strings.Repeat(" ", 2*min(i, 90)) + "- a\n" })
	}},
	{name: "orphans", page: func(n int) string {
		return "```working\na = 1 V\n```\n\n" + lines(n/4, same("Text.\n\n<!-- worked -->\n\n| `x` | 1 V |\n\n<!-- /worked -->\n\n"))
	}},
	{name: "conflict marks", page: func(n int) string { return "```working\na = 1 V\n```\n\n" + lines(n, same("<<<<<<< a\n")) }},
	{name: "blank lines", page: func(n int) string { return "```working\na = 1 V\n```\n" + lines(n, same("\n")) }},
	{name: "tables", page: func(n int) string {
		return "```working\na = 1 V\n```\n\n" + lines(n/8, func(i int) string { return fmt.Sprintf("<!-- table: t%d -->\n\n| a [V] |\n| - |\n| 1 |\n| 2 |\n\n", i) })
	}},
	{name: "table rows", page: func(n int) string {
		return "```working\nb = t.a\n```\n\n<!-- table: t -->\n\n| a [V] |\n| - |\n" + lines(n, same("| 1 |\n"))
	}},
	{name: "table bad cells", page: func(n int) string {
		return "```working\nb = sum(t.a)\n```\n\n<!-- table: t -->\n\n| a [V] |\n| - |\n" + lines(n, same("| 1 A |\n"))
	}},
	{name: "table ragged", page: func(n int) string {
		return "```working\nb = sum(t.a)\n```\n\n<!-- table: t -->\n\n| a [V] |\n| - |\n" + lines(n, same("| 1 | 2 |\n"))
	}},
	{name: "table columns", page: func(n int) string {
		return "```working\nb = t.a1\n```\n\n<!-- table: t -->\n\n" + lines(n, func(i int) string { return fmt.Sprintf("| a%d ", i) }) + "|\n" + lines(n, same("| - ")) + "|\n" + lines(n, same("| 1 ")) + "|\n"
	}},
	{name: "same names", page: func(n int) string { return inBlock(n, same("a = 1 V\n")) }},
	{name: "chain", page: func(n int) string {
		return inBlock(n, func(i int) string { return fmt.Sprintf("a%d = a%d + 1\n", i+1, i) })
	}},
	{name: "with", page: func(n int) string {
		return "```working\na = 1 V\nb = 2 * a\n" + lines(n, func(i int) string { return fmt.Sprintf("c%d = b with a = %d V\n", i, i) }) + "```\n"
	}},
	{name: "measured", page: func(n int) string {
		return "```working\n" + lines(n/2, func(i int) string { return fmt.Sprintf("a%d = 1 V\nmeasured a%d = 1 V ± 0.1 V\n", i, i) }) + "```\n"
	}},
	{name: "charts one title", page: func(n int) string {
		return "```working\nt = vary x in 1 to 3 by 1: y\nx = 1\ny = 2 * x\n" + lines(n/4, same("chart \"a\": y against x from t\n")) + "```\n"
	}},
	{name: "notes", page: func(n int) string {
		return inBlock(n, func(i int) string { return fmt.Sprintf("a%d = %d V # note\n", i, i) })
	}},
	{name: "uses", page: func(n int) string {
		return inBlock(n/4, func(i int) string { return fmt.Sprintf("use \"data.csv\" as d%d\n", i) })
	}, csv: same("a [V]\n1\n2\n")},
	{name: "one among many used", page: func(n int) string {
		return inBlock(n/16, func(i int) string { return fmt.Sprintf("use \"p%d.md\"\na%d = p%d.n + 1 V\n", i, i, i) })
	}, used: func(n int) folder { return pages(n/16, func(i int) string { return "n = 1 V\n" }) }},
	{name: "chained uses", page: func(n int) string {
		return inBlock(n/16, func(i int) string { return fmt.Sprintf("use \"p%d.md\"\na%d = p%d.n + 1 V\n", i, i, i) })
	}, used: func(n int) folder {
		return pages(n/16, func(i int) string {
			if i%12 == 0 {
				return "n = 1 V\n"
			}
			return fmt.Sprintf("use \"p%d.md\"\nn = p%d.n + 1 V\n", i-1, i-1)
		})
	}},
	{name: "drawn", page: func(n int) string {
		return "```working\ndraws 1_000\na = 1 V ± 0.1 V\n" + lines(n/16, func(i int) string { return fmt.Sprintf("b%d = a * %d\n", i, i+1) }) + "```\n"
	}},
	{name: "many uncertain", page: func(n int) string {
		return inBlock(n/16, func(i int) string { return fmt.Sprintf("a%d = 1 V ± 0.1 V\nb%d = a%d * 2\n", i, i, i) })
	}},
	{name: "csv rows", page: same("```working\nuse \"data.csv\" as d\ns = sum(d.a)\n```\n"), csv: func(n int) string { return "a [V]\n" + lines(n, same("1\n")) }},
	{name: "csv line ends", page: same("```working\nuse \"data.csv\" as d\ns = count(d.a)\n```\n"), csv: func(n int) string { return "a [text]\n\"" + lines(n, same("x\n")) + "\"\n" }},
	{name: "csv line ends rows", page: same("```working\nuse \"data.csv\" as d\ns = count(d.a)\n```\n"), csv: func(n int) string { return "a [text]\n" + lines(n/2, same("\"x\ny\"\n")) }},
	{name: "csv columns", page: same("```working\nuse \"data.csv\" as d\ns = sum(d.a1)\n```\n"), csv: func(n int) string {
		return lines(n, func(i int) string { return fmt.Sprintf("a%d,", i) }) + "z\n" + lines(n, same("1,")) + "1\n"
	}},
	{name: "csv bad cells", page: same("```working\nuse \"data.csv\" as d\ns = sum(d.a)\n```\n"), csv: func(n int) string { return "a [V]\n" + lines(n, same("x\n")) }},
	{name: "csv ragged", page: same("```working\nuse \"data.csv\" as d\ns = sum(d.a)\n```\n"), csv: func(n int) string { return "a [V]\n" + lines(n, same("1,2\n")) }},
	{name: "functions", page: func(n int) string {
		return inBlock(n/2, func(i int) string { return fmt.Sprintf("f%d(x) = x + 1\na%d = f%d(1)\n", i, i, i) })
	}},
	{name: "uncertain", page: func(n int) string {
		return "```working\na = 1 V ± 0.1 V\n" + lines(n, func(i int) string { return fmt.Sprintf("b%d = a * %d\n", i, i+1) }) + "```\n"
	}},
	{name: "functions chained", page: func(n int) string {
		return "```working\nf0(x) = x\n" + lines(n/4, func(i int) string { return fmt.Sprintf("x%d = %d\nf%d(x) = f%d(x) + x%d\n", i, i, i+1, i, i) }) + fmt.Sprintf("a = f%d(1)\n```\n", n/4)
	}},
	{name: "arguments", page: func(n int) string { return addresses(n/4, "x") }},
	{name: "arguments unknown", page: func(n int) string { return addresses(n/4, "z") }},
	{name: "replaced in a chain", page: func(n int) string {
		return "```working\na0 = 1\nb = 2 * a0\n" + lines(n/2, func(i int) string { return fmt.Sprintf("a%d = a%d + 1\nc%d = b with a%d = 1\n", i+1, i, i, i+1) }) + "```\n"
	}},
	{name: "cells typed", page: func(n int) string {
		return "<!-- table: t -->\n\n| part | mass [g] |\n| - | - |\n" + lines(n/2, func(i int) string { return fmt.Sprintf("| p%d | %d |\n", i, i) }) +
			"\n```working\nb = 1 g\n" + lines(n/2, func(i int) string { return fmt.Sprintf("c%d = b with t[\"p%d\"].mass = 1 g\n", i, i) }) + "```\n"
	}},
	{name: "columns chosen", page: func(n int) string {
		return "<!-- table: t -->\n\n" + lines(n/4, func(i int) string { return fmt.Sprintf("| a%d [V] ", i) }) + "|\n" + lines(n/4, same("| - ")) + "|\n" + lines(n/4, same("| 1 ")) + "|\n" +
			"\n```working\n" + lines(n/4, func(i int) string { return fmt.Sprintf("c%d = count(t where a%d > 1 V)\n", i, i) }) + "```\n"
	}},
	{name: "function that fails", page: func(n int) string {
		return "```working\nf(x) = x + 1 A\n" + lines(n, func(i int) string { return fmt.Sprintf("a%d = f(%d V)\n", i, i) }) + "```\n"
	}},
	{name: "vary", page: func(n int) string {
		return "```working\na = 1\nb = 2 * a\n" + lines(n/4, func(i int) string { return fmt.Sprintf("t%d = vary a in 1 to 2 by 1: b\n", i) }) + "```\n"
	}},
	{name: "adjust", page: func(n int) string {
		return "```working\na = 1\nb = 2 * a\n" + lines(n/4, func(i int) string { return fmt.Sprintf("t%d = adjust a in 1 to 9 until b == 8\n", i) }) + "```\n"
	}},
	{name: "digits", page: func(n int) string {
		return "```working\n" + lines(n/2, func(i int) string { return fmt.Sprintf("digits 3 a%d\na%d = 1 V\n", i, i) }) + "```\n"
	}},
	{name: "regions", page: func(n int) string {
		return lines(n/10, func(i int) string {
			return fmt.Sprintf("```working\na%d = 1 V * 2\n```\n\n<!-- worked: rewritten by every run -->\n\n| Quantity | Value |\n| :------- | ----: |\n| `a%d` | 3 V |\n\n<!-- /worked -->\n\n", i, i)
		})
	}},
	{name: "region stale", page: func(n int) string {
		return inBlock(n, func(i int) string { return fmt.Sprintf("a%d = 1 V * 2\n", i) }) + "\n<!-- worked: rewritten by every run -->\n\n| Quantity | Value |\n| :------- | ----: |\n" +
			lines(n, func(i int) string { return fmt.Sprintf("| `a%d` | 3 V |\n", i) }) + "\n<!-- /worked -->\n"
	}},
	{name: "long list", page: func(n int) string { return "```working\na = [" + lines(n, same("1 V, ")) + "1 V]\n```\n" }},
	{name: "long sum", page: func(n int) string { return "```working\na = " + lines(n/2, same("1 V + ")) + "1 V\n```\n" }},
	{name: "continued", page: func(n int) string { return "```working\na = [1 V,\n" + lines(n, same("  1 V,\n")) + "  1 V]\n```\n" }},
}

// addresses are n what-ifs, each of an argument by its name, in one line of n calls.
func addresses(n int, name string) string {
	calls := func(i int) string { return fmt.Sprintf(" + f%d(1)", i) }
	return "```working\nk = 3\n" + lines(n, func(i int) string { return fmt.Sprintf("f%d(x%d) = x%d\n", i, i, i) }) + "q = 1" + lines(n, calls) + "\n" +
		lines(n, func(i int) string { return fmt.Sprintf("a%d = k with q(%s%d) = 2\n", i, name, i) }) + "```\n"
}

// pages are n worksheets of a block each.
func pages(n int, text func(i int) string) folder {
	files := folder{}
	for i := range n {
		files[fmt.Sprintf("p%d.md", i)] = "```working\n" + text(i) + "```\n"
	}
	return files
}

// files are those beside a page of n parts.
func (g growth) files(n int) folder {
	files := folder{}
	if g.used != nil {
		files = g.used(n)
	}
	if g.csv != nil {
		files["data.csv"] = g.csv(n)
	}
	return files
}

// work evaluates a page of n parts.
func (g growth) work(tb testing.TB, n int) *Result {
	files := g.files(n)
	return WorkText(tb.Context(), files, "a.md", []byte(g.page(n)))
}

// TestGrowth works a small page of each kind, so that none of them is refused or
// passed over where it is measured.
func TestGrowth(t *testing.T) {
	for _, g := range growths {
		if r := g.work(t, 100); len(r.Refused) > 0 || r.Report == nil {
			t.Errorf("%s: refused %v", g.name, r.Refused)
		}
	}
}

// BenchmarkGrowth tells, for each kind of page, how much more work twice as much of it
// is: about 2 where the work is linear, and less than 2.2. Of several times the least
// counts, since a collection of garbage may fall into any.
func BenchmarkGrowth(b *testing.B) {
	for _, g := range growths {
		b.Run(strings.ReplaceAll(g.name, " ", "-"), func(b *testing.B) {
			once, twice := time.Hour, time.Hour
			for b.Loop() {
				for range 3 {
					once, twice = min(once, g.took(b, 4000)), min(twice, g.took(b, 8000))
				}
			}
			b.ReportMetric(float64(twice)/float64(once), "twice/once")
		})
	}
}

// took is how long processors work on a page of n parts.
func (g growth) took(tb testing.TB, n int) time.Duration {
	files := g.files(n)
	page := []byte(g.page(n))
	runtime.GC()
	start := clock()
	WorkText(tb.Context(), files, "a.md", page)
	return clock() - start
}
