package living_test

import (
	"context"
	"encoding/json"
	"io/fs"
	"os"
	"path"
	"strconv"
	"strings"
	"testing"

	"inkwing/worksheet/living"
	"inkwing/worksheet/packing"
	"inkwing/worksheet/reading"
)

// carried packs the folder of the largest sample.
func carried(b testing.TB) []byte {
	b.Helper()
	pack := &packing.Pack{Sheet: "journal.md"}
	folder := os.DirFS("../../samples/lapwing")
	names, err := fs.Glob(folder, "*.*")
	if err != nil {
		b.Fatal(err)
	}
	for _, name := range names {
		if path.Ext(name) != ".md" && path.Ext(name) != ".csv" {
			continue
		}
		text, err := fs.ReadFile(folder, name)
		if err == nil {
			err = pack.Add(name, text)
		}
		if err != nil {
			b.Fatal(err)
		}
	}
	text, err := json.Marshal(pack)
	if err != nil {
		b.Fatal(err)
	}
	return text
}

// BenchmarkTry tries one number of the largest sample after another, each a little
// otherwise each time, so that what bears on it is worked anew.
func BenchmarkTry(b *testing.B) { benchmark(b, (*living.Sheet).Work) }

// BenchmarkGlance tries them for what is told first.
func BenchmarkGlance(b *testing.B) { benchmark(b, (*living.Sheet).Glance) }

func benchmark(b *testing.B, verb func(*living.Sheet, context.Context, []byte) ([]byte, error)) {
	s, err := living.Open(b.Context(), carried(b), nil)
	if err != nil {
		b.Fatal(err)
	}
	inputs := inputsOf(b, s)
	b.ReportAllocs()
	for n := 0; b.Loop(); n++ {
		answered(b, s, verb, moved(inputs, n))
	}
}

// inputsOf is what can be tried.
func inputsOf(b testing.TB, s *living.Sheet) []reading.Input {
	b.Helper()
	base := &reading.Answer{}
	if err := json.Unmarshal(tried(b, s), base); err != nil {
		b.Fatal(err)
	}
	return base.Inputs
}

// moved is the n-th of some inputs, a little otherwise each time round.
func moved(inputs []reading.Input, n int) []reading.Change {
	in := inputs[n%len(inputs)]
	text := in.Text
	if x, err := strconv.ParseFloat(strings.ReplaceAll(in.Number, "_", ""), 64); err == nil {
		text = in.Before + strconv.FormatFloat(x*(1.01+1e-4*float64(n/len(inputs))), 'g', 8, 64) + in.After
	}
	return []reading.Change{{Name: in.Name, Text: text}}
}

// tried is the answer to what is tried.
func tried(b testing.TB, s *living.Sheet, changes ...reading.Change) []byte {
	b.Helper()
	return answered(b, s, (*living.Sheet).Work, changes)
}

// answered is what a verb of a sheet says to what is tried.
func answered(b testing.TB, s *living.Sheet, verb func(*living.Sheet, context.Context, []byte) ([]byte, error), changes []reading.Change) []byte {
	b.Helper()
	question, err := json.Marshal(map[string]any{"changes": changes})
	if err != nil {
		b.Fatal(err)
	}
	answer, err := verb(s, b.Context(), question)
	if err != nil {
		b.Fatal(err)
	}
	return answer
}
