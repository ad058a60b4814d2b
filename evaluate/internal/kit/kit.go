// Package kit is what the tests of the rooms of evaluate share: sheets out of texts,
// and what a report holds under a name.
package kit

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/evaluate/sheet"
	"inkwing/evaluate/syntax"
)

// Block is a sheet of one working block.
func Block(name, text string) *sheet.Sheet {
	var b syntax.Block
	offset := 0
	for _, line := range strings.Split(text, "\n") {
		b.Lines = append(b.Lines, syntax.Line{Text: line, Offset: offset})
		offset += len(line) + 1
	}
	return &sheet.Sheet{Name: name, Blocks: []syntax.Block{b}}
}

// Sheets loads sheets by path.
type Sheets map[string]*sheet.Sheet

// Load is the sheet of that path.
func (s Sheets) Load(from, path string) (*sheet.Sheet, error) {
	if x := s[path]; x != nil {
		return x, nil
	}
	return nil, errors.New("does not exist")
}

// Page is a block, and behind "-- table name" the rows of tables.
func Page(text string) *sheet.Sheet {
	parts := strings.Split(text, "\n-- table ")
	var tables []*syntax.Table
	for _, part := range parts[1:] {
		lines := strings.Split(strings.TrimSpace(part), "\n")
		var rows [][]string
		for _, line := range lines[1:] {
			cells := strings.Split(line, "|")
			for i := range cells {
				cells[i] = strings.TrimSpace(cells[i])
			}
			rows = append(rows, cells)
		}
		tables = append(tables, Table(lines[0], rows...))
	}
	return BlockWith("notes.md", parts[0], tables...)
}

// BlockWith is a sheet of one working block, and its tables.
func BlockWith(name, text string, tables ...*syntax.Table) *sheet.Sheet {
	s := Block(name, text)
	s.Tables = tables
	return s
}

// Cells are where the cells of a table stand.
type Cells struct {
	File string
	At   int
}

// Table is a table of a sheet, its headings first. Each cell has a place of its
// own, behind all blocks: cells are told apart by it.
func Table(name string, rows ...[]string) *syntax.Table {
	return (&Cells{"notes.md", 1 << 20}).Table(name, rows...)
}

// Table is a table whose cells stand from there on.
func (c *Cells) Table(name string, rows ...[]string) *syntax.Table {
	t := &syntax.Table{Name: syntax.Ident{Name: name}}
	at := c.At
	for i, row := range rows {
		var cells []syntax.Cell
		for _, text := range row {
			span := message.Span{File: c.File, Start: at, End: at + len(text)}
			cells = append(cells, syntax.Cell{At: syntax.At{Span: span}, Text: text})
			at += len(text) + 1
		}
		if i == 0 {
			t.Head = cells
		} else {
			t.Rows = append(t.Rows, cells)
		}
	}
	return t
}

// Quantity is a quantity by its name, nil for none.
func Quantity(r *report.Report, name string) *report.Quantity {
	for i := range r.Quantities {
		if r.Quantities[i].Name == name {
			return &r.Quantities[i]
		}
	}
	return nil
}

// Within reports whether two numbers differ by no more than a part of them.
func Within(a, b, relative float64) bool {
	return math.Abs(a-b) <= relative*math.Max(math.Abs(a), math.Abs(b))
}

// Chain is a block of that many statements, each needing the one before.
func Chain(statements int) *sheet.Sheet {
	var b strings.Builder
	b.WriteString("q0 = 3 V\n")
	for i := 1; i < statements; i++ {
		fmt.Fprintf(&b, "q%d [V] = q%d * 1.0001 + %d mV / (2 + %d)   # note\n", i, i-1, i, i%7)
	}
	return Block("notes.md", b.String())
}

// Number is a quantity's number, NaN for none.
func Number(r *report.Report, name string) float64 {
	if q := Quantity(r, name); q != nil {
		if x, ok := q.Value.(float64); ok {
			return x
		}
	}
	return math.NaN()
}

// Clean fails the test at any error.
func Clean(t *testing.T, r *report.Report, text string) *report.Report {
	t.Helper()
	for _, e := range r.Errors {
		t.Fatalf("%s | %s\n%s", e.Summary, e.Hint, text)
	}
	return r
}

// BenchText is a sheet with what may be replaced: {name} stands where its value is
// written.
const BenchText = `use "parts.md"
cell = {cell}
n_series = {n_series}
store = pack(cell, series: n_series)
V_full [V] = {V_full}
dry = {dry}
name = {name}
taps = {taps}
E_full [Wh] = 1/2 * store.capacitance * V_full^2
limit V_full / n_series <= cell.rated_voltage "add a cell"
limit parts.strap < 10 g
load(x) = x * parts.strap + taps[2]
total = load(n_series)
again = E_full with n_series = 7
t = if dry then 1 s else 2 s`

const benchParts = "strap = {strap}\nboth = 2 * strap"

// AsWritten are the values of the bench as it stands.
var AsWritten = map[string]string{"cell": `cells["B50"]`, "n_series": "4", "V_full": "10", "dry": "true",
	"name": `"first"`, "taps": "[1 g, 2 g]", "strap": "3 g"}

func fill(text string, values map[string]string) string {
	for name, value := range values {
		text = strings.ReplaceAll(text, "{"+name+"}", value)
	}
	return text
}

// Bench is the bench with those values typed in, and what it uses.
func Bench(values map[string]string) (*sheet.Sheet, Sheets) {
	s := Block("bench.md", fill(BenchText, values))
	cell := func(text string) syntax.Cell { return syntax.Cell{Text: text} }
	table := &syntax.Table{Name: syntax.Ident{Name: "cells"}}
	for i, row := range [][]string{{"cell", "capacitance [F]", "rated_voltage [V]", "resistance [mΩ]"}, {"B50", "50", "2.7", "16"}, {"B60", "60", "2.7", "12"}} {
		cells := []syntax.Cell{cell(row[0]), cell(row[1]), cell(row[2]), cell(row[3])}
		if i == 0 {
			table.Head = cells
		} else {
			table.Rows = append(table.Rows, cells)
		}
	}
	s.Tables = []*syntax.Table{table}
	return s, Sheets{"parts.md": Block("parts.md", fill(benchParts, values))}
}
