package desk_test

import (
	"bufio"
	"encoding/json"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"inkwing/cmd/inkwing/desk"
	"inkwing/worksheet/reading"
)

// A told is an event as a browser hears it.
type told struct {
	Page   string
	Since  string
	Answer *reading.Answer
}

// hear opens a stream.
func hear(t testing.TB, d *desk.Desk) <-chan told {
	t.Helper()
	got := ask(t, "GET", d.Address()+"events", "", nil)
	events := make(chan told, 1000)
	go func() {
		defer close(events)
		in := bufio.NewScanner(got.Body)
		in.Buffer(nil, 8<<20)
		for in.Scan() {
			if data, ok := strings.CutPrefix(in.Text(), "data: "); ok {
				var e told
				if json.Unmarshal([]byte(data), &e) == nil {
					events <- e
				}
			}
		}
	}()
	return events
}

// next is the next event about a page.
func next(t testing.TB, events <-chan told, page string) *reading.Answer {
	t.Helper()
	after := time.After(20 * time.Second)
	for {
		select {
		case e := <-events:
			if e.Page == page && e.Answer != nil {
				return e.Answer
			}
		case <-after:
			t.Fatalf("nothing is told of %q", page)
		}
	}
}

// answer is how a page stands.
func answer(t testing.TB, d *desk.Desk, name, since string) *reading.Answer {
	t.Helper()
	got := ask(t, "GET", d.Address()+"answer/"+name+"?since="+since, "", nil)
	a := new(reading.Answer)
	if err := json.Unmarshal([]byte(text(t, got)), a); err != nil || got.StatusCode != 200 {
		t.Fatalf("%s: %s, %v", name, got.Status, err)
	}
	return a
}

func ids(a *reading.Answer) (list []string) {
	for _, s := range a.Sections {
		list = append(list, s.ID)
	}
	return list
}

func html(a *reading.Answer, id string) string {
	for _, s := range a.Sections {
		if s.ID == id {
			return s.HTML
		}
	}
	return ""
}

const two = "# Glider\n\n## Mass\n\n```working\nmass = 350 g\nweight [N] = mass * 9.81 m/s^2\n```\n\n## Pack\n\n```working\nV = 2.5 V\nV_full = 5 * V\n```\n"

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

// TestList says of each page how it stands, and follows what comes, changes and goes.
func TestList(t *testing.T) {
	dir := t.TempDir()
	file(t, dir, "a.md", two)
	file(t, dir, "plain.md", "# No worksheet\n")
	d := serve(t, dir)
	if got := ask(t, "GET", d.Address(), "", nil); !strings.Contains(text(t, got), `href="page/a.md"`) {
		t.Error("a.md is not listed")
	}
	events := hear(t, d)
	stands := func(want string) *reading.Answer {
		t.Helper()
		for range 400 {
			a := answer(t, d, "", "")
			if all := fmt.Sprint(a.Sections); strings.Contains(all, want) && !strings.Contains(all, "being worked") {
				return a
			}
			time.Sleep(25 * time.Millisecond)
		}
		t.Fatalf("the list never says %q: %v", want, answer(t, d, "", "").Sections)
		return nil
	}
	if a := stands("Everything is worked"); len(a.Sections) != 2 || !strings.Contains(a.Sections[1].HTML, "Glider") {
		t.Errorf("listed: %q", ids(a))
	}
	file(t, dir, "sub/b 1.md", "# Bee\n\n```working\nx = 3 V\nlimit x < 2 V\n```\n")
	if a := stands("1 limit is broken"); !strings.Contains(html(a, "p-sub/b 1.md"), `href="page/sub/b%201.md"`) {
		t.Errorf("listed: %v", a.Sections)
	}
	next(t, events, "")
	file(t, dir, "sub/b 1.md", "# Bee\n\n```working\nx = 1 V\nlimit x < 2 V\n```\n")
	stands("Its one limit holds")
	file(t, dir, "sub/b 1.md", "# Bee\n\n```working\nx = 1 V +\n```\n")
	stands("1 line is not worked")
	file(t, dir, "sub/b 1.md", "<!-- worked -->\n\n```working\nx = 1 V\n```\n")
	stands("not worked")
	if err := os.Rename(filepath.Join(dir, "sub/b 1.md"), filepath.Join(dir, "c.md")); err != nil {
		t.Fatal(err)
	}
	file(t, dir, "<b> & \"c\".md", two)
	if a := stands("&lt;b&gt;"); !slices.Contains(a.Order, "p-<b> & \"c\".md") {
		t.Errorf("an odd name: %q", a.Order) // the id of an element as scripts see it
	}
	if err := os.Remove(filepath.Join(dir, "<b> & \"c\".md")); err != nil {
		t.Fatal(err)
	}
	for len(answer(t, d, "", "").Order) > 3 {
		time.Sleep(10 * time.Millisecond)
	}
	if a := stands("c.md"); len(a.Sections) != 3 || html(a, "p-sub/b 1.md") != "" {
		t.Errorf("renamed: %q", ids(a))
	}
}

