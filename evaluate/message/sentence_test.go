package message_test

import (
	"testing"

	"inkwing/evaluate/message"
)

func TestSentence(t *testing.T) {
	for text, want := range map[string]string{
		"":                           "",
		"the store is empty":         "The store is empty.",
		"a cell is over its rating.": "A cell is over its rating.",
		"is it?":                     "Is it?",
		"two-cell packs":             "Two-cell packs.",
		"maker's sheets":             "Maker's sheets.",
		"mAh are no unit of energy":  "mAh are no unit of energy.",
		"m is a unit":                "m is a unit.",
		"v_max is above it":          "v_max is above it.",
		"5 V is above it":            "5 V is above it.",
		"`store` is empty":           "`store` is empty.",
		"Already whole!":             "Already whole!",
		" cut it ":                   "Cut it.",
	} {
		if got := message.Sentence(text); got != want {
			t.Errorf("%q becomes %q, want %q", text, got, want)
		}
	}
}
