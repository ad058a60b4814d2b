package desk_test

import (
	"context"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"inkwing/cmd/inkwing/desk"
	"inkwing/cmd/inkwing/disk"
)

// serve serves a folder until the test ends.
func serve(t testing.TB, dir string) *desk.Desk { return serveWithin(t, dir, ".") }

// serveWithin serves a folder of a root.
func serveWithin(t testing.TB, dir, within string, how ...func(*desk.Desk)) *desk.Desk {
	t.Helper()
	d, _ := serveUntil(t, dir, within, how...)
	return d
}

// serveUntil serves a folder until it is stopped.
func serveUntil(t testing.TB, dir, within string, how ...func(*desk.Desk)) (d *desk.Desk, stop func()) {
	t.Helper()
	folder, err := disk.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	d = desk.New(desk.Config{Folder: folder, Base: dir, Within: within, Title: "Notes"})
	for _, do := range how {
		do(d)
	}
	l, err := d.Listen()
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- d.Serve(ctx, l) }()
	stop = sync.OnceFunc(func() {
		cancel()
		select {
		case err := <-ended:
			if err != nil {
				t.Error(err)
			}
		case <-time.After(10 * time.Second):
			t.Error("the desk does not end")
		}
		folder.Close()
	})
	t.Cleanup(stop)
	return d, stop
}

// file makes a file of a folder.
func file(t testing.TB, dir, name, text string) {
	t.Helper()
	at := filepath.Join(dir, filepath.FromSlash(name))
	if err := os.MkdirAll(filepath.Dir(at), 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(at, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
}
