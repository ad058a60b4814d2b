package main

import (
	"strings"

	"inkwing/worksheet/rules"
)

// rulesName is what explain describes rules and searches under.
const rulesName = "rules"

// rulesPage lists what rules and searches can ask, of each kind of row.
func (t *tool) rulesPage() string {
	var out strings.Builder
	out.WriteString(t.head("every, some, no … where …: …", "A rule of the house, in a block of the kind keeping: "+
		"every limit: headroom >= 5 %. A search, in a block of the kind gather or for the command gather, begins with "+
		"the kind of row: limit where headroom < 5 %. This is what can be asked of each."))
	for _, s := range rules.Subjects() {
		if s.Name == "given" {
			t.group(&out, s.Name+": "+s.Says, [][2]string{{"…", "what a quantity tells"}})
			continue
		}
		var rows [][2]string
		for _, f := range s.Fields {
			rows = append(rows, [2]string{f.Name, f.Says()})
		}
		t.group(&out, s.Name+": "+s.Says, rows)
	}
	return out.String()
}
