package desk

import (
	"bytes"
	"context"
	"errors"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"
	"sync"
	"time"

	"inkwing/worksheet/reading"
)

// A seat is a page that is open.
type seat struct {
	name string // from the root
	room *reading.Room

	acts  sync.Mutex // what is written into the page's file is written in turn
	mu    sync.Mutex
	text  []byte // as the room has it
	gone  bool
	told  string    // the state that was last told to all
	since time.Time // when it was last asked for
	kept  []keep    // what can be taken back, the last one last
}

// A keep is what was kept, and what stood there.
type keep struct{ put, back []reading.Change }

// mostSeats bounds the pages that are held open; what was asked for least lately goes.
const mostSeats = 32

// rooted is a name from the root; false for what the desk does not serve: files
// that are no Markdown, hidden ones, and those outside of its folder.
func (d *Desk) rooted(name string) (string, bool) { return d.rootedAs(name, ".md") }

// rootedAs is rooted for files with that ending.
func (d *Desk) rootedAs(name, ending string) (string, bool) {
	clean := path.Clean(name)
	hidden := slices.ContainsFunc(strings.Split(clean, "/"), func(part string) bool { return strings.HasPrefix(part, ".") })
	if clean != name || hidden || !fs.ValidPath(clean) || !strings.EqualFold(path.Ext(clean), ending) || strings.ContainsAny(clean, "\\\x00") {
		return "", false
	}
	return path.Join(d.Within, clean), true
}

// serves reports whether a file, by its name from the root, is a page of the desk.
func (d *Desk) serves(name string) bool {
	again, ok := d.rooted(d.shown(name))
	return ok && again == name
}

// writes reports whether values may be kept in a file, by its name from the root: in
// its pages and in the data that they use.
func (d *Desk) writes(name string) bool {
	again, ok := d.rootedAs(d.shown(name), ".csv")
	return d.serves(name) || ok && again == name
}

// shown is a name from the root as the desk's pages have it.
func (d *Desk) shown(name string) string {
	if d.Within == "." {
		return name
	}
	return strings.TrimPrefix(name, d.Within+"/")
}

// sit is the seat of a page, which is opened if it is not.
func (d *Desk) sit(name string) (*seat, error) {
	d.mu.Lock()
	s := d.seats[name]
	if s != nil {
		s.since = time.Now()
	}
	d.mu.Unlock()
	if s != nil {
		return s, nil
	}
	text, err := d.Folder.Read(name)
	if err != nil {
		return nil, err
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if s := d.seats[name]; s != nil {
		return s, nil
	}
	if len(d.seats) >= mostSeats {
		oldest := slices.MinFunc(slices.Collect(maps.Values(d.seats)), func(a, b *seat) int { return a.since.Compare(b.since) })
		delete(d.seats, oldest.name)
	}
	s = &seat{name: name, text: text, since: time.Now(), room: d.roomOf(name, text)}
	d.seats[name] = s
	return s, nil
}

// roomOf opens a room for a page.
func (d *Desk) roomOf(name string, text []byte) *reading.Room {
	return reading.Open(d.Folder, name, text, reading.Options{Link: d.links(name), Memo: d.memo})
}

// links leads a link of a page to another page of the desk.
func (d *Desk) links(name string) func(string) (string, bool) {
	return func(file string) (string, bool) {
		to := path.Join(path.Dir(name), file)
		if !d.serves(to) {
			return file, false
		}
		_, err := d.Folder.Read(to)
		return file, err == nil // the desk's addresses lie as its files do
	}
}

// open lists the seats.
func (d *Desk) open() []*seat {
	d.mu.Lock()
	defer d.mu.Unlock()
	return slices.SortedFunc(maps.Values(d.seats), func(a, b *seat) int { return strings.Compare(a.name, b.name) })
}

// bounded gives a working its time, its memory, and its turn.
func (d *Desk) bounded(ctx context.Context) (context.Context, func(), error) {
	select {
	case d.turn <- struct{}{}:
	case <-ctx.Done():
		return nil, nil, context.Cause(ctx)
	}
	release := func() {}
	if d.Bound != nil {
		ctx, release = d.Bound(ctx)
	}
	return ctx, func() { release(); <-d.turn }, nil
}

// work works a page with what is tried, for a reader with that state.
func (d *Desk) work(ctx context.Context, s *seat, since string, changes []reading.Change) (*reading.Answer, error) {
	ctx, done, err := d.bounded(ctx)
	if err != nil {
		return nil, err
	}
	defer done()
	return s.room.Work(ctx, since, changes)
}

// look reads a page's file again and reports whether it is another now. One that
// is not there, or empty, may be in the middle of being saved: sure says that it was
// looked at before.
func (d *Desk) look(s *seat, sure bool) (changed, unsure bool) {
	text, err := d.Folder.Read(s.name)
	s.mu.Lock()
	defer s.mu.Unlock()
	switch {
	case !sure && (errors.Is(err, fs.ErrNotExist) && !s.gone || err == nil && len(text) == 0 && len(s.text) > 0):
		return false, true
	case err != nil:
		changed, s.gone = !s.gone, true
		s.room.Lose(err.Error())
		return changed, false
	case s.gone || !bytes.Equal(text, s.text):
		s.save(text)
		return true, false
	}
	return false, false
}

// save says what the file holds now.
func (s *seat) save(text []byte) {
	s.text, s.gone = text, false
	s.room.Save(text)
}

// again has the page worked anew: something that it uses was saved.
func (s *seat) again() {
	s.mu.Lock()
	defer s.mu.Unlock()
	if !s.gone {
		s.room.Save(s.text)
	}
}

// tell tells all what is otherwise on a page than it was when they were last told.
func (d *Desk) tell(ctx context.Context, s *seat) {
	s.mu.Lock()
	since := s.told
	s.mu.Unlock()
	if since == "" {
		return // nobody has seen it
	}
	d.glance(ctx, s, since)
	a, err := d.work(ctx, s, since, nil)
	if err != nil {
		d.hub.send(event{Page: d.shown(s.name)})
		return
	}
	s.mu.Lock()
	s.told = a.Stamp
	s.mu.Unlock()
	if a.Stamp != since {
		d.hub.send(event{Page: d.shown(s.name), Since: since, Answer: a})
	}
}

// glance tells how results moved by what was saved, as soon as that is known: all of it takes a
// few times as long.
func (d *Desk) glance(ctx context.Context, s *seat, since string) {
	if d.hub.open() == 0 {
		return
	}
	ctx, done, err := d.bounded(ctx)
	if err != nil {
		return
	}
	defer done()
	if moved := s.room.Moved(ctx); len(moved) > 0 {
		const few = 4
		d.hub.send(event{Page: d.shown(s.name), Since: since, Moved: moved[:min(few, len(moved))], Count: len(moved)})
	}
}
