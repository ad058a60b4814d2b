package present

import (
	"testing"

	"inkwing/evaluate/library/model"
	"inkwing/evaluate/report"
)

// TestGravest wants a hazard that is said once to be said with its gravest finding,
// where it first arose: a level counts before a number.
func TestGravest(t *testing.T) {
	mild := report.Caution{Block: 1, Level: model.Warning, Severity: 2}
	grave := report.Caution{Block: 2, Level: model.Warning, Severity: 3}
	danger := report.Caution{Block: 3, Level: model.Danger, Severity: 1}
	for _, c := range []struct{ first, again, want report.Caution }{
		{mild, grave, grave}, {grave, mild, grave}, {grave, danger, danger}, {danger, grave, danger}, {mild, mild, mild},
	} {
		got := standing(c.first, c.again)
		if got.Severity != c.want.Severity || got.Level != c.want.Level || got.Block != c.first.Block {
			t.Errorf("of %+v and %+v: %+v", c.first, c.again, got)
		}
	}
	if worse(mild, danger) || !worse(danger, mild) || worse(mild, mild) {
		t.Error("a danger is graver than a warning, and nothing than itself")
	}
}
