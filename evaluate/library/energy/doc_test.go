package energy

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"inkwing/evaluate/library/model"
)

// declared are the functions of the package that the language can call.
func declared(t *testing.T) (all []*ast.FuncDecl) {
	t.Helper()
	names, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Recv == nil && f.Name.IsExported() {
				all = append(all, f)
			}
		}
	}
	return all
}

func TestEveryFunctionSaysWhatItDoes(t *testing.T) {
	all := declared(t)
	if len(all) < 25 {
		t.Fatalf("only %d functions found", len(all))
	}
	for _, f := range all {
		for _, label := range []string{"\nFormula: ", "\nValidity: ", "\nSource: ", "\nExample:\n\n\t"} {
			if !strings.Contains(f.Doc.Text(), label) {
				t.Errorf("%s: no %s", f.Name.Name, strings.TrimSpace(label))
			}
		}
	}
}

// cautions is one of each that the package can raise.
func cautions() []model.Caution {
	var list []model.Caution
	list = append(list,
		storeOverRating(11, 10.8), cellOverRating(3, 2.7, 9, 0.2), unbalancedString(10, 10.8),
		shortCircuit(100, 600), risingCapacitance(), residualCharge(), dangerousGoods(1200), reversedCell(1, 10, 0.2), noResistance(),
		collapse(2, 0.5, 10), slowBalance(2e4, 120), clampTooHot(450, 398), hotToTouch(350),
		settles(2.5, 2.4), resistorOverRating(10, 5, 20), shortRest(3600), lithium(), vessel(6e5, 300),
		beyondRatedLife(LifeFactorInput{}), warmCells(20, 10), noFuseFits(FuseResult{}),
		fuseCannotBreak(169, 100), fuseNeverBlows(15, 10), risingStep(2.6, 2.7), meltsSlowly(11),
		touchVoltage(70), joiningCells(), joiningSpark(1069), reversedAtRest(6, -0.833), noMargin(13.5))
	list = append(list, hotLead(60, LeadResult{FusingCurrent: 80})...)
	return append(list, hotLead(10, LeadResult{FusingCurrent: 80, Density: 1.3e7})...)
}

// TestEveryCautionIsHeld wants one of each ID of the package in the list above.
func TestEveryCautionIsHeld(t *testing.T) {
	held := map[string]bool{}
	for _, c := range cautions() {
		held[c.ID] = true
	}
	names, _ := filepath.Glob("*.go")
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, id := range regexp.MustCompile(`\bID: +"([^"]+)"`).FindAllStringSubmatch(string(text), -1) {
			if !held[id[1]] {
				t.Errorf("%s: %s has no call in cautions() of doc_test.go", name, id[1])
			}
		}
	}
}

// mostWords is two lines in a region.
const mostWords = 21

func TestEveryCautionIsWhole(t *testing.T) {
	kebab := regexp.MustCompile(`^[a-z]+(-[a-z]+)*$`)
	seen := map[string]bool{}
	for _, c := range append(cautions(), heldEnergy(3)) {
		if c.ID != "stored-energy" && seen[c.ID] {
			t.Errorf("%s twice", c.ID)
		}
		seen[c.ID] = true
		if words := len(strings.Fields(c.Summary + " " + c.Hint)); words > mostWords {
			t.Errorf("%s has %d words, more than its reader will read", c.ID, words)
		}
		if !kebab.MatchString(c.ID) || c.Summary == "" || c.Hint == "" || c.Source == "" {
			t.Errorf("%s is not whole: %+v", c.ID, c)
		}
		model.Fill(c.Summary+c.Why+c.Hint, func(i int) string {
			if i >= len(c.Values) {
				t.Errorf("%s names value {%d} of %d", c.ID, i, len(c.Values))
			}
			return ""
		})
	}
}
