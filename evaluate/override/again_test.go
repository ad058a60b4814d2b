package override_test

import (
	"reflect"
	"testing"

	"inkwing/evaluate"
	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/sheet"
)

// A once is a loader of which each sheet is had once only.
type once struct {
	kit.Sheets
	loads int
}

func (o *once) Load(from, path string) (*sheet.Sheet, error) {
	o.loads++
	return o.Sheets.Load(from, path)
}

// TestStandingAgain tries one thing after another in a sheet that was read and checked
// once: each comes out as in one that was read anew, and so does the sheet as it stands.
func TestStandingAgain(t *testing.T) {
	s, files := reachSheet()
	load := &once{Sheets: files}
	standing := evaluate.Stand(t.Context(), s, load)
	loads := load.loads
	for _, change := range []string{
		"", "outer(a)=4 V", "inner(stored_energy.capacitance)=48 F", `parts["wing"].mass=44`, "outer(box.n)=5", "spare.parts[1].mass=0.009 kg",
		"noted(a)=6 V ± 0.4 V", "outer(a)=4 kg", "nothing=1", `parts["tail"].mass=2 g`, "spare.box2=1", "",
	} {
		var changes []evaluate.Change
		if change != "" {
			changes = append(changes, evaluate.Change{Text: change})
		}
		got, problems := standing.LinesWith(t.Context(), changes)
		fresh, files := reachSheet()
		anew := evaluate.Stand(t.Context(), fresh, files)
		want, same := anew.LinesWith(t.Context(), changes)
		if !reflect.DeepEqual(problems, same) || (got == nil) != (want == nil) {
			t.Errorf("%q: %v, want %v", change, problems, same)
			continue
		}
		if got != nil && (!reflect.DeepEqual(got.Report, want.Report) || !reflect.DeepEqual(standing.Inputs(), anew.Inputs())) {
			t.Errorf("%q: %+v, want %+v", change, got.Report.Quantities, want.Report.Quantities)
		}
	}
	if load.loads != loads || loads == 0 {
		t.Errorf("%d sheets were read, then %d more", loads, load.loads-loads)
	}
}
