package samples_test

import (
	"context"
	"maps"
	"math/rand/v2"
	"os"
	"reflect"
	"slices"
	"strconv"
	"testing"

	"inkwing/evaluate"
	"inkwing/evaluate/message"
	"inkwing/evaluate/report"
	"inkwing/worksheet"
	"inkwing/worksheet/page"
)

// TestLaidOutAgain lays the samples out with one memory for all of them, with numbers edited
// and with others tried, one after the other: each page is the one without, to the byte.
func TestLaidOutAgain(t *testing.T) {
	edits := 120
	if testing.Short() {
		edits = 12
	}
	files := folder{os.DirFS(".")}
	all := pages(t, files)
	ctx := evaluate.Remembering(t.Context(), evaluate.NewMemo())
	names := slices.Sorted(maps.Keys(all))
	random, laid, memory := rand.New(rand.NewPCG(3, 4)), 0, page.NewMemory()
	for n := range edits {
		name := names[n%len(names)]
		if long[name] && n >= len(names) {
			continue
		}
		text := all[name]
		if n >= len(names) {
			text = edit(text, random)
		}
		for _, s := range sources(ctx, files, name, text, random) {
			want := page.Make(ctx, s)
			s.Memory = memory
			if got := page.Make(ctx, s); !reflect.DeepEqual(got, want) {
				t.Fatalf("%s: with a memory it is laid out as\n%+v\nwithout as\n%+v", name, got, want)
			}
			laid++
		}
	}
	if laid < edits {
		t.Errorf("only %d pages were laid out", laid)
	}
}

// sources are a page as it stands, as if another page used it, and with one of its numbers
// tried; none for a text that cannot be read.
func sources(ctx context.Context, files folder, name string, text []byte, random *rand.Rand) (list []page.Source) {
	doc, load, refused := worksheet.Document(ctx, files, name, text)
	if len(refused) > 0 {
		return nil
	}
	stands := evaluate.Stand(ctx, doc.Sheet(), load)
	read, _ := stands.LinesWith(ctx, nil)
	if read == nil {
		return nil
	}
	inputs := stands.Inputs()
	s := page.Source{Document: doc, Report: read.Report, Lines: read.Lines, Image: worksheet.Images(files, name), Reach: reachOf(inputs)}
	other := s
	other.Prefix, other.Short, other.Reach = "other-", random.IntN(2) == 0, nil
	pages := random.IntN(2) == 0
	other.Link = func(path string) (string, bool) { return "to-" + path, pages }
	list = append(list, s, other)
	if tried, ok := tryOne(ctx, stands, s, inputs, random); ok {
		list = append(list, tried)
	}
	return list
}

// reachOf finds what can be changed by its place.
func reachOf(inputs []report.Input) func(message.Span) (string, bool) {
	names := map[message.Span]string{}
	for _, in := range inputs {
		names[message.Span{File: in.Span.File, Start: in.Span.Start}] = in.Address
	}
	return func(at message.Span) (string, bool) {
		name, ok := names[message.Span{File: at.File, Start: at.Start}]
		return name, ok
	}
}

// tryOne is a page with one of its numbers a little larger, and what it was worked to before.
func tryOne(ctx context.Context, stands *evaluate.Standing, s page.Source, inputs []report.Input, random *rand.Rand) (page.Source, bool) {
	if len(inputs) == 0 {
		return s, false
	}
	in := inputs[random.IntN(len(inputs))]
	from, to := in.Digits.Start-in.Span.Start, in.Digits.End-in.Span.Start
	if from < 0 || from >= to || to > len(in.Text) {
		return s, false
	}
	x, _ := strconv.ParseFloat(in.Text[from:to], 64)
	text := in.Text[:from] + strconv.FormatFloat(1.1*x, 'g', 6, 64) + in.Text[to:]
	read, _ := stands.LinesWith(ctx, []evaluate.Change{{Text: in.Address + "=" + text}})
	if read == nil {
		return s, false
	}
	s.Was, s.Tried = map[string]string{}, map[string]string{in.Address: text}
	for _, d := range report.Compare(s.Report, read.Report).Changed {
		s.Was[d.New.Name] = d.Old.Shown
	}
	s.Report, s.Lines = read.Report, read.Lines
	return s, true
}
