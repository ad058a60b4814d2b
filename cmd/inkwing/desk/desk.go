// Package desk serves the worksheets of a folder to the browser beside it: pages to
// read that follow each save, where values are tried and kept.
//
// [New] is a desk over a folder, [Desk.Serve] serves it until its context is done.
// It listens on this machine alone, at an address that nobody guesses; see walls.go
// for whom it lets in. What a page comes to is worked by worksheet/reading; here is
// who asks, and when a file was saved.
package desk

import (
	"context"
	"errors"
	"io"
	"log"
	"net"
	"net/http"
	"sync"
	"time"

	"golang.org/x/net/netutil"

	"inkwing/cmd/inkwing/disk"
	"inkwing/evaluate"
)

// A Config is what a desk is over.
type Config struct {
	Folder *disk.Folder // the root out of which nothing is read
	Base   string       // its path
	Within string       // the desk's folder from there, with slashes; "." for all of it
	Title  string       // what the list of pages is called
	// Bound bounds the working of a page by its time and memory.
	Bound func(context.Context) (context.Context, func())
}

// A Desk is a folder that is served.
type Desk struct {
	Config
	key  string
	host string // as a browser says it: 127.0.0.1 and the port
	door door
	hub  hub

	mu    sync.Mutex
	seats map[string]*seat // the pages that are open, by name from the root
	turn  chan struct{}    // a place for each page that is worked at a time
	memo  *evaluate.Memo
	list  *list
	watch *watcher
	blind bool // for tests: the system tells nothing of what is saved
}

// atOnce is how many pages are worked at a time.
const atOnce = 2

// New makes a desk. Nothing is read yet.
func New(c Config) *Desk {
	d := &Desk{Config: c, key: newKey(), seats: map[string]*seat{}, turn: make(chan struct{}, atOnce), memo: evaluate.NewMemo()}
	d.list = newList(d)
	return d
}

// Listen takes a free port of this machine.
func (d *Desk) Listen() (net.Listener, error) {
	l, err := net.Listen("tcp4", "127.0.0.1:0")
	if err == nil {
		d.host = l.Addr().String()
	}
	return l, err
}

// Address is where a browser finds the list of pages.
func (d *Desk) Address() string { return "http://" + d.host + "/" + d.key + "/" }

// maxConnections bounds what is open at a time.
const maxConnections = 64

// Serve serves the folder and follows its files, until ctx is done.
func (d *Desk) Serve(ctx context.Context, l net.Listener) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	following := make(chan struct{})
	d.watch = newWatcher(d)
	go func() {
		defer close(following)
		d.watch.follow(ctx)
	}()
	go d.list.follow(ctx)
	s := &http.Server{Handler: d.walled(d.routes()), MaxHeaderBytes: maxHeader, ReadHeaderTimeout: 5 * time.Second,
		ReadTimeout: 30 * time.Second, IdleTimeout: time.Minute, ErrorLog: log.New(io.Discard, "", 0),
		BaseContext: func(net.Listener) context.Context { return ctx }}
	ended := make(chan error, 1)
	go func() { ended <- s.Serve(netutil.LimitListener(l, maxConnections)) }()
	var err error
	select {
	case err = <-ended:
	case <-ctx.Done():
	}
	cancel()
	s.Close()
	<-following
	if errors.Is(err, http.ErrServerClosed) {
		return nil
	}
	return err
}

func (d *Desk) routes() http.Handler {
	m := http.NewServeMux()
	m.HandleFunc("GET /{$}", d.index)
	m.HandleFunc("GET /page/{name...}", d.page)
	m.HandleFunc("GET /answer/{name...}", d.answer)
	m.HandleFunc("GET /events", d.events)
	m.HandleFunc("POST /try/{name...}", d.act(d.try))
	m.HandleFunc("POST /keep/{name...}", d.act(d.keep))
	m.HandleFunc("POST /undo/{name...}", d.act(d.undo))
	m.HandleFunc("POST /run/{name...}", d.act(d.run))
	m.HandleFunc("/", func(w http.ResponseWriter, _ *http.Request) { refuse(w, http.StatusNotFound) })
	return m
}
