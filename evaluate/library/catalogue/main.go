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
	"errors"
	"fmt"
	"maps"
	"os"
	"path"
	"slices"
)

// A target is what the program writes of some folders of the library.
type target struct {
	folders []string // the packages read, in the library's folder
	suffix  string   // of the files of adapters and documentation, one of each a folder
	hazards string   // the file that lists their cautions; none if empty
}

// all are the packages of the language.
var all = []string{"drive", "energy", "flight", "generator", "glide", "plain", "workshop"}

// topicOf is the topic of a folder that is not named after it: the language
// puts all that flies under one head.
var topicOf = map[string]string{"drive": "glide", "flight": "glide"}

var targets = []target{
	{folders: all, suffix: "_gen.go", hazards: "cautions_gen.go"},
	{folders: []string{"internal/sample"}, suffix: "_gen_test.go"},
}

// names are the files of a folder.
func (t target) names(folder string) (code, documentation string) {
	name := path.Base(folder)
	return name + t.suffix, name + "_doc" + t.suffix
}

func main() {
	status := 0
	for _, t := range targets {
		files, problems, err := generate(".", t)
		for _, name := range slices.Sorted(maps.Keys(files)) {
			err = errors.Join(err, os.WriteFile(name, files[name], 0o644))
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

// generate is the text of a target's files for the library in dir, by name, and
// what it could not read.
func generate(dir string, t target) (files map[string][]byte, problems []string, err error) {
	functions, problems, err := read(dir, t.folders)
	if err != nil {
		return nil, nil, err
	}
	w := newWriter()
	functions, more := w.writable(functions)
	problems = append(problems, more...)
	files, err = w.write(t, functions)
	if err != nil || t.hazards == "" {
		return files, problems, err
	}
	found, from, more, err := readCautions(dir, t.folders)
	if err == nil {
		files[t.hazards], err = cautionFile(found, functions, from)
	}
	return files, append(problems, more...), err
}

// topic is the head under which the language puts a package's functions.
func topic(pack string) string {
	if of, ok := topicOf[pack]; ok {
		return of
	}
	return pack
}
