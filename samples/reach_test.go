package samples_test

import (
	"fmt"
	"os"
	"strconv"
	"strings"
	"testing"

	"inkwing/evaluate"
	"inkwing/evaluate/report"
	"inkwing/worksheet"
)

// TestReached puts what stands there in the place of every number that has no name, by
// its address: nothing on the page may come out otherwise, nor what is worked so.
func TestReached(t *testing.T) {
	files := folder{os.DirFS(".")}
	all := pages(t, files)
	for _, name := range []string{"language/language.md", "first/1-pack.md", "first/2-charge.md", "lapwing/parts.md"} {
		t.Run(name, func(t *testing.T) {
			was := workedWith(t, files, name, all[name], nil)
			lines, owners := unchanged(t, files, name, all[name])
			if len(lines) == 0 {
				t.Fatal("nothing is within reach")
			}
			now := workedWith(t, files, name, all[name], lines)
			for key, q := range was {
				if now[key] != q {
					t.Errorf("%s is %+v, was %+v", key, now[key], q)
				}
			}
			for i, owner := range owners {
				for key, q := range was {
					if rest, ok := strings.CutPrefix(key, owner); ok && (rest == "" || rest[0] == '.') {
						if got := now[fmt.Sprintf("reached_%d%s", i, rest)]; got.value != q.value || got.u != q.u {
							t.Errorf("%s: %s is %+v, was %+v", lines[i], key, got, q)
						}
					}
				}
			}
		})
	}
}

type cameTo struct {
	shown string
	value any
	u     report.Uncertainty
}

// workedWith is what the quantities of a page come to with some lines more.
func workedWith(t *testing.T, files folder, name string, text []byte, lines []string) map[string]cameTo {
	t.Helper()
	more := append(text[:len(text):len(text)], "\n```working\n"+strings.Join(lines, "\n")+"\n```\n"...)
	sheet, load, refused := worksheet.Sheet(t.Context(), files, name, more)
	if len(refused) > 0 {
		t.Fatal(refused)
	}
	r := evaluate.Work(t.Context(), sheet, load)
	for _, d := range r.Errors {
		t.Errorf("%s: %s", d.Summary, sheet.Text(d.Span))
	}
	found := map[string]cameTo{}
	for _, q := range r.Quantities {
		found[q.Name] = cameTo{q.Shown, q.Value, q.Uncertainty}
	}
	return found
}

// unchanged are lines that put what stands there in the place of each number without a
// name, and the quantity that each works anew; none for a cell.
func unchanged(t *testing.T, files folder, name string, text []byte) (lines, owners []string) {
	sheet, load, _ := worksheet.Sheet(t.Context(), files, name, text)
	for _, in := range evaluate.Inputs(t.Context(), sheet, load) {
		owner, _, _ := strings.Cut(in.Address, "(")
		value := in.Text
		if word, isText := in.Value.(string); isText {
			value = strconv.Quote(word)
		}
		switch {
		case strings.HasSuffix(in.Path, ".csv"): // no statement changes what a file of data holds
			continue
		case in.Kind == report.PlainValue || strings.Contains(value, "±") || in.Kind == report.InCell && in.Value == nil:
			continue
		case in.Kind == report.InCell:
			owner = "pi"
		}
		lines = append(lines, fmt.Sprintf("reached_%d = %s with %s = %s", len(lines), owner, in.Address, value))
		owners = append(owners, owner)
	}
	return lines, owners
}
