package worksheet

import (
	"bytes"
	"path"
	"regexp"
	"strings"

	"inkwing/worksheet/markdown"
)

// useStatement is a cheap sign that a text may use another file, with its path.
var useStatement = regexp.MustCompile(`(?m)^[ \t>*+.0-9-]*use[ \t]+"([^"\n]*)"`)

// MayUse reports, from the texts alone, whether a worksheet may use a file that is
// wanted, even by way of others: who asks need work only those that may. A path
// with an escape in it may be any.
func MayUse(files Files, name string, wanted func(name string) bool) bool {
	return mayUse(files, name, wanted, map[string]bool{})
}

func mayUse(files Files, name string, wanted func(string) bool, seen map[string]bool) bool {
	if seen[name] || !strings.EqualFold(path.Ext(name), ".md") {
		return false
	}
	seen[name] = true
	text, err := files.Read(name)
	if err != nil {
		return false
	}
	if gathers(text) {
		return true
	}
	for _, m := range useStatement.FindAllSubmatch(text, -1) {
		used := path.Join(path.Dir(name), string(m[1]))
		if bytes.ContainsRune(m[1], '\\') || wanted(used) || mayUse(files, used, wanted, seen) {
			return true
		}
	}
	return false
}

// gathers reports whether a text may gather from other pages: from which shows only
// when it is worked.
func gathers(text []byte) bool {
	return bytes.Contains(text, []byte("`"+markdown.Gather)) || bytes.Contains(text, []byte("~"+markdown.Gather))
}
