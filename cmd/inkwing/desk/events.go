package desk

import (
	"encoding/json"
	"net/http"
	"sync"
	"time"

	"inkwing/worksheet/reading"
)

// An event tells the open pages what was saved.
type event struct {
	Page string `json:"page"` // from the desk's folder; empty for the list of all
	// Since is the state that the answer begins from; a page in another state asks,
	// and so does each one where there is no answer.
	Since  string          `json:"since,omitempty"`
	Answer *reading.Answer `json:"answer,omitempty"`
	// Moved is what is told at a glance, before the answer: how results moved from that state, the
	// first few of that many.
	Moved []reading.Value `json:"moved,omitempty"`
	Count int             `json:"count,omitempty"`
}

const (
	maxStreams = 16
	backlog    = 32               // events that a slow stream may be behind
	beat       = 15 * time.Second // how soon a stream that is gone is noticed
	patience   = 10 * time.Second // for one write to a stream
)

// A hub passes events on to the streams that are open.
type hub struct {
	mu      sync.Mutex
	streams map[chan []byte]bool
}

// join opens a stream; nil if there are too many.
func (h *hub) join() chan []byte {
	h.mu.Lock()
	defer h.mu.Unlock()
	if len(h.streams) >= maxStreams {
		return nil
	}
	c := make(chan []byte, backlog)
	if h.streams == nil {
		h.streams = map[chan []byte]bool{}
	}
	h.streams[c] = true
	return c
}

func (h *hub) leave(c chan []byte) {
	h.mu.Lock()
	defer h.mu.Unlock()
	delete(h.streams, c)
}

// open counts the streams.
func (h *hub) open() int {
	h.mu.Lock()
	defer h.mu.Unlock()
	return len(h.streams)
}

// send passes an event on. A stream that is too far behind is closed: its browser
// opens another, and then asks.
func (h *hub) send(e event) {
	text, err := json.Marshal(e)
	if err != nil {
		panic(err) // texts and numbers only
	}
	h.mu.Lock()
	defer h.mu.Unlock()
	for c := range h.streams {
		select {
		case c <- text:
		default:
			delete(h.streams, c)
			close(c)
		}
	}
}

// events is a stream of what is saved (HTML, server-sent events).
func (d *Desk) events(w http.ResponseWriter, q *http.Request) {
	c := d.hub.join()
	if c == nil {
		refuse(w, http.StatusServiceUnavailable)
		return
	}
	defer d.hub.leave(c)
	w.Header().Set("Content-Type", "text/event-stream")
	out := http.NewResponseController(w)
	out.SetReadDeadline(time.Time{}) // nothing more is read; the bound was for the question
	write := func(text string) bool {
		out.SetWriteDeadline(time.Now().Add(patience))
		_, err := w.Write([]byte(text))
		return err == nil && out.Flush() == nil
	}
	tick := time.NewTicker(beat)
	defer tick.Stop()
	for ok := write("retry: 1000\n\n"); ok; {
		select {
		case <-q.Context().Done():
			return
		case text, more := <-c:
			ok = more && write("data: "+string(text)+"\n\n")
		case <-tick.C:
			ok = write(": \n\n")
		}
	}
}
