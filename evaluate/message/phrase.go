package message

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Quote is a name, or code, as messages have it: what is invisible in it made visible.
func Quote(name string) string { return "`" + Visible(name) + "`" }

// Join puts what is to be said side by side, empty parts left out.
func Join(parts ...string) string {
	var list []string
	for _, p := range parts {
		if p != "" {
			list = append(list, p)
		}
	}
	return strings.Join(list, "; ")
}

// Enumerate writes a, b and c.
func Enumerate(parts []string) string {
	last := len(parts) - 1
	if last < 1 {
		return strings.Join(parts, "")
	}
	return strings.Join(parts[:last], ", ") + " and " + parts[last]
}

// Each names one quantity, or several of which the same is said.
func Each(names []string) string {
	if len(names) > 1 {
		return "each of " + Enumerate(names)
	}
	return Enumerate(names)
}

// Thousands writes a whole number with its thousands apart.
func Thousands(n int) string {
	text := strconv.Itoa(n)
	for i := len(text) - 3; i > 0; i -= 3 {
		text = text[:i] + "," + text[i:]
	}
	return text
}

// Listed bounds how many names a hint lists.
const Listed = 8

// Names lists names, the first of many.
func Names(names []string) string {
	if len(names) > Listed {
		names = append(slices.Clone(names[:Listed]), "…")
	}
	return strings.Join(names, ", ")
}

// Rows writes how many rows there are.
func Rows(n int) string {
	if n == 1 {
		return "1 row"
	}
	return fmt.Sprintf("%d rows", n)
}
