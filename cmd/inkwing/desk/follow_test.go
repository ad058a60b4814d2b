package desk_test

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"inkwing/cmd/inkwing/desk"
)

// TestFollowsSaves hears of a save by each way in which programs save, and only of
// the sections that it touches.
func TestFollowsSaves(t *testing.T) {
	for _, blind := range []bool{false, true} {
		if blind && testing.Short() {
			continue // it waits for seconds
		}
		t.Run(fmt.Sprintf("blind=%v", blind), func(t *testing.T) { followsSaves(t, blind) })
	}
}

func followsSaves(t *testing.T, blind bool) {
	dir := t.TempDir()
	file(t, dir, "a.md", two)
	d := serveWithin(t, dir, ".", func(d *desk.Desk) {
		if blind {
			d.Blind()
		}
	})
	if got := ask(t, "GET", d.Address()+"page/a.md", "", nil); got.StatusCode != 200 {
		t.Fatal(got.Status)
	}
	events := hear(t, d)
	if blind {
		time.Sleep(1200 * time.Millisecond) // it looks once before it sees a difference
	}
	at := filepath.Join(dir, "a.md")
	with := func(mass string) string { return strings.Replace(two, "350", mass, 1) }
	saves := []struct {
		name string
		save func(text string) error
	}{
		{"in place", func(text string) error { return os.WriteFile(at, []byte(text), 0o666) }},
		{"by renaming", func(text string) error {
			if err := os.WriteFile(at+"~", []byte(text), 0o666); err != nil {
				return err
			}
			return os.Rename(at+"~", at)
		}},
		{"the old one aside", func(text string) error {
			if err := os.Rename(at, at+".bak"); err != nil {
				return err
			}
			return os.WriteFile(at, []byte(text), 0o666)
		}},
		{"removed first", func(text string) error {
			if err := os.Remove(at); err != nil {
				return err
			}
			time.Sleep(40 * time.Millisecond)
			return os.WriteFile(at, []byte(text), 0o666)
		}},
		{"in halves", func(text string) error {
			f, err := os.Create(at)
			if err != nil {
				return err
			}
			defer f.Close()
			time.Sleep(40 * time.Millisecond) // it is empty, and then whole
			_, err = f.WriteString(text)
			return err
		}},
	}
	for i, s := range saves {
		mass := fmt.Sprint(360 + i)
		if err := s.save(with(mass)); err != nil {
			t.Fatal(err)
		}
		a := next(t, events, "a.md")
		if i > 2 && !slices.Equal(ids(a), []string{"b-mass"}) { // a busy machine may have looked in the middle
			t.Logf("%s: told of %q first", s.name, ids(a))
			if a = next(t, events, "a.md"); strings.Contains(html(a, "b-mass"), mass) {
				continue
			}
		}
		if !slices.Equal(ids(a), []string{"b-mass"}) || !strings.Contains(a.Sections[0].HTML, mass) || len(a.Problems) > 0 {
			t.Errorf("%s: told of %q, %+v", s.name, ids(a), a.Problems)
		}
	}
	if err := os.Remove(at); err != nil {
		t.Fatal(err)
	}
	if a := next(t, events, "a.md"); len(a.Problems) != 1 || !slices.Contains(a.Order, "b-mass") {
		t.Errorf("taken away: %+v, %q", a.Problems, a.Order)
	}
	file(t, dir, "a.md", two)
	if a := next(t, events, "a.md"); len(a.Problems) > 0 || !strings.Contains(html(a, "b-mass"), "350") {
		t.Errorf("back again: %+v", a.Problems)
	}
}

// TestFollowsUsed hears of what a page uses: a page, data, one that comes late, in
// a folder that comes late.
func TestFollowsUsed(t *testing.T) {
	dir := t.TempDir()
	file(t, dir, "parts.md", "```working\nspar = 12 g\n```\n")
	file(t, dir, "log.csv", "t [s],U [V]\n0,1\n1,2\n")
	file(t, dir, "a.md", "```working\nuse \"parts.md\"\nuse \"log.csv\"\nm = 2 * parts.spar\nU_last = max(log.U)\n```\n\n## Late\n\n```working\nuse \"late/x.md\"\ny = x.z * 2\n```\n")
	d := serve(t, dir)
	ask(t, "GET", d.Address()+"page/a.md", "", nil)
	events := hear(t, d)
	for _, c := range []struct{ name, text, says string }{
		{"parts.md", "```working\nspar = 13 g\n```\n", "26"},
		{"log.csv", "t [s],U [V]\n0,1\n1,7\n", "7"},
		{"late/x.md", "```working\nz = 21 g\n```\n", "42"},
	} {
		file(t, dir, c.name, c.text)
		a := next(t, events, "a.md")
		if all := fmt.Sprint(a.Sections); !strings.Contains(all, c.says) {
			t.Errorf("%s: told %q", c.name, all)
		}
	}
	if err := os.Remove(filepath.Join(dir, "parts.md")); err != nil {
		t.Fatal(err)
	}
	if a := next(t, events, "a.md"); a.Holds {
		t.Error("what it uses is gone, and all holds")
	}
}

// TestOpenedRightAfterASave wants a page that is opened at once after it was saved to be what
// was saved, and whoever had it open before to be told of it none the less.
func TestOpenedRightAfterASave(t *testing.T) {
	dir := t.TempDir()
	file(t, dir, "a.md", two)
	d := serve(t, dir)
	ask(t, "GET", d.Address()+"page/a.md", "", nil)
	events := hear(t, d)
	for n := range 20 {
		mass := fmt.Sprint(400 + n)
		file(t, dir, "a.md", strings.Replace(two, "350", mass, 1))
		text, err := io.ReadAll(ask(t, "GET", d.Address()+"page/a.md", "", nil).Body)
		if err != nil || !strings.Contains(string(text), mass) {
			t.Fatalf("%s g was saved, and is not on the page; %v", mass, err)
		}
		if a := next(t, events, "a.md"); !strings.Contains(html(a, "b-mass"), mass) {
			t.Fatalf("%s g was saved, and others are told %q", mass, ids(a))
		}
	}
}

// TestGlanceFirst tells what a save moved before all of it, to those who look; and nothing
// before an answer by which nothing moved.
func TestGlanceFirst(t *testing.T) {
	dir := t.TempDir()
	file(t, dir, "a.md", two)
	d := serve(t, dir)
	ask(t, "GET", d.Address()+"page/a.md", "", nil)
	stamp, events := answer(t, d, "a.md", "").Stamp, hear(t, d)
	for d.Streams() == 0 {
		time.Sleep(time.Millisecond)
	}
	heavier := strings.Replace(two, "350 g", "385 g", 1)
	for _, c := range []struct{ text, moved string }{{heavier, "weight 3.434 N → 3.777 N"}, {heavier + "\nMore.\n", ""}, {two, "weight 3.777 N → 3.434 N"}} {
		file(t, dir, "a.md", c.text)
		d.Settle(t.Context(), "a.md")
		glance := ""
		e := <-events
		for ; e.Answer == nil; e = <-events {
			if e.Page == "a.md" && e.Since == stamp {
				glance += e.Moved[0].Name + " " + e.Moved[0].Old + " → " + e.Moved[0].New
			}
		}
		if glance != c.moved || e.Since != stamp {
			t.Errorf("before the answer to %q: %q, since %s of %s", c.text[len(c.text)-10:], glance, e.Since, stamp)
		}
		stamp = e.Answer.Stamp
	}
}
