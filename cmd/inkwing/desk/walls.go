package desk

import (
	"crypto/rand"
	"crypto/subtle"
	"encoding/hex"
	"mime"
	"net/http"
	"strings"
)

// The bounds of what is asked.
const (
	maxHeader = 16 << 10
	maxBody   = 1 << 20
)

// newKey is a secret that nobody guesses: 128 random bits. It stands in the path,
// since browsers send a cookie to every port of a machine.
func newKey() string {
	var b [16]byte
	rand.Read(b[:])
	return hex.EncodeToString(b[:])
}

// walled lets in the reader's own browser at this address, and nobody else: not
// another page in that browser, not another user of the machine, not a name that
// somebody made lead here. Every answer has the same headers, refusals too.
func (d *Desk) walled(inside http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, q *http.Request) {
		headers(w.Header())
		switch status := d.refuses(q); {
		case d.passes(q):
			d.lead(w)
		case status != 0:
			refuse(w, status)
		default:
			q.Body = http.MaxBytesReader(w, q.Body, maxBody)
			http.StripPrefix("/"+d.key, inside).ServeHTTP(w, q)
		}
	})
}

// refuses is the status by which a question is refused, 0 for none.
func (d *Desk) refuses(q *http.Request) int {
	switch {
	case q.Host != d.host:
		return http.StatusMisdirectedRequest
	case !d.isKeyed(q.URL.Path):
		return http.StatusNotFound
	case !d.isOwn(q):
		return http.StatusForbidden
	}
	switch q.Method {
	case http.MethodGet, http.MethodHead:
		return 0
	case http.MethodPost:
		return d.refusesAct(q)
	}
	return http.StatusMethodNotAllowed
}

// isKeyed reports whether a path begins with the key, without telling by its time
// how much of it was right.
func (d *Desk) isKeyed(path string) bool {
	key, _, _ := strings.Cut(strings.TrimPrefix(path, "/"), "/")
	return subtle.ConstantTimeCompare([]byte(key), []byte(d.key)) == 1
}

// isOwn reports whether a question comes from a page of the desk, or from nowhere:
// an address that was typed. Browsers say so (Fetch Metadata, RFC 6454).
func (d *Desk) isOwn(q *http.Request) bool {
	if origin, said := q.Header["Origin"]; said && (len(origin) != 1 || origin[0] != "http://"+d.host) {
		return false
	}
	switch q.Header.Get("Sec-Fetch-Site") {
	case "", "same-origin":
		return true
	case "none":
		return q.Method != http.MethodPost
	}
	return false
}

// refusesAct holds an act to more than reading: it says its origin, and a form of
// another page cannot send its kind of content.
func (d *Desk) refusesAct(q *http.Request) int {
	kind, _, err := mime.ParseMediaType(q.Header.Get("Content-Type"))
	switch {
	case q.Header.Get("Origin") != "http://"+d.host:
		return http.StatusForbidden
	case err != nil || kind != "application/json":
		return http.StatusUnsupportedMediaType
	}
	return 0
}

// headers stand on every answer.
func headers(h http.Header) {
	h.Set("Content-Security-Policy", "default-src 'none'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'")
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("X-Frame-Options", "DENY")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cache-Control", "no-store")
}

// refuse says no, and nothing of what there is.
func refuse(w http.ResponseWriter, status int) {
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	w.WriteHeader(status)
	w.Write([]byte(http.StatusText(status) + "\n"))
}
