package evaluate

import (
	"context"
	"reflect"
	"testing"
)

// TestMemo evaluates every case of the suite twice with one memo: each report is the
// one without.
func TestMemo(t *testing.T) {
	remembering := Remembering(context.Background(), NewMemo())
	for _, c := range readSuite(t) {
		want := Work(context.Background(), c.sheet, c.files)
		for range 2 {
			if got := Work(remembering, c.sheet, c.files); !reflect.DeepEqual(got, want) {
				t.Errorf("%s: with a memo it is %+v, without %+v", c.name, got, want)
			}
		}
	}
}
