package syntax

import (
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
)

// edited is a text with one of its lines changed, a number in it above all, taken out,
// doubled, joined to the next or set elsewhere.
func edited(random *rand.Rand, text string) string {
	lines := strings.Split(text, "\n")
	i, k := random.IntN(len(lines)), random.IntN(len(lines))
	switch random.IntN(8) {
	case 0:
		lines[i] = ""
	case 1:
		lines[i] += "\n" + lines[i]
	case 2:
		lines[i], lines[k] = lines[k], lines[i]
	case 3:
		lines[i] = "  " + lines[i]
	case 4:
		lines[i] += " ("
	default:
		digits := strings.NewReplacer("1", "2", "2", "3", "3", "4", "4", "15")
		lines[i] = digits.Replace(lines[i])
	}
	return strings.Join(lines, "\n")
}

// TestParseAfter reads a text after another of which it came by an edit: the same as by
// itself, and what did not move is the very statement that was there.
func TestParseAfter(t *testing.T) {
	var all []string
	for _, c := range accepted {
		all = append(all, c.text)
	}
	for _, c := range mistakes {
		all = append(all, strings.NewReplacer("«", "", "»", "").Replace(c.text))
	}
	random := rand.New(rand.NewPCG(11, 29))
	kept := 0
	for range 3000 {
		from := random.IntN(len(all) - 12)
		text := strings.Join(all[from:from+12], "\n")
		before, _ := Parse("a.md", blockOf(text))
		now := edited(random, text)
		tree, problems := ParseAfter(t.Context(), "a.md", blockOf(now), Earlier{Tree: before})
		want, same := Parse("a.md", blockOf(now))
		if !reflect.DeepEqual(tree, want) || !reflect.DeepEqual(problems, same) {
			t.Fatalf("%q\n%q\n%v\n%v", text, now, problems, same)
		}
		kept += inBoth(before, tree)
	}
	if kept < 3000 {
		t.Errorf("%d statements were not read again", kept)
	}
}

// inBoth counts the statements that two trees share.
func inBoth(a, b *Tree) (n int) {
	known := map[Statement]bool{}
	for _, s := range a.Statements {
		known[s] = true
	}
	for _, s := range b.Statements {
		if known[s] {
			n++
		}
	}
	return n
}

// TestParseAnew reads those anew that are to be written to, and nothing of another file.
func TestParseAnew(t *testing.T) {
	blocks := blockOf("a = f(1 V)\nb = 2 V\nc = 3 V")
	before, _ := Parse("a.md", blocks)
	named := func(s Statement) bool { return s.(*Definition).Name.Name == "b" }
	for want, e := range map[int]Earlier{3: {Tree: before}, 2: {Tree: before, Anew: named}, 0: {}} {
		if tree, _ := ParseAfter(t.Context(), "a.md", blocks, e); inBoth(before, tree) != want {
			t.Errorf("%d of %d are the earlier ones", inBoth(before, tree), want)
		}
	}
	if tree, _ := ParseAfter(t.Context(), "b.md", blocks, Earlier{Tree: before}); inBoth(before, tree) != 0 || tree.Statements[0].Place().File != "b.md" {
		t.Error("those of another file")
	}
	two := []Block{{Lines: blocks[0].Lines[:1]}, {Lines: blocks[0].Lines[1:]}}
	if tree, _ := ParseAfter(t.Context(), "a.md", two, Earlier{Tree: before}); tree.Statements[1].Common().Block != 1 {
		t.Error("that of another block")
	}
}
