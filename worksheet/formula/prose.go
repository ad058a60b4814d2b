package formula

import "html"

// Prose is the formula line of a doc comment as HTML.
func Prose(text string) string { return html.EscapeString(text) }
