package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"inkwing/evaluate/message"
)

func TestMain(m *testing.M) {
	if _, said := os.LookupEnv("INKWING_CACHE"); !said { // no test reads what this builder's runs know, nor leaves anything there
		os.Setenv("INKWING_CACHE", "off")
	}
	testscript.Main(m, map[string]func(){"inkwing": main})
}

// TestScript runs the command as a builder would.
func TestScript(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Setup: func(e *testscript.Env) error {
			e.Setenv("INKWING_CACHE", "off")
			e.Setenv("NO_COLOR", "")
			e.Setenv("TERM", "")
			e.Setenv("ESC", "\x1b")
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"append": appendLine,
			"crlf":   crlf,
			"code":   code,
			"mode":   mode,
			"safe":   safe,
			"within": withinWidth,
		},
		Condition: func(name string) (bool, error) {
			if name == "live" { // whether the evaluator is built in
				return engine() != nil, nil
			}
			return false, fmt.Errorf("there is no condition %q", name)
		},
		UpdateScripts: os.Getenv("UPDATE_SCRIPTS") != "",
	})
}

// crlf proves that every line of a file ends with CR LF, and that there is one.
func crlf(ts *testscript.TestScript, neg bool, args []string) {
	text := ts.ReadFile(args[0])
	all := strings.Count(text, "\n")
	with := strings.Count(text, "\r\n")
	if all == 0 || (with == all) == neg {
		ts.Fatalf("%s: %d of %d lines end with CR LF", args[0], with, all)
	}
}

// code runs a command and wants an exit code: code 2 inkwing run none.md.
func code(ts *testscript.TestScript, _ bool, args []string) {
	err := ts.Exec(args[1], args[2:]...)
	got := 0
	if exit, ok := err.(*exec.ExitError); ok {
		got = exit.ExitCode()
	} else if err != nil {
		ts.Fatalf("%v", err)
	}
	if fmt.Sprint(got) != args[0] {
		ts.Fatalf("exit code %d, want %s", got, args[0])
	}
}

// mode wants a file's permissions: mode 640 notes.md.
func mode(ts *testscript.TestScript, _ bool, args []string) {
	info, err := os.Lstat(ts.MkAbs(args[1]))
	ts.Check(err)
	if got := fmt.Sprintf("%o", info.Mode().Perm()); got != args[0] {
		ts.Fatalf("%s has mode %s, want %s", args[1], got, args[0])
	}
}

// safe wants a file or stream without controls other than line ends.
func safe(ts *testscript.TestScript, _ bool, args []string) {
	text := []byte(ts.ReadFile(args[0]))
	if i := bytes.IndexFunc(text, func(r rune) bool {
		return r < ' ' && r != '\n' || 0x7f <= r && r <= 0x9f || 0x202a <= r && r <= 0x202e || 0x2066 <= r && r <= 0x2069
	}); i >= 0 {
		ts.Fatalf("%s holds a control at byte %d: %q", args[0], i, text[max(0, i-20):min(len(text), i+20)])
	}
}

// withinWidth wants no line wider than a number of columns, unless it is one word
// or code:
// within 40 stdout.
func withinWidth(ts *testscript.TestScript, _ bool, args []string) {
	width, err := strconv.Atoi(args[0])
	ts.Check(err)
	text := ts.ReadFile(args[1])
	if text == "" {
		ts.Fatalf("%s is empty", args[1])
	}
	code := false
	for line := range strings.Lines(text) {
		line = strings.TrimRight(line, "\n")
		if strings.Contains(line, "```") {
			code = !code
		}
		if !code && message.Columns(line) > width && len(strings.Fields(line)) > 1 {
			ts.Fatalf("%d columns of %d: %s", message.Columns(line), width, line)
		}
	}
}

// appendLine adds a line to a file: append notes.md text.
func appendLine(ts *testscript.TestScript, _ bool, args []string) {
	text := ts.ReadFile(args[0]) + args[1] + "\n"
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(text), 0o644))
}
