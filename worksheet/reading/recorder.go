package reading

import (
	"maps"
	"path"
	"slices"
	"sync"

	"inkwing/worksheet"
)

// A recorder passes on what is asked of Files, and keeps what was asked for: a file
// that was not there may come.
type recorder struct {
	files worksheet.Files
	mu    sync.Mutex
	seen  map[string]bool
}

// mostSeen bounds what is kept of a page that looks for ever more files.
const mostSeen = 10000

func (r *recorder) Read(name string) ([]byte, error) {
	r.mu.Lock()
	if len(r.seen) < mostSeen {
		r.seen[path.Clean(name)] = true
	}
	r.mu.Unlock()
	return r.files.Read(name)
}

func (r *recorder) List(folder string) ([]string, error) { return r.files.List(folder) }

func (r *recorder) has(name string) bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.seen[name]
}

func (r *recorder) names() []string {
	r.mu.Lock()
	defer r.mu.Unlock()
	return slices.Sorted(maps.Keys(r.seen))
}

// A taken passes on what is asked of Files, and keeps a stamp of what each file held.
type taken struct {
	worksheet.Files
	stamps map[string]string
}

func (t *taken) Read(name string) ([]byte, error) {
	text, err := t.Files.Read(name)
	t.stamps[path.Clean(name)] = stampOf(text, err)
	return text, err
}

// stampOf is the stamp of what a file holds; empty where it cannot be read.
func stampOf(text []byte, err error) string {
	if err != nil {
		return ""
	}
	return stamp(text)
}

// still reports whether the files hold what was taken from them.
func (t *taken) still() bool {
	for name, was := range t.stamps {
		if stampOf(t.Files.Read(name)) != was {
			return false
		}
	}
	return true
}
