package living_test

import (
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
func carried(b *testing.B) []byte {
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
func BenchmarkTry(b *testing.B) {
	s, err := living.Open(b.Context(), carried(b), nil)
	if err != nil {
		b.Fatal(err)
	}
	base := &reading.Answer{}
	if err := json.Unmarshal(tried(b, s), base); err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for n := 0; b.Loop(); n++ {
		in := base.Inputs[n%len(base.Inputs)]
		text := in.Text
		if x, err := strconv.ParseFloat(strings.ReplaceAll(in.Number, "_", ""), 64); err == nil {
			text = in.Before + strconv.FormatFloat(x*(1.01+1e-4*float64(n/len(base.Inputs))), 'g', 8, 64) + in.After
		}
		tried(b, s, reading.Change{Name: in.Name, Text: text})
	}
}

// tried is the answer to what is tried.
func tried(b *testing.B, s *living.Sheet, changes ...reading.Change) []byte {
	question, err := json.Marshal(map[string]any{"changes": changes})
	if err != nil {
		b.Fatal(err)
	}
	answer, err := s.Work(b.Context(), question)
	if err != nil {
		b.Fatal(err)
	}
	return answer
}
