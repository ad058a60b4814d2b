package main

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"inkwing/cmd/inkwing/layout"
	"inkwing/evaluate/message"
)

// TestHelpFits wants the help of every verb within the terminal, but for examples, which are
// to be typed as they stand.
func TestHelpFits(t *testing.T) {
	verbs := []string{"", "run", "check", "strip", "try", "explain", "gather", "new", "page", "unpack", "desk"}
	for width, columns := range map[int]string{60: "60", layout.Most: "200"} {
		t.Setenv("COLUMNS", columns)
		for _, verb := range verbs {
			var stdout, stderr bytes.Buffer
			args := slices.DeleteFunc([]string{verb, "--help"}, func(s string) bool { return s == "" })
			if status := run(args, nil, &stdout, &stderr); status != fine {
				t.Fatalf("%s: %d, %s", verb, status, stderr.String())
			}
			text, _, _ := strings.Cut(stdout.String(), "Examples:")
			_, flags, _ := strings.Cut(stdout.String(), "Flags:")
			for line := range strings.Lines(text + flags) {
				if message.Columns(strings.TrimSuffix(line, "\n")) > width {
					t.Errorf("%s at %d: %q", verb, width, line)
				}
			}
		}
	}
}
