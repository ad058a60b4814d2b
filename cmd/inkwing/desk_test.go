//go:build unix

package main

import (
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
)

// A listener keeps what is printed, for somebody who reads along.
type listener struct {
	mu   sync.Mutex
	text strings.Builder
}

func (l *listener) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.Write(p)
}

func (l *listener) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.String()
}

// TestDeskEnds serves a folder, and ends by Ctrl-C though a stream is open.
func TestDeskEnds(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "a.md"), []byte("```working\na = 1 V\n```\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	var stdout, stderr listener
	ended := make(chan int, 1)
	go func() {
		ended <- run([]string{"desk", filepath.Join(dir, "a.md")}, strings.NewReader(""), &stdout, &stderr)
	}()
	address := ""
	for range 500 {
		if address = regexp.MustCompile(`http://127\.0\.0\.1:\d+/[0-9a-f]{32}/`).FindString(stdout.String()); address != "" {
			break
		}
		time.Sleep(10 * time.Millisecond)
	}
	if !strings.Contains(stdout.String(), address+"page/a.md\n") {
		t.Errorf("it says %q", stdout.String())
	}
	got, err := http.Get(address + "events")
	if err != nil || got.StatusCode != http.StatusOK {
		t.Fatalf("%v, %q, %q", err, stdout.String(), stderr.String())
	}
	defer got.Body.Close()
	syscall.Kill(os.Getpid(), syscall.SIGINT)
	select {
	case status := <-ended:
		if status != signalled+int(syscall.SIGINT) || stderr.String() != "" {
			t.Errorf("status %d, %q", status, stderr.String())
		}
	case <-time.After(10 * time.Second):
		t.Fatal("it does not end")
	}
	if _, err := http.Get(address); err == nil {
		t.Error("it still listens")
	}
}
