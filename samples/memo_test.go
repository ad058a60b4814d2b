package samples_test

import (
	"bytes"
	"context"
	"maps"
	"math/rand/v2"
	"os"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"inkwing/evaluate"
	"inkwing/worksheet"
)

// edited is a folder in which one page was typed otherwise.
type edited struct {
	folder
	name string
	text []byte
}

func (e edited) Read(name string) ([]byte, error) {
	if name == e.name {
		return e.text, nil
	}
	return e.folder.Read(name)
}

var written = regexp.MustCompile(`\b\d+(\.\d+)?\b`)

// edit writes another number in the place of one of a text, as a builder might: a
// little more or less, now and then nonsense.
func edit(text []byte, random *rand.Rand) []byte {
	places := written.FindAllIndex(text, -1)
	at := places[random.IntN(len(places))]
	x, _ := strconv.ParseFloat(string(text[at[0]:at[1]]), 64)
	x *= []float64{0.9, 0.99, 1.01, 1.1, 0, -1, 1000}[random.IntN(7)]
	return slices.Concat(text[:at[0]], []byte(strconv.FormatFloat(x, 'g', 6, 64)), text[at[1]:])
}

// long are pages that take ten times as long as the others: what-ifs of a journal, whole
// distributions, a search through all pages.
var long = map[string]bool{"lapwing/winter.md": true, "language/draws.md": true, "club/club.md": true}

// TestMemo edits numbers all over the samples and works the pages with one memo for
// all of them: to the byte what a run without comes to. Long ones come less often.
func TestMemo(t *testing.T) {
	edits := 200
	if testing.Short() {
		edits = 20
	}
	files := folder{os.DirFS(".")}
	all := pages(t, files)
	remembering := evaluate.Remembering(t.Context(), evaluate.NewMemo())
	names := slices.Sorted(maps.Keys(all))
	random, done := rand.New(rand.NewPCG(1, 2)), map[string]int{}
	for n := 0; n < edits; {
		name := names[random.IntN(len(names))]
		if long[name] && random.IntN(3) > 0 {
			continue
		}
		n++
		done[name]++
		e := edited{files, name, edit(all[name], random)}
		for _, page := range users(all, name) {
			want, got := outcome(context.Background(), e, page), outcome(remembering, e, page)
			if !bytes.Equal(got, want) {
				t.Fatalf("%s: with a memo it comes to\n%s\nwithout\n%s", page, got, want)
			}
		}
	}
	if t.Log(done); edits == 200 && (done["lapwing/winter.md"] == 0 || done["language/draws.md"] == 0) {
		t.Errorf("what-ifs or draws were not among the edits: %v", done)
	}
}

// users are a page, and one beside it that may use it.
func users(all map[string][]byte, name string) []string {
	if name == "lapwing/parts.md" {
		return []string{name, "lapwing/journal.md"}
	}
	return []string{name}
}

// outcome is all that a run writes: the page, and its charts.
func outcome(ctx context.Context, files worksheet.Files, name string) []byte {
	text, _ := files.Read(name)
	r := worksheet.WorkText(ctx, files, name, text, worksheet.Force)
	out := bytes.Clone(r.Output)
	for _, c := range slices.Concat(r.Charts, r.Kept) {
		out = append(append(out, c.Path...), c.New...)
	}
	return out
}
