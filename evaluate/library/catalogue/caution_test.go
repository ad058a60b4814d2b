package main

import (
	"maps"
	"strings"
	"testing"
)

func hazards(t *testing.T) (map[string]caution, string) {
	t.Helper()
	found, _, problems, err := readCautions("testdata", []string{"hazard"})
	if err != nil {
		t.Fatal(err)
	}
	list := map[string]caution{}
	for _, c := range found {
		list[c.text["ID"]] = c
	}
	return list, strings.Join(problems, "\n")
}

// TestCautions proves that constants, variables and new IDs are read.
func TestCautions(t *testing.T) {
	list, _ := hazards(t)
	for _, want := range []caution{
		{level: "Danger", standing: true, text: map[string]string{"ID": "plain", "Summary": "It holds {0}.", "Hint": "Wait.", "Source": "common practice, from memory"}},
		{level: "Advice", text: map[string]string{"ID": "short", "Summary": "a", "Hint": "b"}},
		{level: "Advice", text: map[string]string{"ID": "pointed"}},
		{level: "Warning", text: map[string]string{"ID": "declared", "Summary": "… is (…) high", "Hint": "slower"}},
		{level: "Danger", text: map[string]string{"ID": "renamed", "Summary": "below zero", "Hint": "slower"}},
		{level: "Warning", text: map[string]string{"ID": "in-a-case", "Summary": "naught", "Hint": "slower"}},
	} {
		got := list[want.text["ID"]]
		if got.topic != "hazard" || got.level != want.level || got.standing != want.standing || !maps.Equal(got.text, want.text) {
			t.Errorf("got  %+v\nwant %+v", got, want)
		}
	}
}

// TestRaisers proves that a caution is followed through the functions that are
// called, a method and a function in a variable among them, and round a cycle.
func TestRaisers(t *testing.T) {
	_, from, _, err := readCautions("testdata", []string{"hazard"})
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{
		"plain": "plain", "none": "", "declared": "declared in-a-case renamed",
		"borrowed": "plain", "through": "plain pointed short", "round": "plain short", "about": "plain short",
	} {
		if got := strings.Join(from.reach(libraryPath+"/hazard."+name), " "); got != want {
			t.Errorf("%s raises %q, want %q", name, got, want)
		}
	}
}

// TestCautionProblems proves that what cannot be read is named.
func TestCautionProblems(t *testing.T) {
	_, said := hazards(t)
	for _, want := range []string{
		"the field ID of a caution is no constant text, so it cannot be listed",
		"the field Summary of a caution is no constant text",
		"the field Hint of a caution is no constant text",
		"the level of a caution is no constant",
		"whether a caution is standing is no constant",
		"a caution without an ID",
		"a caution without the names of its fields",
		"the ID of a caution is set that is not made in the same function",
		"the caution plain has another meaning at testdata/hazard/hazard.go:",
	} {
		if !strings.Contains(said, want) {
			t.Errorf("no problem says %q in\n%s", want, said)
		}
	}
	if strings.Contains(said, "caution short") {
		t.Errorf("a caution that is said twice alike is a problem:\n%s", said)
	}
}