// TestKeeps keeps a value, tells others, and takes it back; what somebody else saved
// is never overwritten.
func TestKeeps(t *testing.T) {
	dir := t.TempDir()
	file(t, dir, "a.md", two)
	d := serve(t, dir)
	ask(t, "GET", d.Address()+"page/a.md", "", nil)
	events := hear(t, d)
	first := answer(t, d, "a.md", "")
	holds := func(want string) {
		t.Helper()
		if now, _ := os.ReadFile(filepath.Join(dir, "a.md")); string(now) != want {
			t.Errorf("the file holds %q, want %q", now, want)
		}
	}
	act := func(verb, body string) (a struct {
		reading.Answer
		Undo, Says string
	}) {
		t.Helper()
		got := ask(t, "POST", d.Address()+verb+"/a.md", body, nil)
		if err := json.Unmarshal([]byte(text(t, got)), &a); err != nil || got.StatusCode != 200 {
			t.Fatalf("%s: %s %v", verb, got.Status, err)
		}
		return a
	}
	const changes = `"changes":[{"name":"mass","text":"360 g"}]`
	if a := act("try", `{"since":"`+first.Stamp+`",`+changes+`}`); len(a.Changed) != 1 || !slices.Equal(ids(&a.Answer), []string{"b-mass"}) {
		t.Errorf("tried: %+v, %q", a.Changed, ids(&a.Answer))
	}
	holds(two)
	a := act("keep", `{"since":"`+first.Stamp+`","file":"`+first.File+`",`+changes+`}`)
	kept := strings.Replace(two, "350", "360", 1)
	holds(kept)
	if a.Undo != "mass 360 g → 350 g" || len(a.Problems) > 0 {
		t.Errorf("kept: %q, %+v", a.Undo, a.Problems)
	}
	if told := next(t, events, "a.md"); !strings.Contains(html(told, "b-mass"), "360") {
		t.Error("the other tab is not told")
	}
	// The page still shows what stood before: nothing is kept.
	if a := act("keep", `{"file":"`+first.File+`","changes":[{"name":"mass","text":"370 g"}]}`); !strings.Contains(a.Says, "saved by another program") || len(a.Inputs) == 0 || a.Inputs[0].Text != "360 g" {
		t.Errorf("kept over another: %q, %+v", a.Says, a.Inputs)
	}
	holds(kept)
	// Another program saved, and nobody noticed yet.
	other := strings.Replace(kept, "2.5 V", "2.7 V", 1)
	file(t, dir, "a.md", other)
	if a := act("keep", `{"file":"`+a.File+`","changes":[{"name":"mass","text":"370 g"}]}`); !strings.Contains(a.Says, "saved by another program") {
		t.Errorf("kept over another: %q", a.Says)
	}
	holds(other)
	if a := act("undo", `{"changes":[]}`); a.Undo != "" || !strings.Contains(a.Says, "Taken back") {
		t.Errorf("taken back: %q, %q", a.Undo, a.Says)
	}
	holds(strings.Replace(two, "2.5 V", "2.7 V", 1))
	// What is no longer what was kept is not taken back.
	now := answer(t, d, "a.md", "")
	act("keep", `{"file":"`+now.File+`",`+changes+`}`)
	by := strings.Replace(two, "350", "365", 1)
	file(t, dir, "a.md", by)
	if a := act("undo", `{"changes":[]}`); !strings.Contains(a.Says, "no longer") {
		t.Errorf("taken back over another: %q", a.Says)
	}
	holds(by)
	if a := act("undo", `{"changes":[]}`); !strings.Contains(a.Says, "nothing to take back") {
		t.Errorf("nothing: %q", a.Says)
	}
	for _, wrong := range []string{"5 V", "", "1 g\\nx = 3", "weight"} {
		now := answer(t, d, "a.md", "")
		if a := act("keep", `{"file":"`+now.File+`","changes":[{"name":"mass","text":"`+wrong+`"}]}`); len(a.Problems) == 0 {
			t.Errorf("%q is kept", wrong)
		}
	}
	holds(by)
	if a := act("run", `{"changes":[]}`); !strings.Contains(a.Says, "written") {
		t.Errorf("run: %q", a.Says)
	}
	now2, _ := os.ReadFile(filepath.Join(dir, "a.md"))
	if !strings.Contains(string(now2), "<!-- worked:") {
		t.Errorf("run wrote %q", now2)
	}
	if a := act("run", `{"changes":[]}`); !strings.Contains(a.Says, "right already") {
		t.Errorf("run again: %q", a.Says)
	}
	holds(string(now2))
}

