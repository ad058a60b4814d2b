package main

import (
	"strings"

	"inkwing/evaluate/library"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/message"
)

// cautionPage is one caution, whole.
func (t *tool) cautionPage(c library.Caution) string {
	when := c.Level.String() + ", raised where the numbers give cause"
	if c.Standing {
		when = c.Level.String() + ", said once a worksheet"
	}
	return t.head(c.ID, message.Sentence(model.Sketch(c.Summary))) +
		t.section("Level", when+" ("+c.Topic+")") + t.section("Why", message.Sentence(model.Sketch(c.Why))) +
		t.section("What to do", message.Sentence(model.Sketch(c.Hint))) + t.section("Source", c.Source) +
		t.section("Raised by", strings.Join(library.Raisers(c.ID), ", "))
}

// ids are the names of cautions.
func ids(list []library.Caution) (out []string) {
	for _, c := range list {
		out = append(out, c.ID)
	}
	return out
}

// cautionRows are the cautions of a topic, each with its level and finding.
func cautionRows(cautions []library.Caution, topic string) [][2]string {
	var rows [][2]string
	for _, c := range cautions {
		if c.Topic == topic {
			rows = append(rows, [2]string{c.ID, c.Level.String() + ": " + message.Sentence(model.Sketch(c.Summary))})
		}
	}
	return rows
}
