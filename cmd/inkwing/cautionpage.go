package main

import (
	"inkwing/evaluate/library"
	"inkwing/evaluate/library/model"
	"inkwing/evaluate/message"
)

// cautionPage is one caution, whole.
func (t *tool) cautionPage(c library.Caution) string {
	when := levelName(c.Level) + ", raised where the numbers give cause"
	if c.Standing {
		when = levelName(c.Level) + ", said once a worksheet"
	}
	return t.head(c.ID, message.Sentence(sketch(c.Summary))) +
		t.section("Level", when+" ("+c.Topic+")") + t.section("Why", message.Sentence(sketch(c.Why))) +
		t.section("What to do", message.Sentence(sketch(c.Hint))) + t.section("Source", c.Source)
}

// cautionRows are the cautions of a topic, each with its level and finding.
func cautionRows(cautions []library.Caution, topic string) [][2]string {
	var rows [][2]string
	for _, c := range cautions {
		if c.Topic == topic {
			rows = append(rows, [2]string{c.ID, levelName(c.Level) + ": " + message.Sentence(sketch(c.Summary))})
		}
	}
	return rows
}

// sketch is a caution's text before there are values to put in.
func sketch(text string) string { return model.Fill(text, func(int) string { return "…" }) }
