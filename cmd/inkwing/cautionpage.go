package main

import (
	"unicode"
	"unicode/utf8"

	"inkwing/evaluate/library"
	"inkwing/evaluate/library/model"
)

// cautionPage is one caution, whole.
func (t *tool) cautionPage(c library.Caution) string {
	when := levelName(c.Level) + ", raised where the numbers give cause"
	if c.Standing {
		when = levelName(c.Level) + ", said once a worksheet"
	}
	return t.head(c.ID, sentence(sketch(c.Says))) +
		t.section("Level", when+" ("+c.Topic+")") + t.section("Why", sentence(sketch(c.Why))) +
		t.section("What to do", sentence(sketch(c.Mend))) + t.section("Source", c.Source)
}

// cautionRows are the cautions of a topic, each with its level and finding.
func cautionRows(cautions []library.Caution, topic string) [][2]string {
	var rows [][2]string
	for _, c := range cautions {
		if c.Topic == topic {
			rows = append(rows, [2]string{c.ID, levelName(c.Level) + ": " + sentence(sketch(c.Says))})
		}
	}
	return rows
}

// sketch is a caution's text before there are values to put in.
func sketch(text string) string { return model.Fill(text, func(int) string { return "…" }) }

// sentence begins a text with a capital and ends it with a full stop.
func sentence(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	if size == 0 {
		return ""
	}
	text = string(unicode.ToUpper(first)) + text[size:]
	if last := text[len(text)-1]; last != '.' && last != '!' && last != '?' {
		text += "."
	}
	return text
}
