package formula

import (
	"encoding/json"
	"html"

	"inkwing/evaluate/syntax"
)

// reached marks an argument that can be changed by its name, in data-name.
func (n Notation) reached(x syntax.Expr, ml string) string {
	if n.Reach == nil {
		return ml
	}
	name := n.Reach(x.Place())
	if name == "" {
		return ml
	}
	return `<mrow data-name="` + html.EscapeString(name) + `">` + ml + "</mrow>"
}

// folded stands for arguments that are left out. If some of them can be changed it
// bears the name of the first, and in data-also those of the others, as JSON.
func (n Notation) folded(x *syntax.Call) string {
	names := n.reachable(x)
	if len(names) == 0 {
		return words("…")
	}
	also := ""
	if len(names) > 1 {
		text, err := json.Marshal(names[1:])
		if err != nil {
			panic(err) // texts only
		}
		also = ` data-also="` + html.EscapeString(string(text)) + `"`
	}
	return `<mrow data-name="` + html.EscapeString(names[0]) + `"` + also + `><mi mathvariant="normal">…</mi></mrow>`
}

// reachable are the names of a call's arguments, and of those of calls among them.
func (n Notation) reachable(x *syntax.Call) (names []string) {
	if n.Reach == nil {
		return nil
	}
	for _, a := range x.Args {
		if name := n.Reach(a.Value.Place()); name != "" {
			names = append(names, name)
		} else if call, ok := a.Value.(*syntax.Call); ok {
			names = append(names, n.reachable(call)...)
		}
	}
	return names
}
