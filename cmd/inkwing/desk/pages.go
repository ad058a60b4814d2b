package desk

import (
	"encoding/json"
	"errors"
	"html"
	"io/fs"
	"net/http"
	"strings"

	_ "embed"

	"inkwing/worksheet/page"
	"inkwing/worksheet/reading"
)

//go:embed desk.js
var script string

//go:embed desk.css
var style string

// frame is what stands round a page: the way back, and what can be done with it.
func (d *Desk) frame(before string) page.Frame {
	return page.Frame{Before: before, Script: script, Style: style, Policy: "connect-src 'self'"}
}

// index is the list of all pages.
func (d *Desk) index(w http.ResponseWriter, q *http.Request) {
	a := d.list.answer(q.Context(), "")
	sendPage(w, reading.Frame(d.frame("")), a)
}

// page is a worksheet as a page.
func (d *Desk) page(w http.ResponseWriter, q *http.Request) {
	s, ok := d.seatOf(w, q)
	if !ok {
		return
	}
	if changed, _ := d.look(s, false); changed { // it is opened before its save was noticed
		d.tell(q.Context(), s)
	}
	a, err := d.work(q.Context(), s, "", nil)
	if err != nil {
		sorry(w, err)
		return
	}
	s.mu.Lock()
	s.told = a.Stamp
	s.mu.Unlock()
	d.watch.also(s.room.Files())
	up := strings.Repeat("../", strings.Count(q.PathValue("name"), "/")+1)
	bar := `<nav class="back" aria-label="Desk"><a href="` + up + `">All pages</a><span class="file">` + html.EscapeString(d.shown(s.name)) + `</span><span id="desk-acts"></span></nav>` + "\n"
	sendPage(w, reading.Frame(d.frame(bar)), a)
}

// sendPage sends a whole page. Its policy is that of the file, and no frame is let
// around it.
func sendPage(w http.ResponseWriter, f page.Frame, a *reading.Answer) {
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Content-Security-Policy", page.Policy(f)+"; frame-ancestors 'none'")
	w.Write(a.Document(f))
}

// answer is how a page stands, for a reader who has an older state of it.
func (d *Desk) answer(w http.ResponseWriter, q *http.Request) {
	since := q.URL.Query().Get("since")
	if q.PathValue("name") == "" {
		send(w, http.StatusOK, said{Answer: d.list.answer(q.Context(), since)})
		return
	}
	s, ok := d.seatOf(w, q)
	if !ok {
		return
	}
	a, err := d.work(q.Context(), s, since, nil)
	if err != nil {
		sorry(w, err)
		return
	}
	send(w, http.StatusOK, s.say(a, ""))
}

// seatOf is the seat that a question is about. Where there is none it is refused.
func (d *Desk) seatOf(w http.ResponseWriter, q *http.Request) (*seat, bool) {
	name, ok := d.rooted(q.PathValue("name"))
	if !ok {
		refuse(w, http.StatusNotFound)
		return nil, false
	}
	s, err := d.sit(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		refuse(w, http.StatusNotFound)
	case err != nil:
		refuse(w, http.StatusForbidden)
	}
	return s, err == nil
}

// A said is an answer with what the desk has to say beside it.
type said struct {
	*reading.Answer
	Undo string `json:"undo,omitempty"` // what can be taken back
	Says string `json:"says,omitempty"` // what became of an act
}

// say puts beside an answer what can be taken back.
func (s *seat) say(a *reading.Answer, says string) said {
	s.mu.Lock()
	defer s.mu.Unlock()
	x := said{Answer: a, Says: says}
	if n := len(s.kept); n > 0 {
		x.Undo = s.kept[n-1].String()
	}
	return x
}

// String says what taking a keep back would do.
func (k keep) String() string {
	var parts []string
	for i, c := range k.put {
		parts = append(parts, c.Name+" "+c.Text+" → "+k.back[i].Text)
	}
	return strings.Join(parts, ", ")
}

func send(w http.ResponseWriter, status int, what any) {
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	json.NewEncoder(w).Encode(what)
}

// sorry says why something could not be done.
func sorry(w http.ResponseWriter, err error) {
	send(w, http.StatusServiceUnavailable, map[string]string{"sorry": err.Error()})
}
