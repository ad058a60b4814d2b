package region

import (
	"strings"
	"testing"

	"inkwing/evaluate/library/model"
	"inkwing/evaluate/report"
)

// TestOverview lays the whole page out in short, and is known again as a run's own.
func TestOverview(t *testing.T) {
	b := report.Block{Overview: &report.Overview{
		Summary:  "In short: of 1 limit 1 broken; 1 danger; 1 line not worked.",
		Limits:   []report.Limit{{Text: "a <= b", Value: "2 V", Allowed: "1 V", Headroom: "-100 %"}},
		Dangers:  []report.Caution{{Level: model.Danger, Names: []string{"ride", "top"}, Summary: "the store stands at 3 V", Hint: "stop"}},
		Standing: []string{"flying", "strong-magnets"},
		Unworked: []report.Failure{{Line: "x = y"}},
	}}
	want := strings.ReplaceAll(`In short: of 1 limit 1 broken; 1 danger; 1 line not worked.

| Limit    | Worked | Allowed | Headroom | Verdict    |
| :------- | -----: | ------: | -------: | :--------- |
| ~a <= b~ |    2 V |     1 V |   -100 % | **broken** |

> [!CAUTION]
>
> ~ride~, also ~top~: The store stands at 3 V.
>
> Always: ~flying~, ~strong-magnets~.

<!-- not worked -->

> [!WARNING]
>
> Not worked: ~x = y~.`, "~", "`")
	lines := Lines(b, false)
	if got := strings.Join(lines, "\n"); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if at := Typed(lines, 0, nil); at >= 0 {
		t.Errorf("taken for a builder's own: %s", lines[at])
	}
}
