package region

import (
	"slices"
	"strings"
	"testing"

	"inkwing/evaluate/report"
)

// TestValues reads the tables of quantities and limits and no other, padded or not, and in a
// quote.
func TestValues(t *testing.T) {
	const text = `
| Quantity | Value | Note |
| :- | -: | :- |
| ~E~ | 625 J |
| ~store.capacitance~ | 12.5 F | waits for ~x~ |
| ~t_fly~             |    — |
| ~name~ | a \| b |

| Limit | Worked | Allowed | Headroom |
| :- | -: | -: | -: |
| ~E <= 3 J~ | 625 J | 3 J | 1 % |

| ~n~ | ~E [Wh]~ |
| -: | -: |
| ~E~ | 1 |
`
	want := []Value{{"E", "625 J", false}, {"store.capacitance", "12.5 F", false}, {"t_fly", "—", false}, {"name", "a | b", false}, {"E <= 3 J", "625 J", true}}
	plain := strings.Split(strings.ReplaceAll(text, "~", "`"), "\n")
	if got := Values(plain, 0); !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	for i := range plain {
		plain[i] = "  > " + plain[i]
	}
	if got := Values(plain, 1); !slices.Equal(got, want) {
		t.Errorf("in a quote: got %v, want %v", got, want)
	}
}

// TestValuesOfLines reads back what was laid out.
func TestValuesOfLines(t *testing.T) {
	rows := []report.Quantity{{Name: "a", Shown: "1 V"}, {Name: "kind", Shown: "disc_magnet & more"}, {Name: "b.c", Shown: "a|b*c"}, {Name: "w", State: report.Waiting}}
	want := []Value{{"a", "1 V", false}, {"kind", "disc_magnet & more", false}, {"b.c", "a|b*c", false}, {"w", "—", false}}
	if got := Values(Lines(report.Block{Rows: rows}, false), 0); !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

func FuzzValues(f *testing.F) {
	f.Add("| Quantity | Value |\n| `a` | \\", 0)
	f.Fuzz(func(t *testing.T, text string, quotes int) {
		for _, v := range Values(strings.Split(text, "\n"), quotes%9) {
			if v.Name == "" {
				t.Errorf("a row without a name: %v", v)
			}
		}
	})
}
