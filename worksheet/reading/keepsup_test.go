package reading_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"inkwing/worksheet/reading"
)

// A reader has the sections that it was sent, as the script does.
type reader struct {
	stamp string
	order []string
	html  map[string]string
}

func (r *reader) hear(a *reading.Answer) {
	r.stamp, r.order = a.Stamp, a.Order
	for _, s := range a.Sections {
		r.html[s.ID] = s.HTML
	}
}

// sees is the page that the reader has.
func (r *reader) sees() string {
	var out strings.Builder
	for _, id := range r.order {
		fmt.Fprintf(&out, "%s\n%s\n", id, r.html[id])
	}
	return out.String()
}

// edited is a text after some edit of a builder's, sound or not.
func edited(rng *rand.Rand, text string) string {
	lines := strings.Split(text, "\n")
	at := rng.IntN(len(lines))
	switch rng.IntN(6) {
	case 0:
		lines = append(lines[:at:at], lines[at+1:]...)
	case 1:
		lines[at] = strings.NewReplacer("1", "2", "2", "3", "3", "5", "5", "7", "7", "1").Replace(lines[at])
	case 2:
		lines = append(lines[:at:at], append([]string{"", "## Another part", "", "```working", fmt.Sprintf("x_%d = mass * %d", rng.IntN(50), rng.IntN(9)), "```", ""}, lines[at:]...)...)
	case 3:
		lines = append(lines[:at:at], append([]string{"A sentence with `weight [N] = ?` in it."}, lines[at:]...)...)
	case 4:
		lines[at] += " +"
	case 5:
		lines = append(lines[:at:at], append([]string{"<!-- worked -->"}, lines[at:]...)...)
	}
	return strings.Join(lines, "\n")
}

// TestReadersKeepUp has readers of several kinds follow many edits and trials: one who
// hears all, one who sleeps through most. Each sees in the end what a page that is
// opened anew shows.
func TestReadersKeepUp(t *testing.T) {
	for seed := range uint64(6) {
		rng := rand.New(rand.NewPCG(seed, 7))
		text := glider
		r := open(t, text)
		keen, sleepy := &reader{html: map[string]string{}}, &reader{html: map[string]string{}}
		for n := range 60 {
			if text = edited(rng, text); len(text) > 6000 || n%20 == 0 {
				text = glider
			}
			r.Save([]byte(text))
			a := work(t, r, keen.stamp)
			keen.hear(a)
			if rng.IntN(5) == 0 {
				sleepy.hear(work(t, r, sleepy.stamp))
				compare(t, text, "who sleeps", sleepy, a)
			}
			compare(t, text, "who hears all", keen, a)
			if len(a.Problems) == 0 && rng.IntN(2) == 0 {
				keen.hear(work(t, r, keen.stamp, reading.Change{Name: "mass", Text: fmt.Sprint(100+rng.IntN(300), " g")}))
			}
		}
	}
}

// compare holds what a reader sees against the page opened anew, where that can be read
// at all: else the room shows what it came to last, which a new one does not know.
func compare(t *testing.T, text, who string, r *reader, a *reading.Answer) {
	t.Helper()
	if len(a.Problems) > 0 {
		return
	}
	fresh := &reader{html: map[string]string{}}
	fresh.hear(work(t, open(t, text), ""))
	if r.sees() != fresh.sees() {
		t.Fatalf("one %s sees\n%s\nand the page is\n%s", who, r.sees(), fresh.sees())
	}
}
