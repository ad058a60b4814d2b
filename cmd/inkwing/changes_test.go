package main

import (
	"slices"
	"testing"

	"inkwing/worksheet"
)

const regionBefore = `
| ` + "`outside`" + ` | 1 V |

<!-- worked: rewritten by every run -->

| Quantity | Value |
| :- | -: |
| ` + "`E`" + ` | 625 J |
| ` + "`store.capacitance`" + ` | 12.5 F |
| ` + "`gone`" + ` | 1 V |
| ` + "`t_fly`" + ` | — |
| ` + "`name`" + ` | a \| b |

| Limit | Worked | Allowed | Headroom |
| :- | -: | -: | -: |
| ` + "`E <= 3 J`" + ` | 625 J | 3 J | 1 % |

| ` + "`n`" + ` | ` + "`E [Wh]`" + ` |
| -: | -: |
| ` + "`E`" + ` | 1 |

<!-- /worked -->

> - <!-- worked: rewritten by every run -->
>   | Quantity | Value |
>   | :- | -: |
>   | ` + "`in_quote`" + ` | 1 V | waits for x |
>   <!-- /worked -->
`

const regionAfter = `
| ` + "`outside`" + ` | 2 V |

<!-- worked: rewritten by every run -->

| Quantity            |  Value |
| :------------------ | -----: |
| ` + "`E`" + `                 |  900 J |
| ` + "`store.capacitance`" + ` | 12.5 F |
| ` + "`fresh`" + `             |    1 V |
| ` + "`t_fly`" + `             |  3 min |
| ` + "`name`" + `              |   a \| c |

| Limit | Worked | Allowed | Headroom |
| :- | -: | -: | -: |
| ` + "`E <= 3 J`" + ` | 900 J | 3 J | 1 % |

| ` + "`n`" + ` | ` + "`E [J]`" + ` |
| -: | -: |
| ` + "`E`" + ` | 2 |

<!-- /worked -->

> - <!-- worked: rewritten by every run -->
>   | Quantity | Value |
>   | :- | -: |
>   | ` + "`in_quote`" + ` | 2 V |
>   <!-- /worked -->
`

func TestChanges(t *testing.T) {
	got := changes(&worksheet.Result{Source: []byte(regionBefore), Output: []byte(regionAfter)})
	want := []change{{"E", "625 J", "900 J"}, {"t_fly", "—", "3 min"}, {"name", "a | b", "a | c"}, {"in_quote", "1 V", "2 V"}}
	if !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	if got := changes(&worksheet.Result{Source: []byte(regionAfter), Output: []byte(regionAfter)}); got != nil {
		t.Errorf("no difference gives %v", got)
	}
}

func TestPercent(t *testing.T) {
	for _, test := range []struct{ from, to, want string }{
		{"625 J", "900 J", "+44 %"},
		{"12.5 F", "14 F", "+12 %"},
		{"950 mF", "1.2 F", "+26 %"},
		{"90°", "45°", "-50 %"},
		{"(0.1736 ± 0.0035) Wh", "0.2 Wh", "+15 %"},
		{"7.4 %", "8 %", "+8.1 %"},
		{"4", "5", "+25 %"},
		{"-2 V", "1 V", "+150 %"},
		{"1 J", "1 Wh", "+359900 %"},
		{"1e3 m", "2 km", "+100 %"},
		{"20 °C", "30 °C", ""}, // the zero of a scale is no nothing
		{"0 V", "1 V", ""},
		{"yes", "no", ""},
		{"—", "4 V", ""},
		{"4 V", "5 A", ""},
		{"4 V", "5 nonsense", ""},
		{"", "", ""},
	} {
		if got := percent(test.from, test.to); got != test.want {
			t.Errorf("percent(%q, %q) = %q, want %q", test.from, test.to, got, test.want)
		}
	}
}

// FuzzRows holds that no text stops the reading of its regions.
func FuzzRows(f *testing.F) {
	f.Add([]byte(regionBefore))
	f.Add([]byte("<!-- worked\n| `a` | \\"))
	f.Fuzz(func(t *testing.T, text []byte) {
		for _, row := range rows(text) {
			if row.name == "" {
				t.Errorf("a row without a name: %v", row)
			}
			percent(row.to, row.to)
		}
	})
}
