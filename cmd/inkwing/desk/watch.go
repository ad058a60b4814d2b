package desk

import (
	"context"
	"hash/fnv"
	"os"
	"path"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"github.com/fsnotify/fsnotify"
)

// A watcher notices what is saved below the desk's folder, and wherever else the
// open pages read from. Where the system tells nothing, it looks for itself.
type watcher struct {
	desk   *Desk
	notify *fsnotify.Watcher // nil where the system has none to give

	mu      sync.Mutex
	folders map[string]bool   // those that are watched, from the root
	blind   bool              // some could not be
	held    map[string]uint64 // what files held when they were last looked at
}

const (
	mostFolders = 2000
	// quiet is how long nothing more must be saved before it is read: an editor
	// saves in several steps.
	quiet = 15 * time.Millisecond
	// longest is how long a burst of saves may put that off.
	longest = 150 * time.Millisecond
	// unsureFor is how long a file may be gone or empty while it is saved.
	unsureFor = 120 * time.Millisecond
	// sweep is how often files are looked at where the system does not tell.
	sweep = time.Second
)

func newWatcher(d *Desk) *watcher {
	w := &watcher{desk: d, folders: map[string]bool{}, held: map[string]uint64{}}
	if w.blind = d.blind; !w.blind {
		var err error
		w.notify, err = fsnotify.NewWatcher()
		w.blind = err != nil
	}
	w.tree(d.Within)
	return w
}

// tree watches a folder and all below it, and gives the Markdown files there.
func (w *watcher) tree(under string) []string {
	files, folders := w.desk.Folder.Walk(under, ".md", mostFolders)
	for _, f := range folders {
		w.add(f)
	}
	return files
}

// also watches the folders of some files, which lie anywhere below the root.
func (w *watcher) also(files []string) {
	if w == nil {
		return
	}
	for _, f := range files {
		w.add(path.Dir(path.Clean(f)))
	}
}

func (w *watcher) add(folder string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.folders[folder] || w.notify == nil {
		return
	}
	at := filepath.Join(w.desk.Base, filepath.FromSlash(folder))
	if len(w.folders) >= mostFolders || w.notify.Add(at) != nil {
		if _, err := os.Stat(at); err == nil {
			w.blind = true
		}
		return
	}
	w.folders[folder] = true
}

// follow passes on what is saved until ctx is done.
func (w *watcher) follow(ctx context.Context) {
	var events chan fsnotify.Event
	var faults chan error
	if w.notify != nil {
		defer w.notify.Close()
		events, faults = w.notify.Events, w.notify.Errors
	}
	tick := time.NewTicker(sweep)
	defer tick.Stop()
	b := newBurst(w.desk)
	for {
		select {
		case <-ctx.Done():
			return
		case e := <-events:
			b.note(w.noticed(e))
		case <-faults: // events were dropped: everything is looked at
			w.lost()
			b.note(w.opened())
		case <-tick.C:
			b.note(w.sweep())
		case <-b.quiet.C:
			b.settle(ctx)
		case <-b.later.C:
			b.settleUnsure(ctx)
		}
	}
}

// A burst is saves that come close together: an editor saves in several steps.
type burst struct {
	desk   *Desk
	saved  map[string]bool
	unsure map[string]bool // those that may be in the middle of being saved
	first  time.Time
	quiet  *time.Timer // runs out once nothing more was saved for a while
	later  *time.Timer // runs out once the unsure are to be looked at again
}

func newBurst(d *Desk) *burst {
	return &burst{desk: d, saved: map[string]bool{}, unsure: map[string]bool{}, quiet: stopped(), later: stopped()}
}

// note puts off looking, but not for ever.
func (b *burst) note(names []string) {
	for _, name := range names {
		if len(b.saved) == 0 {
			b.first = time.Now()
		}
		b.saved[name] = true
		b.quiet.Reset(max(0, min(quiet, time.Until(b.first.Add(longest)))))
	}
}

func (b *burst) settle(ctx context.Context) {
	for name := range b.desk.settle(ctx, b.saved, false) {
		b.unsure[name] = true
		b.later.Reset(unsureFor)
	}
	b.saved = map[string]bool{}
}

func (b *burst) settleUnsure(ctx context.Context) {
	b.desk.settle(ctx, b.unsure, true)
	b.unsure = map[string]bool{}
}

// opened are the files of the open pages.
func (w *watcher) opened() (names []string) {
	for _, s := range w.desk.open() {
		names = append(append(names, s.room.Files()...), s.name)
	}
	return names
}

func stopped() *time.Timer {
	t := time.NewTimer(time.Hour)
	t.Stop()
	return t
}

// noticed are the files that an event is about. A folder that is new is watched,
// and what lies in it counts as saved.
func (w *watcher) noticed(e fsnotify.Event) []string {
	rel, err := filepath.Rel(w.desk.Base, e.Name)
	if err != nil || e.Op == fsnotify.Chmod || e.Name == "" {
		return nil
	}
	name := filepath.ToSlash(rel)
	if strings.HasPrefix(path.Base(name), ".") {
		return nil // an editor's own, and ours while we write
	}
	if e.Has(fsnotify.Create) {
		if info, err := os.Lstat(e.Name); err == nil && info.IsDir() {
			return w.tree(name)
		}
	}
	if e.Has(fsnotify.Remove) || e.Has(fsnotify.Rename) {
		w.mu.Lock()
		delete(w.folders, name)
		w.mu.Unlock()
	}
	return []string{name}
}

func (w *watcher) lost() {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.blind = true
}

// sweep looks at the files of the open pages where the system does not tell.
func (w *watcher) sweep() (names []string) {
	w.mu.Lock()
	blind := w.blind
	w.mu.Unlock()
	if !blind {
		return nil
	}
	for _, f := range w.opened() {
		if w.isOther(f) {
			names = append(names, f)
		}
	}
	return names
}

// isOther reports whether a file holds something else than when it was last looked
// at.
func (w *watcher) isOther(name string) bool {
	h := fnv.New64a()
	text, err := w.desk.Folder.Read(name)
	if err == nil {
		h.Write(text)
	}
	before, known := w.held[name]
	w.held[name] = h.Sum64()
	return known && before != w.held[name]
}

// settle brings the open pages up to what was saved. It gives the files that may be
// in the middle of being saved.
func (d *Desk) settle(ctx context.Context, saved map[string]bool, sure bool) (unsure map[string]bool) {
	unsure = map[string]bool{}
	d.orphans(saved)
	for _, s := range d.open() {
		changed, not := d.renew(s, saved, sure)
		if not {
			unsure[s.name] = true
		}
		if changed {
			d.tell(ctx, s)
			d.watch.also(s.room.Files())
		}
	}
	d.list.saved(saved)
	return unsure
}

// renew brings one page up to what was saved.
func (d *Desk) renew(s *seat, saved map[string]bool, sure bool) (changed, unsure bool) {
	if saved[s.name] {
		if changed, unsure = d.look(s, sure); unsure {
			return false, true
		}
	}
	for name := range saved {
		if name != s.name && s.room.Uses(name) {
			s.again()
			return true, false
		}
	}
	return changed, false
}

// orphans tells those who have a page open that is no longer held here: they ask.
func (d *Desk) orphans(saved map[string]bool) {
	d.mu.Lock()
	defer d.mu.Unlock()
	for name := range saved {
		if d.serves(name) && d.seats[name] == nil {
			d.hub.send(event{Page: d.shown(name)})
		}
	}
}
