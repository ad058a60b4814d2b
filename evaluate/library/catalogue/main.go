// Catalogue writes the library's catalogue: for every function that the
// language can call its name, topic, doc comment and a typed adapter, and every
// caution that the physics may raise.
//
// It reads the declarations by go/types without their bodies, so that it works
// while a body does not compile; only the cautions are read from the bodies.
// Reflection could neither list the functions
// nor see their comments, and reflect.Call would cost too much on a path that
// an uncertainty budget runs thousands of times.
//
// Run it by go generate in evaluate/library. What it cannot read it leaves out,
// names on standard error, and ends with status 1.
package main

import (
	"fmt"
	"os"
	"path/filepath"
)

// A target is one file that the program writes.
type target struct {
	file    string   // in the library's folder
	list    string   // the Go name of the list of entries
	topics  []string // the packages read, in the library's folder
	hazards bool     // the list is of the cautions, not of the functions
}

// all are the packages of the language, in the order of their names.
var all = []string{"energy", "generator", "glide", "plain"}

var targets = []target{
	{file: "catalogue_gen.go", list: "catalogue", topics: all},
	{file: "cautions_gen.go", list: "cautions", topics: all, hazards: true},
	{file: "sample_gen_test.go", list: "samples", topics: []string{"internal/sample"}},
}

func main() {
	status := 0
	for _, t := range targets {
		text, problems, err := generate(".", t)
		if err == nil {
			err = os.WriteFile(filepath.Clean(t.file), text, 0o644)
		}
		if err != nil {
			fmt.Fprintln(os.Stderr, "catalogue: error:", err)
			os.Exit(2)
		}
		for _, p := range problems {
			fmt.Fprintln(os.Stderr, "catalogue: error:", p)
			status = 1
		}
	}
	os.Exit(status)
}

// generate is the text of a target for the library in dir, and what it could
// not read.
func generate(dir string, t target) (text []byte, problems []string, err error) {
	if t.hazards {
		found, problems, err := readCautions(dir, t.topics)
		if err != nil {
			return nil, nil, err
		}
		text, err = cautionFile(t.list, found)
		return text, problems, err
	}
	functions, problems, err := read(dir, t.topics)
	if err != nil {
		return nil, nil, err
	}
	w := newWriter()
	functions, more := w.writable(functions)
	text, err = w.file(t.list, functions)
	return text, append(problems, more...), err
}
