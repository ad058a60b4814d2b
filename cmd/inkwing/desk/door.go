package desk

import (
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base64"
	"html"
	"net/http"
	"strings"
	"sync"
)

// A door lets one browser in without its address standing on a command line, where
// every user of the machine could read it.
type door struct {
	mu   sync.Mutex
	once string // in its address; empty once it was used
	to   string // where it leads
}

// doorPath begins the address of the door.
const doorPath = "/open/"

// Door is a page for a file that only its owner reads: whoever opens it is led in, to
// a place below the desk's address. It works once.
func (d *Desk) Door(place string) []byte {
	d.door.mu.Lock()
	defer d.door.mu.Unlock()
	d.door.once, d.door.to = newKey(), d.Address()+place
	at := html.EscapeString("http://" + d.host + doorPath + d.door.once)
	return []byte("<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"referrer\" content=\"no-referrer\"><title>To the desk</title>" +
		`<meta http-equiv="refresh" content="0;url=` + at + `"></head><body><p><a href="` + at + "\">To the desk</a></p></body></html>\n")
}

// passes reports whether a question is by the door, and shuts it. That it comes from
// a file, and so from elsewhere, is allowed here alone.
func (d *Desk) passes(q *http.Request) bool {
	once, found := strings.CutPrefix(q.URL.Path, doorPath)
	if !found || q.Method != http.MethodGet || q.Host != d.host {
		return false
	}
	if mode := q.Header.Get("Sec-Fetch-Mode"); mode != "" && mode != "navigate" || q.Header.Get("Sec-Fetch-Dest") == "iframe" {
		return false
	}
	d.door.mu.Lock()
	defer d.door.mu.Unlock()
	if d.door.once == "" || subtle.ConstantTimeCompare([]byte(once), []byte(d.door.once)) != 1 {
		return false
	}
	d.door.once = ""
	return true
}

// lead goes on from a page of the desk's own, which is then where the next question
// comes from: a redirection would still come from the file.
func (d *Desk) lead(w http.ResponseWriter) {
	script := `location.replace("` + d.door.to + `")`
	sum := sha256.Sum256([]byte(script))
	w.Header().Set("Content-Security-Policy", "default-src 'none'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'; script-src 'sha256-"+base64.StdEncoding.EncodeToString(sum[:])+"'")
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Write([]byte("<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><title>To the desk</title></head><body><p><a href=\"" + html.EscapeString(d.door.to) +
		"\">To the desk</a></p><script>" + script + "</script></body></html>\n"))
}
