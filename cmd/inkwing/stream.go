package main

import (
	"fmt"
	"io"
	"math"
	"os"
	"strconv"

	"golang.org/x/term"

	"inkwing/cmd/inkwing/layout"
)

// A stream is standard output or standard error, each judged by itself.
type stream struct {
	w        io.Writer
	terminal bool
	colour   bool
	width    int   // for which text is set
	narrow   bool  // that width was asked for: messages are set for it too
	failed   error // the first error in writing
}

func newStream(w io.Writer, getenv func(string) string) *stream {
	file, ok := w.(*os.File)
	terminal := ok && term.IsTerminal(int(file.Fd()))
	s := &stream{w: w, terminal: terminal, colour: coloured(getenv, terminal), width: layout.Most}
	asked, _ := strconv.Atoi(getenv("COLUMNS"))
	if terminal && asked <= 0 {
		asked, _, _ = term.GetSize(int(file.Fd()))
	}
	if s.narrow = asked > 0; s.narrow {
		s.width = min(max(asked, layout.Least), layout.Most)
	}
	return s
}

// line prints a line, broken at words where a width was asked for: into a pipe one
// line stays one.
func (s *stream) line(text string) {
	width := s.width
	if !s.narrow {
		width = math.MaxInt
	}
	s.printf("%s", layout.Flow([]string{text}, "", "  ", width))
}

// wrap breaks a text into lines behind a margin.
func (s *stream) wrap(text, margin string) string { return layout.Wrap(text, margin, s.width) }

// names sets pairs of a name and a text under one another.
func (s *stream) names(rows [][2]string) string { return layout.Names(rows, s.width) }

// coloured asks FORCE_COLOR first, then NO_COLOR and TERM=dumb, then whether
// there is a terminal. A variable set to nothing counts as not set.
func coloured(getenv func(string) string, terminal bool) bool {
	switch {
	case getenv("FORCE_COLOR") != "":
		return getenv("FORCE_COLOR") != "0"
	case getenv("NO_COLOR") != "", getenv("TERM") == "dumb":
		return false
	}
	return terminal
}

func (s *stream) Write(p []byte) (int, error) {
	n, err := s.w.Write(p)
	if err != nil && s.failed == nil {
		s.failed = fmt.Errorf("the output cannot be written: %w", err)
	}
	return n, err
}

func (s *stream) printf(format string, args ...any) { fmt.Fprintf(s, format, args...) }

func (s *stream) sgr(code, text string) string {
	if !s.colour || text == "" {
		return text
	}
	return "\x1b[" + code + "m" + text + "\x1b[0m"
}

func (s *stream) bold(text string) string   { return s.sgr("1", text) }
func (s *stream) dim(text string) string    { return s.sgr("2", text) }
func (s *stream) red(text string) string    { return s.sgr("31", text) }
func (s *stream) green(text string) string  { return s.sgr("32", text) }
func (s *stream) yellow(text string) string { return s.sgr("33", text) }
