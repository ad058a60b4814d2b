package evaluate

import (
	"testing"

	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/report"
)

// TestWorkWithNames evaluates what the names need and nothing else: not the line that
// would fail, nor the study, and of the limits those that need no more.
func TestWorkWithNames(t *testing.T) {
	s := kit.Block("notes.md", "U = 10 V\nC = 5 F ± 1 F\nE = C * U^2 / 2\nbad = 1 / (U - U)\nslow = vary U in 1 V to 9 V by 1 V: E\nlimit E < 300 J\nlimit bad < 3 V^-1\nlimit U < 5 V")
	r, problems := WorkWith(t.Context(), s, nil, []Change{{Text: "U=12 V"}}, "E")
	if len(problems)+len(r.Errors) > 0 {
		t.Fatal(problems, r.Errors)
	}
	if e := kit.Quantity(r, "E"); e.Shown != "(360 ± 72) J" {
		t.Errorf("E is %s", e.Shown)
	}
	if q := kit.Quantity(r, "bad"); q.State != report.Waiting {
		t.Errorf("bad is %v", q.State)
	}
	if tables, q := r.Blocks[0].Tables, kit.Quantity(r, "slow"); len(tables) > 0 || q.State != report.Waiting {
		t.Errorf("%+v %v", tables, q.State)
	}
	for i, want := range []report.State{report.Evaluated, report.Waiting, report.Evaluated} {
		if got := r.Limits[i].State; got != want {
			t.Errorf("limit %d is %v, want %v", i+1, got, want)
		}
	}
	if r.Limits[0].Holds || r.Limits[2].Holds {
		t.Error("a limit holds that does not")
	}
	if whole, _ := WorkWith(t.Context(), s, nil, nil); len(whole.Errors) != 1 || len(whole.Blocks[0].Tables[0].Rows) != 9 {
		t.Errorf("without names: %v", whole.Errors)
	}
}
