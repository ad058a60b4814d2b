package desk_test

import (
	"bufio"
	"encoding/json"
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
	Moved  []reading.Value
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
