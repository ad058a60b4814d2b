package living_test

import (
	"encoding/json"
	"slices"
	"testing"

	"inkwing/worksheet/living"
	"inkwing/worksheet/reading"
)

// TestGlances tries one number of the largest sample after another: what a glance tells
// moves by as much in the answer, which tells nothing else that has a share.
func TestGlances(t *testing.T) {
	s, err := living.Open(t.Context(), carried(t), nil)
	if err != nil {
		t.Fatal(err)
	}
	shares := func(list []reading.Value) (out []string) {
		for _, v := range list {
			if v.Share != "" {
				out = append(out, v.Name+" "+v.Share)
			}
		}
		return out
	}
	inputs, told := inputsOf(t, s), 0
	for n := 0; n < len(inputs); n += 7 {
		var glance []reading.Value
		var answer reading.Answer
		if err := json.Unmarshal(answered(t, s, (*living.Sheet).Glance, moved(inputs, n)), &glance); err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(tried(t, s, moved(inputs, n)...), &answer); err != nil {
			t.Fatal(err)
		}
		got, want := shares(glance), shares(answer.Changed)
		if told += len(got); !slices.Equal(got, want) {
			t.Errorf("%v: glanced %q, answered %q", moved(inputs, n), got, want)
		}
	}
	if told < 50 {
		t.Errorf("only %d results move", told)
	}
}
