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
	pending, unsure := map[string]bool{}, map[string]bool{}
	var first time.Time
	timer, later := stopped(), stopped()
	note := func(name string) {
		if len(pending) == 0 {
			first = time.Now()
		}
		pending[name] = true
		timer.Reset(max(0, min(quiet, time.Until(first.Add(longest)))))
	}
	for {
		select {
		case <-ctx.Done():
			return
		case e := <-events:
			for _, name := range w.noticed(e) {
				note(name)
			}
		case <-faults:
			w.lost() // events were dropped: everything is looked at
			for _, s := range w.desk.open() {
				note(s.name)
			}
		case <-tick.C:
			for _, name := range w.sweep() {
				note(name)
			}
		case <-timer.C:
			for name := range w.desk.settle(ctx, pending, false) {
				unsure[name] = true
				later.Reset(unsureFor)
			}
			pending = map[string]bool{}
		case <-later.C:
			w.desk.settle(ctx, unsure, true)
			unsure = map[string]bool{}
		}
	}
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
	for _, s := range w.desk.open() {
		for _, f := range append(s.room.Files(), s.name) {
			if w.isOther(f) {
				names = append(names, f)
			}
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
		changed := false
		if saved[s.name] {
			var not bool
			if changed, not = d.look(s, sure); not {
				unsure[s.name] = true
				continue
			}
		}
		for name := range saved {
			if name != s.name && s.room.Uses(name) {
				s.again()
				changed = true
			}
		}
		if changed {
			d.tell(ctx, s)
			d.watch.also(s.room.Files())
		}
	}
	d.list.saved(saved)
	return unsure
}

// orphans tells those who have a page open that is no longer held here: they ask.
func (d *Desk) orphans(saved map[string]bool) {
	d.mu.Lock()
	defer d.mu.Unlock()
	for name := range saved {
		if _, served := d.rooted(d.shown(name)); served && d.seats[name] == nil {
			d.hub.send(event{Page: d.shown(name)})
		}
	}
}
