package worksheet

import (
	"fmt"
	"strings"
	"testing"
)

// tableOf is a page with a table of so many rows, each with a worked cell where all is
// set, else the first.
func tableOf(rows int, all bool) []byte {
	var out strings.Builder
	out.WriteString("<!-- table: parts -->\n\n| part | mass [g] | n [1] |\n| :--- | ---: | ---: |\n")
	for i := range rows {
		mass := fmt.Sprint(i % 97)
		if all || i == 0 {
			mass = "`pack [g] = 100 g`"
		}
		fmt.Fprintf(&out, "| p%d | %s | %d |\n", i, mass, i%7)
	}
	out.WriteString("\n```working\nn_cells = 5\npack = n_cells * 20 g\nm_all = sum(parts.mass)\nheavy = parts where mass > 50 g\nn_heavy = count(heavy)\n" +
		"show parts sorted by mass falling first 5: part, mass [g] total mass\nmore = m_all with n_cells = 6\n```\n")
	return []byte(out.String())
}

// BenchmarkTable works tables with a worked cell, and with one in each row: linear in
// the rows, and under 50 ms for a thousand.
func BenchmarkTable(b *testing.B) {
	for _, rows := range []int{1_000, 10_000, 100_000} {
		for _, all := range []bool{false, true} {
			if all && rows > 10_000 {
				continue
			}
			text := tableOf(rows, all)
			b.Run(fmt.Sprintf("%d_all_%t", rows, all), func(b *testing.B) {
				for b.Loop() {
					if r := WorkText(b.Context(), nil, "page.md", text).Report; len(r.Errors) > 0 {
						b.Fatal(r.Errors)
					}
				}
			})
		}
	}
}
