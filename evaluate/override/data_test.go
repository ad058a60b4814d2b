package override_test

import (
	"strings"
	"testing"

	"inkwing/evaluate"
	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/sheet"
	"inkwing/evaluate/syntax"
)

// dataText is a sheet that uses files of data: parts that are found by their names,
// what a meter wrote, once with headings and once with none, and numbers with commas.
const dataText = `use "parts.csv"
use "log.csv" as log (t [ms], U [V])
use "log.csv" as again (t [ms], U [V])
use "bare.csv" as bare (t [s], U [V])
use "comma.csv" as comma
use "more.md" as more
m = 2 * parts["wing"].mass
U_last = max(log.U)
U_again = max(again.U)
U_bare = max(bare.U)
U_comma = sum(comma.U)
mine = more.top`

func dataSheet() (*sheet.Sheet, kit.Sheets) {
	at := 0
	data := func(file string, commas bool, rows ...[]string) *sheet.Sheet {
		at += 1000
		t := (&kit.Cells{File: file, At: at}).Table(strings.TrimSuffix(file, ".csv"), rows...)
		t.Commas = commas
		return &sheet.Sheet{Data: true, Name: file, Tables: []*syntax.Table{t}}
	}
	return kit.Block("data.md", dataText), kit.Sheets{
		"parts.csv": data("parts.csv", false, []string{"part", "mass [g]", "kind"}, []string{"wing", "40", "balsa"}, []string{"tail", "12 g ± 1 g", "foam"}),
		"log.csv":   data("log.csv", false, []string{"Time", "Ch 1"}, []string{"10", "2.5"}, []string{"20", "2.25"}),
		"bare.csv":  data("bare.csv", false, []string{"0", "3.5"}, []string{"1", "3.25"}),
		"comma.csv": data("comma.csv", true, []string{"t [s]", "U [V]"}, []string{"0", "2,5"}, []string{"1", "2,25"}),
		"more.md":   kit.Block("more.md", "use \"parts.csv\" as list\ntop = max(list.mass)"),
	}
}

// TestCellsOfData tries cells of files of data, by hand worked.
func TestCellsOfData(t *testing.T) {
	for _, c := range []struct{ change, name, shown string }{
		{`parts["wing"].mass=50`, "m", "100 g"},
		{`parts[wing].mass=0.05 kg`, "m", "100 g"},
		{"parts[2].mass=60", "mine", "60 g"}, // the other sheet reads the same file
		{"log[2].U=2.75", "U_last", "2.75 V"},
		{"log[2].U=2.75", "U_again", "2.75 V"},
		{"bare[2].U=4", "U_bare", "4 V"},
		{"comma[1].U=3,5", "U_comma", "5.75 V"},
		{"more.list[1].mass=70", "mine", "70 g"},
	} {
		s, files := dataSheet()
		r, problems := evaluate.WorkWith(t.Context(), s, files, []evaluate.Change{{Text: c.change}})
		if len(problems) > 0 {
			t.Errorf("%s: %v", c.change, problems)
			continue
		}
		if q := kit.Quantity(r, c.name); q == nil || q.Shown != c.shown {
			t.Errorf("%s: %+v, want %s", c.change, q, c.shown)
		}
	}
}

// TestCellsOfDataRefused wants told what cannot stand in a cell of a file of data, and
// why a statement of the page changes none.
func TestCellsOfDataRefused(t *testing.T) {
	for _, c := range []struct{ change, summary, hint string }{
		{"comma[1].U=3.5", "decimal commas", "`2,5`"},
		{"comma[1].U=3,5 V", "decimal commas", "`2,5`"},
		{"comma[1].U=many", "decimal commas", "`2,5`"},
		{"log[1].U=2,75", "", ""},
		{"log[1].U=many", "", ""},
		{"log[1].U=3 g", "a mass (kg) where a voltage", ""},
		{"log[3].U=3", "no row 3", ""},
		{"bare[1].U=3", "where a file has its headings", "a row of headings above it"},
		{"bare[3].U=3", "no row 3", ""},
		{"parts[wing].part=fin", "found by its first cell", ""},
	} {
		s, files := dataSheet()
		_, problems := evaluate.WorkWith(t.Context(), s, files, []evaluate.Change{{Text: c.change}})
		if len(problems) != 1 || !strings.Contains(problems[0].Summary, c.summary) || !strings.Contains(problems[0].Hint, c.hint) {
			t.Errorf("%s: %v", c.change, problems)
		}
	}
	s := kit.Block("data.md", dataText+"\nw = vary parts[\"wing\"].mass in 30 g to 50 g by 10 g: m")
	_, files := dataSheet()
	if r := evaluate.Work(t.Context(), s, files); len(r.Errors) != 1 || !strings.Contains(r.Errors[0].Summary, "file of readings") {
		t.Errorf("a statement changes a cell of data: %v", r.Errors)
	}
}

// TestInputsOfData wants each cell listed to change by its address, and no cell listed
// of a file that is longer than a list of parts.
func TestInputsOfData(t *testing.T) {
	s, files := dataSheet()
	listed := 0
	for _, in := range evaluate.Inputs(t.Context(), s, files) {
		if !strings.HasSuffix(in.Path, ".csv") {
			continue
		}
		listed++
		again, files := dataSheet()
		if _, problems := evaluate.WorkWith(t.Context(), again, files, []evaluate.Change{{Text: in.Address + "=" + in.Text}}); len(problems) > 0 {
			t.Errorf("%s=%s: %v", in.Address, in.Text, problems)
		}
		if _, isNumber := in.Value.(float64); !isNumber && !strings.HasSuffix(in.Address, ".kind") {
			t.Errorf("%s: %v is no number", in.Address, in.Value)
		}
	}
	if want := 4 + 4 + 4 + 2 + 4 + 4; listed != want { // parts, log, again, bare, comma, more.list
		t.Errorf("%d cells are listed, want %d", listed, want)
	}
	rows := [][]string{{"Time", "Ch 1"}}
	for range 501 {
		rows = append(rows, []string{"1", "2"})
	}
	files["log.csv"].Tables[0] = (&kit.Cells{File: "log.csv", At: 50000}).Table("log", rows...)
	for _, in := range evaluate.Inputs(t.Context(), s, files) {
		if in.Path == "log.csv" {
			t.Fatalf("%s of 1,002 cells is listed", in.Address)
		}
	}
}
