package wire

import (
	"fmt"
	"io"
	"strings"

	"inkwing/evaluate/message"
)

// githubLevels are the commands for the levels of findings.
var githubLevels = map[string]string{"error": "error", "warning": "warning", "note": "notice"}

// Github writes what an outcome needs attention for as workflow commands, one a
// line: the runner of the host's workflows puts them beside the lines of a change.
// Form and escapes: docs.github.com, "Workflow commands for GitHub Actions", from
// memory.
func Github(w io.Writer, o Outcome) {
	for _, f := range findings(o) {
		fmt.Fprintf(w, "::%s file=%s", githubLevels[f.kind.level], githubProperty(f.path))
		if f.line > 0 {
			fmt.Fprintf(w, ",line=%d,col=%d", f.line, f.column)
		}
		fmt.Fprintf(w, ",title=%s::%s\n", f.kind.id, githubText(f.says))
	}
}

var (
	githubData  = strings.NewReplacer("%", "%25", "\r", "%0D", "\n", "%0A")
	githubValue = strings.NewReplacer("%", "%25", "\r", "%0D", "\n", "%0A", ":", "%3A", ",", "%2C")
)

func githubText(s string) string     { return message.Visible(githubData.Replace(s)) }
func githubProperty(s string) string { return message.Visible(githubValue.Replace(s)) }
