package desk_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"
	"time"

	"inkwing/cmd/inkwing/desk"
)

const sheet = "# Glider\n\n```working\nmass = 350 g\nweight [N] = mass * 9.81 m/s^2\n```\n"

// origin is the desk's scheme, host and port.
func origin(d *desk.Desk) string {
	u, _ := url.Parse(d.Address())
	return "http://" + u.Host
}

// ask sends a question, changed as somebody else would send it.
func ask(t testing.TB, method, address, body string, change func(*http.Request)) *http.Response {
	t.Helper()
	q, err := http.NewRequestWithContext(t.Context(), method, address, strings.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	if method == http.MethodPost {
		u, _ := url.Parse(address)
		q.Header.Set("Origin", "http://"+u.Host)
		q.Header.Set("Content-Type", "application/json")
	}
	if change != nil {
		change(q)
	}
	got, err := http.DefaultTransport.RoundTrip(q)
	if errors.Is(err, syscall.ECONNRESET) || errors.Is(err, syscall.EPIPE) { // it was closed while it still spoke
		return &http.Response{Request: q, Status: "closed", Body: http.NoBody}
	}
	if err != nil {
		t.Fatal(err)
	}
	if t.Cleanup(func() { got.Body.Close() }); got.Header.Get("Content-Type") != "text/event-stream" {
		all, err := io.ReadAll(got.Body)
		if err != nil && !errors.Is(err, syscall.ECONNRESET) {
			t.Fatal(err)
		}
		got.Body.Close()
		got.Body = io.NopCloser(bytes.NewReader(all))
	}
	return got
}

func text(t testing.TB, r *http.Response) string {
	t.Helper()
	b, err := io.ReadAll(r.Body)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// places are addresses of every kind that a desk answers.
func places(d *desk.Desk) map[string]string {
	return map[string]string{"": "GET", "page/a.md": "GET", "answer/a.md": "GET", "events": "GET", "try/a.md": "POST", "keep/a.md": "POST", "undo/a.md": "POST", "run/a.md": "POST", "nothing": "GET"}
}

// walled is a desk over one worksheet, which must stay as it is.
func walled(t *testing.T) *desk.Desk {
	dir := t.TempDir()
	file(t, dir, "a.md", sheet)
	t.Cleanup(func() {
		if now, _ := os.ReadFile(filepath.Join(dir, "a.md")); string(now) != sheet {
			t.Errorf("a.md is written: %q", now)
		}
	})
	return serve(t, dir)
}

// TestOnlyThisMachine listens where no other machine comes.
func TestOnlyThisMachine(t *testing.T) {
	d := walled(t)
	if u, _ := url.Parse(d.Address()); u.Hostname() != "127.0.0.1" || u.Port() == "" || len(u.Path) != 34 {
		t.Errorf("address %s", d.Address())
	}
	if other := walled(t); other.Address()[len(origin(other)):] == d.Address()[len(origin(d)):] {
		t.Error("two desks have one key")
	}
}

// TestRefused holds each wall at each place: a name that was made to lead here, a page
// of another origin, another program without the key.
func TestRefused(t *testing.T) {
	d := walled(t)
	set := func(key, value string) func(*http.Request) {
		return func(q *http.Request) { q.Header.Set(key, value) }
	}
	for _, wall := range []struct {
		name   string
		change func(*http.Request)
		status int
	}{
		{"rebound name", func(q *http.Request) { q.Host = "rebound.example:80" }, 421},
		{"localhost", func(q *http.Request) { q.Host = strings.Replace(q.URL.Host, "127.0.0.1", "localhost", 1) }, 421},
		{"no port", func(q *http.Request) { q.Host = "127.0.0.1" }, 421},
		{"another page", set("Origin", "http://elsewhere.example"), 403},
		{"another port", set("Origin", "http://127.0.0.1:1"), 403},
		{"another scheme", func(q *http.Request) { q.Header.Set("Origin", "https://"+q.URL.Host) }, 403},
		{"a sandboxed page", set("Origin", "null"), 403},
		{"two origins", func(q *http.Request) { q.Header["Origin"] = []string{"http://" + q.URL.Host, "http://x.example"} }, 403},
		{"cross-site", set("Sec-Fetch-Site", "cross-site"), 403},
		{"same-site", set("Sec-Fetch-Site", "same-site"), 403},
		{"no key", func(q *http.Request) { q.URL.Path = "/" + q.URL.Path[34:] }, 404},
		{"a part of the key", func(q *http.Request) { q.URL.Path = q.URL.Path[:20] + q.URL.Path[33:] }, 404},
		{"another key", func(q *http.Request) { q.URL.Path = "/" + strings.Repeat("0", 32) + q.URL.Path[33:] }, 404},
		{"the key twice", func(q *http.Request) { q.URL.Path = q.URL.Path[:33] + q.URL.Path }, 404},
	} {
		for place, method := range places(d) {
			got := ask(t, method, d.Address()+place, `{"changes":[{"name":"mass","text":"1 g"}]}`, wall.change)
			if got.StatusCode != wall.status {
				t.Errorf("%s at %s %q: %s, want %d", wall.name, method, place, got.Status, wall.status)
			}
			guarded(t, got)
			if got.StatusCode == 200 {
				continue // said above; a stream does not end
			}
			if said := text(t, got); strings.Contains(said, "mass") || strings.Contains(said, d.Address()[len(origin(d))+1:len(d.Address())-1]) {
				t.Errorf("%s at %q tells %q", wall.name, place, said)
			}
		}
	}
}

// TestActsRefused holds acts to more than reading: their origin, their kind, POST.
func TestActsRefused(t *testing.T) {
	d := walled(t)
	const keep = `{"since":"","file":"","changes":[{"name":"mass","text":"1 g"}]}`
	for _, act := range []string{"try", "keep", "undo", "run"} {
		at := d.Address() + act + "/a.md"
		for _, c := range []struct {
			name, method string
			change       func(*http.Request)
			status       int
		}{
			{"no origin", "POST", func(q *http.Request) { q.Header.Del("Origin") }, 403},
			{"a form", "POST", func(q *http.Request) { q.Header.Set("Content-Type", "text/plain") }, 415},
			{"another form", "POST", func(q *http.Request) { q.Header.Set("Content-Type", "application/x-www-form-urlencoded") }, 415},
			{"no kind", "POST", func(q *http.Request) { q.Header.Del("Content-Type") }, 415},
			{"a typed address", "POST", func(q *http.Request) { q.Header.Set("Sec-Fetch-Site", "none") }, 403},
			{"reading", "GET", nil, 405}, {"putting", "PUT", nil, 405}, {"asking", "OPTIONS", nil, 405}, {"deleting", "DELETE", nil, 405},
		} {
			got := ask(t, c.method, at, keep, c.change)
			if got.StatusCode != c.status && !(c.method == "GET" && got.StatusCode == 404) {
				t.Errorf("%s, %s: %s, want %d", act, c.name, got.Status, c.status)
			}
			guarded(t, got)
		}
		for _, body := range []string{"", "{", "[]", `{"other":1}`, `{"changes":"x"}`, strings.Repeat(" ", 2<<20)} {
			if got := ask(t, "POST", at, body, nil); got.StatusCode != 400 && got.Status != "closed" {
				t.Errorf("%s of %.20q: %s", act, body, got.Status)
			}
		}
	}
}

// guarded holds that an answer says what a browser may do with it: nothing much.
func guarded(t *testing.T, r *http.Response) {
	t.Helper()
	for key, want := range map[string]string{"X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer", "Cross-Origin-Resource-Policy": "same-origin",
		"Cross-Origin-Opener-Policy": "same-origin", "Cache-Control": "no-store", "X-Frame-Options": "DENY"} {
		if got := r.Header.Get(key); got != want {
			t.Errorf("%s %d: %s is %q", r.Request.URL.Path, r.StatusCode, key, got)
		}
	}
	policy := r.Header.Get("Content-Security-Policy")
	for _, want := range []string{"default-src 'none'", "frame-ancestors 'none'", "base-uri 'none'", "form-action 'none'"} {
		if !strings.Contains(policy, want) {
			t.Errorf("%s %d: the policy is %q", r.Request.URL.Path, r.StatusCode, policy)
		}
	}
	if strings.Contains(policy, "unsafe") || strings.Contains(policy, "*") || r.Header.Get("Access-Control-Allow-Origin") != "" || r.Header.Get("Set-Cookie") != "" {
		t.Errorf("%s: %q, %v", r.Request.URL.Path, policy, r.Header)
	}
}

// TestGuarded holds that of all that is let in.
func TestGuarded(t *testing.T) {
	d := walled(t)
	for place, method := range places(d) {
		if place == "run/a.md" {
			continue // it writes
		}
		got := ask(t, method, d.Address()+place, `{"file":"","changes":[]}`, func(q *http.Request) { q.Header.Set("Sec-Fetch-Site", "same-origin") })
		if want := 200; got.StatusCode != want && !(place == "nothing" && got.StatusCode == 404) {
			t.Errorf("%s: %s", place, got.Status)
		}
		guarded(t, got)
	}
}

// TestOnlyPages serves the Markdown of the folder and nothing else, however it is
// called.
func TestOnlyPages(t *testing.T) {
	out, dir := t.TempDir(), t.TempDir()
	file(t, out, "secret.md", "# Secret\n")
	for _, name := range []string{"a.md", ".hidden.md", ".git/x.md", "sub/.x/y.md", "data.csv", "a.svg", "key.pem", "sub/b.md"} {
		file(t, dir, name, sheet)
	}
	for at, to := range map[string]string{"link.md": filepath.Join(out, "secret.md"), "up.md": "../" + filepath.Base(out) + "/secret.md", "way": out} {
		if err := os.Symlink(to, filepath.Join(dir, at)); err != nil {
			t.Logf("without the link %s: %v", at, err) // Windows lets few make one; all else holds there too
		}
	}
	d := serve(t, dir)
	for _, name := range []string{".hidden.md", ".git/x.md", "sub/.x/y.md", "data.csv", "a.svg", "key.pem", "link.md", "up.md", "way/secret.md", "../secret.md", "..%2fsecret.md", "%2e%2e/secret.md",
		"sub%2f..%2f..%2fsecret.md", "sub/../a.md", "sub//b.md", "/etc/passwd", "%2fetc%2fpasswd", "a.md%00", "a.md/", `..%5csecret.md`, "C:%5ca.md", "sub", "", "none.md", "a.md.", "A.MD%20"} {
		for _, kind := range []string{"page/", "answer/"} {
			if kind+name == "answer/" {
				continue // the list
			}
			got := ask(t, "GET", d.Address()+kind+name, "", nil)
			if got.StatusCode == 200 || got.StatusCode >= 500 || strings.Contains(text(t, got), "Secret") {
				t.Errorf("%s%s: %s", kind, name, got.Status)
			}
			guarded(t, got)
		}
		for _, act := range []string{"try/", "keep/", "undo/", "run/"} {
			if got := ask(t, "POST", d.Address()+act+name, `{"changes":[]}`, nil); got.StatusCode == 200 || got.StatusCode >= 500 {
				t.Errorf("%s%s: %s", act, name, got.Status)
			}
		}
	}
	for _, name := range []string{"a.md", "sub/b.md"} {
		if got := ask(t, "GET", d.Address()+"page/"+name, "", nil); got.StatusCode != 200 {
			t.Errorf("%s: %s", name, got.Status)
		}
	}
	if now, _ := os.ReadFile(filepath.Join(out, "secret.md")); string(now) != "# Secret\n" {
		t.Error("a file outside is written")
	}
}

// TestBounds bounds what is asked: headers, streams, slow questions.
func TestBounds(t *testing.T) {
	d := walled(t)
	if got := ask(t, "GET", d.Address(), "", func(q *http.Request) { q.Header.Set("X-Long", strings.Repeat("x", 40<<10)) }); got.StatusCode != 431 && got.Status != "closed" {
		t.Errorf("a long header: %s", got.Status)
	}
	changes := strings.TrimSuffix(strings.Repeat(`{"name":"mass","text":"1 g"},`, 1000), ",")
	if got := ask(t, "POST", d.Address()+"try/a.md", `{"changes":[`+changes+`]}`, nil); got.StatusCode != 400 {
		t.Errorf("a thousand changes: %s", got.Status)
	}
	var streams []*http.Response
	for range 16 {
		streams = append(streams, ask(t, "GET", d.Address()+"events", "", nil))
	}
	if got := ask(t, "GET", d.Address()+"events", "", nil); got.StatusCode != 503 {
		t.Errorf("one stream too many: %s", got.Status)
	}
	for _, s := range streams {
		s.Body.Close()
	}
	released(t, d)
	if testing.Short() {
		return
	}
	c, err := net.Dial("tcp", strings.TrimPrefix(origin(d), "http://"))
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	fmt.Fprint(c, "GET / HTTP/1.1\r\nHost: ")
	c.SetReadDeadline(time.Now().Add(20 * time.Second))
	if _, err := io.Copy(io.Discard, c); err != nil {
		t.Errorf("a question that does not end keeps its connection: %v", err)
	}
}

// TestDoor lets one browser in, once, and tells no program's command line the key.
func TestDoor(t *testing.T) {
	d := walled(t)
	key := d.Address()[len(origin(d))+1 : len(d.Address())-1]
	file := string(d.Door("page/a.md"))
	at := regexp.MustCompile(`http://127[^"]*`).FindString(file)
	if strings.Contains(file, key) || at == "" {
		t.Fatalf("the file says %q", file)
	}
	from := func(q *http.Request) {
		q.Header.Set("Sec-Fetch-Site", "cross-site")
		q.Header.Set("Sec-Fetch-Mode", "navigate")
		q.Header.Set("Sec-Fetch-Dest", "document")
	}
	for name, change := range map[string]func(*http.Request){
		"a script":     func(q *http.Request) { q.Header.Set("Sec-Fetch-Mode", "cors") },
		"a frame":      func(q *http.Request) { from(q); q.Header.Set("Sec-Fetch-Dest", "iframe") },
		"another name": func(q *http.Request) { q.Host = "rebound.example" },
		"another key":  func(q *http.Request) { q.URL.Path = "/open/" + strings.Repeat("0", 32) },
		"none":         func(q *http.Request) { q.URL.Path = "/open/" },
	} {
		got := ask(t, "GET", at, "", change)
		if guarded(t, got); got.StatusCode == 200 {
			t.Errorf("%s is let in", name)
		}
	}
	got := ask(t, "GET", at, "", from)
	if guarded(t, got); got.StatusCode != 200 || !strings.Contains(text(t, got), d.Address()+"page/a.md") {
		t.Errorf("it leads to %s", got.Status)
	}
	if got := ask(t, "GET", at, "", from); got.StatusCode == 200 {
		t.Error("it opens twice")
	}
}

// TestConnectionsBounded lets nobody use up the files of the machine.
func TestConnectionsBounded(t *testing.T) {
	d := walled(t)
	at := strings.TrimPrefix(origin(d), "http://")
	var idle []net.Conn
	for range 64 {
		c, err := net.Dial("tcp", at)
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close()
		idle = append(idle, c)
	}
	answers := make(chan error, 1)
	go func() {
		c, err := net.Dial("tcp", at)
		if err == nil {
			defer c.Close()
			fmt.Fprintf(c, "GET / HTTP/1.1\r\nHost: %s\r\nConnection: close\r\n\r\n", at)
			_, err = io.ReadAll(c)
		}
		answers <- err
	}()
	select {
	case <-answers:
		t.Error("one connection too many is served")
	case <-time.After(300 * time.Millisecond):
	}
	for _, c := range idle {
		c.Close()
	}
	if err := <-answers; err != nil {
		t.Error(err)
	}
}

// released waits until no stream is open.
func released(t testing.TB, d *desk.Desk) {
	t.Helper()
	for range 200 {
		if d.Streams() == 0 {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Errorf("%d streams stay open", d.Streams())
}

// TestNothingOfOthers tells nobody of what is outside of the desk's folder, though
// its pages may use it.
func TestNothingOfOthers(t *testing.T) {
	dir := t.TempDir()
	file(t, dir, "parts.md", "```working\nspar = 12 g\n```\n")
	file(t, dir, "notes/a.md", "```working\nuse \"../parts.md\"\nm = 2 * parts.spar\n```\n")
	d := serveWithin(t, dir, "notes")
	got := text(t, ask(t, "GET", d.Address()+"page/a.md", "", nil))
	if !strings.Contains(got, "24") {
		t.Errorf("the page does not use what lies above: %s", got[max(0, len(got)-2000):])
	}
	for _, name := range []string{"page/parts.md", "page/../parts.md", "page/notes/a.md"} {
		if got := ask(t, "GET", d.Address()+name, "", nil); got.StatusCode == 200 && got.Request.URL.Path == name {
			t.Errorf("%s: %s", name, got.Status)
		}
	}
	if list := text(t, ask(t, "GET", d.Address(), "", nil)); strings.Contains(list, "parts.md") || !strings.Contains(list, `href=page/a.md`) {
		t.Error("the list is not that of the folder")
	}
}