// TestKeepsInUsed keeps a value that a used page holds in that page, with those of the
// page itself or not at all, and takes both back.
func TestKeepsInUsed(t *testing.T) {
	dir := t.TempDir()
	const parts, page = "# Parts\n\n```working\nspar = 12 g\n```\n", "# A\n\n```working\nuse \"parts.md\"\nuse \"log.csv\"\nribs = 9\nm = ribs * parts.spar\nU = max(log.U)\n```\n"
	file(t, dir, "sub/parts.md", parts)
	file(t, dir, "sub/log.csv", "t [s],U [V]\n0,1\n1,2\n")
	file(t, dir, "sub/a.md", page)
	d := serveWithin(t, dir, "sub")
	ask(t, "GET", d.Address()+"page/a.md", "", nil)
	ask(t, "GET", d.Address()+"page/parts.md", "", nil)
	events := hear(t, d)
	holds := func(wantParts, wantPage string) {
		t.Helper()
		for name, want := range map[string]string{"parts.md": wantParts, "a.md": wantPage} {
			if now, _ := os.ReadFile(filepath.Join(dir, "sub", name)); string(now) != want {
				t.Errorf("%s holds %q, want %q", name, now, want)
			}
		}
	}
	act := func(verb, body string) (a struct {
		reading.Answer
		Undo, Says string
	}) {
		t.Helper()
		got := ask(t, "POST", d.Address()+verb+"/a.md", body, nil)
		if err := json.Unmarshal([]byte(text(t, got)), &a); err != nil || got.StatusCode != 200 {
			t.Fatalf("%s: %s %v", verb, got.Status, err)
		}
		return a
	}
	first := answer(t, d, "a.md", "")
	a := act("keep", `{"file":"`+first.File+`","changes":[{"name":"ribs","text":"10"},{"name":"parts.spar","text":"13 g"}]}`)
	holds(strings.Replace(parts, "12", "13", 1), strings.Replace(page, "ribs = 9", "ribs = 10", 1))
	if !strings.Contains(fmt.Sprint(a.Sections), "130") || len(a.Problems) > 0 {
		t.Errorf("10 ribs of 13 g: %+v %+v", a.Sections, a.Problems)
	}
	next(t, events, "parts.md")
	next(t, events, "a.md")
	if a := act("undo", `{"changes":[]}`); !strings.Contains(a.Says, "Taken back") {
		t.Errorf("taken back: %q %+v", a.Says, a.Problems)
	}
	holds(parts, page)
	// One that cannot be kept keeps the others from being written.
	now := answer(t, d, "a.md", "")
	for _, c := range []string{`{"name":"parts.spar","text":"13 g"},{"name":"ribs","text":"3 V"}`, `{"name":"parts.spar","text":"13 g"},{"name":"log[1].U","text":"3 V"}`, `{"name":"ribs","text":"10"},{"name":"parts.spar","text":"1 V"}`} {
		if a := act("keep", `{"file":"`+now.File+`","changes":[`+c+`]}`); len(a.Problems) == 0 {
			t.Errorf("%s is kept", c)
		}
	}
	// What the used page holds now was never shown on this one.
	file(t, dir, "sub/parts.md", strings.Replace(parts, "12", "14", 1))
	if a := act("keep", `{"file":"`+now.File+`","changes":[{"name":"parts.spar","text":"15 g","was":"12 g"}]}`); !strings.Contains(a.Says, "saved by another program") {
		t.Errorf("kept over what was not shown: %q", a.Says)
	}
	holds(strings.Replace(parts, "12", "14", 1), page)
}

// TestTwoHundredSaves follows them all and holds no more afterwards than before.
func TestTwoHundredSaves(t *testing.T) {
	if testing.Short() {
		t.Skip("two hundred saves take some seconds, which -short leaves out")
	}
	dir := t.TempDir()
	file(t, dir, "a.md", two)
	d := serve(t, dir)
	ask(t, "GET", d.Address()+"page/a.md", "", nil)
	events := hear(t, d)
	save := func(n int) {
		file(t, dir, "a.md", strings.Replace(two, "350", fmt.Sprint(351+n), 1))
		for !strings.Contains(html(next(t, events, "a.md"), "b-mass"), fmt.Sprint(351+n)) {
		}
	}
	for n := range 40 {
		save(n)
	}
	before := held()
	routines := runtime.NumGoroutine()
	for n := range 200 {
		save(100 + n)
		if n%10 == 0 { // tabs come and go
			for range 5 {
				q, _ := http.NewRequestWithContext(t.Context(), "GET", d.Address()+"events", nil)
				if got, err := http.DefaultTransport.RoundTrip(q); err == nil {
					got.Body.Close()
				}
			}
		}
	}
	if grown := int64(held()) - int64(before); grown > 2<<20 {
		t.Errorf("200 saves leave %d kB", grown>>10)
	}
	for range 200 {
		if d.Streams() == 1 && runtime.NumGoroutine() <= routines+4 {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Errorf("%d streams, %d goroutines, at first %d", d.Streams(), runtime.NumGoroutine(), routines)
}

// held is what memory holds that somebody still needs.
func held() uint64 {
	runtime.GC()
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}
