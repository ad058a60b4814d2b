package explain

import (
	"os"
	"slices"
	"strings"
	"testing"

	"inkwing/evaluate/internal/kit"
	"inkwing/evaluate/library"
	"inkwing/evaluate/program"
	"inkwing/evaluate/report"
	"inkwing/evaluate/working"
)

// agreement is by which part an equation of a doc comment may miss what its function comes
// to: what iterates ends within this.
const agreement = 1e-8

// TestEveryFormula works the example of every function, and the calls of testdata/calls.txt
// for the cases that an example does not show, and evaluates each equation of its formula
// with the values of the call: it must hold in one of them. What cannot be evaluated stands
// in testdata/unfilled.tsv with its reason, and nothing else does.
//
// The formula is read and evaluated by the package equation, which shares nothing with the
// physics, so that a doc comment and its code check each other.
func TestEveryFormula(t *testing.T) {
	more, reasons := moreCalls(t), unfilled(t)
	for _, f := range library.All() {
		blocks := append([]string{f.Doc.Example}, more[f.Name]...)
		delete(more, f.Name)
		checkFormula(t, f, boundCalls(t, f, blocks), reasons)
	}
	for name := range more {
		t.Errorf("calls.txt has calls of %s, which is no function", name)
	}
	for _, list := range reasons {
		for _, r := range list {
			if !r.used {
				t.Errorf("unfilled.tsv excuses %q of %s, which needs no excuse or is not there", r.clause, r.name)
			}
		}
	}
}

// A reason is why a clause is not evaluated; an empty clause is the whole formula.
type reason struct {
	name, clause string
	used         bool
}

func checkFormula(t *testing.T, f *library.Function, calls []*bound, reasons map[string][]*reason) {
	excused := func(text string) bool {
		for _, r := range reasons[f.Name] {
			if strings.HasPrefix(text, r.clause) {
				r.used = true
				return true
			}
		}
		return false
	}
	checks := 0
	for i, c := range clausesOf(f) {
		held := slices.ContainsFunc(calls, func(b *bound) bool { return b.clauses[i].Holds(b.values, agreement) })
		switch {
		case held && tellsOf(f.Doc.LetterList(), &c):
			checks++
		case held || !c.HasMath() && !c.IsEquation():
		case !excused(c.Text):
			t.Errorf("%s: %q %s", f.Name, c.Text, whyNot(calls, i))
		}
	}
	if checks == 0 && !excused("") {
		t.Errorf("%s: nothing of its formula says what it comes to: %q", f.Name, f.Doc.Formula)
	}
	for _, b := range calls {
		if put := b.put(); testing.Verbose() && put != "" {
			t.Logf("%s: %s", f.Name, put)
		}
	}
}

// whyNot is what keeps an equation from holding.
func whyNot(calls []*bound, i int) string {
	if len(calls) == 0 {
		return "has no call"
	}
	c := &calls[0].clauses[i]
	if !c.IsEquation() {
		return "is no equation that can be read"
	}
	for _, b := range calls {
		if b.clauses[i].Worked(b.values) {
			return "does not hold: " + b.clauses[i].Fill(b.texts) + "; sides " + b.clauses[i].Sides(b.values)
		}
	}
	var missing []string
	for _, name := range c.Letters() {
		if _, ok := calls[len(calls)-1].values[name]; !ok {
			missing = append(missing, name)
		}
	}
	if len(missing) > 0 {
		return "has no value for " + strings.Join(missing, ", ")
	}
	return "adds what is of several dimensions"
}

// boundCalls are the calls of a function in blocks, with the letters of its formula bound.
func boundCalls(t *testing.T, f *library.Function, blocks []string) (calls []*bound) {
	t.Helper()
	for _, text := range blocks {
		w := working.Check(t.Context(), working.NewSource(kit.Page(text), kit.Sheets{}))
		w.Evaluate(t.Context(), w.All())
		e := &explainer{w: w, report: &report.Report{}}
		for _, d := range w.Program.Main.Defs {
			if fault := w.Fault(d); fault != nil {
				t.Errorf("%s: %s\n%s", f.Name, fault.Summary, text)
				continue
			}
			if d.Body == nil {
				continue
			}
			for _, n := range d.Body.Operands() {
				calls = append(calls, e.boundIn(d, n, f)...)
			}
		}
	}
	return calls
}

func (e *explainer) boundIn(d *program.Def, n program.Node, f *library.Function) (calls []*bound) {
	if n == nil {
		return nil
	}
	if x, ok := n.(*program.Call); ok && x.Func == f {
		if b := e.bind(d, x, e.argumentTexts(x, report.Call{Defaults: e.defaults(x)})); b != nil {
			calls = append(calls, b)
		}
	}
	for _, child := range program.Children(n) {
		calls = append(calls, e.boundIn(d, child, f)...)
	}
	return calls
}

// moreCalls are those of testdata/calls.txt by their functions.
func moreCalls(t *testing.T) map[string][]string {
	calls := map[string][]string{}
	for _, part := range strings.Split("\n"+read(t, "testdata/calls.txt"), "\n== ")[1:] {
		name, block, _ := strings.Cut(part, "\n")
		calls[name] = append(calls[name], strings.TrimSpace(block))
	}
	return calls
}

// unfilled are the reasons of testdata/unfilled.tsv by their functions.
func unfilled(t *testing.T) map[string][]*reason {
	list := map[string][]*reason{}
	for _, line := range strings.Split(strings.TrimSpace(read(t, "testdata/unfilled.tsv")), "\n")[1:] {
		cells := strings.Split(line, "\t")
		if len(cells) != 3 || cells[2] == "" {
			t.Errorf("unfilled.tsv: %q is no function, clause and reason", line)
			continue
		}
		list[cells[0]] = append(list[cells[0]], &reason{name: cells[0], clause: cells[1]})
	}
	return list
}

func read(t *testing.T, name string) string {
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}
