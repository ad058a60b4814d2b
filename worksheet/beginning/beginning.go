// Package beginning lays out a journal for somebody who begins: pages whose numbers
// are guesses that fit together, with the questions that a builder has to answer.
//
// [Pages] is its one verb. What it gives is to be run like any other worksheet;
// nothing here is worked. Its limit: the guesses are those of one small glider.
package beginning

import (
	"embed"
	"fmt"
	"slices"
	"strings"
	"text/template"
)

//go:embed pages
var pages embed.FS

// The parts of the job that a journal can be about, and the units that it can be
// written in.
var (
	Parts = []string{"glider", "pack", "generator", "aircraft"}
	Units = []string{"metric", "inch"}
)

// A Plan says what a journal is to be about.
type Plan struct {
	Title string
	Part  string // one of Parts
	Units string // one of Units
}

// A Page is a file of the journal, by its name in the folder.
type Page struct {
	Name string
	Text []byte
}

// What a page's text asks of a plan.
type data struct {
	Title, What                     string
	Pack, Generator, Aircraft, Inch bool
}

// what the journal is of.
var what = map[string]string{"glider": "a glider", "pack": "a pack", "generator": "a generator and its pack", "aircraft": "an aircraft and its pack"}

// Pages writes the pages of a plan.
func Pages(p Plan) ([]Page, error) {
	if !slices.Contains(Parts, p.Part) || !slices.Contains(Units, p.Units) {
		return nil, fmt.Errorf("no journal of %s in units %s", p.Part, p.Units)
	}
	d := data{Title: p.Title, What: what[p.Part], Inch: p.Units == "inch", Pack: p.Part == "pack",
		Generator: p.Part == "glider" || p.Part == "generator", Aircraft: p.Part == "glider" || p.Part == "aircraft"}
	var out []Page
	for _, name := range []string{"journal.md", "parts.md"} {
		text, err := page(name, d)
		if err != nil {
			return nil, err
		}
		out = append(out, Page{name, text})
	}
	log, err := pages.ReadFile("pages/rundown.csv")
	return append(out, Page{"rundown.csv", log}), err
}

// page fills one page in; u chooses between metric and inch.
func page(name string, d data) ([]byte, error) {
	u := func(metric, inch string) string {
		if d.Inch {
			return inch
		}
		return metric
	}
	t, err := template.New(name+".tmpl").Funcs(template.FuncMap{"u": u}).ParseFS(pages, "pages/"+name+".tmpl")
	if err != nil {
		return nil, err
	}
	var text strings.Builder
	err = t.Execute(&text, d)
	return []byte(text.String()), err
}
