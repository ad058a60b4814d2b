package manual

import (
	"slices"
	"strings"

	"inkwing/evaluate/library"
)

// Need says what a parameter is, whether it must be given, and what it may be.
func Need(p library.Param, among []library.Param) string {
	var says []string
	add := func(text string) {
		if text != "" {
			says = append(says, text)
		}
	}
	add(Kind(p.Shape))
	add(rangeWords(p.Range.Text))
	add(strings.Join(p.Shape.Values, " or "))
	switch {
	case p.Shown != "":
		add("default " + p.Shown)
	case p.Choose != "":
		add(group(p.Choose, among))
	case p.Optional:
		add("optional")
	}
	return strings.Join(says, "; ")
}

// group names the parameters of which one may, or must, be given.
func group(choose string, among []library.Param) string {
	var names []string
	for _, p := range among {
		if p.Choose == choose {
			names = append(names, p.Name)
		}
	}
	if strings.HasSuffix(choose, "?") {
		return "at most one of " + strings.Join(names, ", ")
	}
	return "exactly one of " + strings.Join(names, ", ")
}

// rangeWords says a range as its tag writes it: "[0,)" is "0 or more".
func rangeWords(text string) string {
	if len(text) < 3 {
		return ""
	}
	low, high, ok := strings.Cut(text[1:len(text)-1], ",")
	if !ok {
		return text
	}
	low, high = strings.TrimSpace(low), strings.TrimSpace(high)
	lowOpen, highOpen := text[0] == '(', text[len(text)-1] == ')'
	above := map[bool]string{true: "more than " + low, false: low + " or more"}[lowOpen]
	below := map[bool]string{true: "less than " + high, false: high + " or less"}[highOpen]
	switch {
	case high == "":
		return above
	case low == "":
		return below
	case lowOpen || highOpen:
		return above + ", " + below
	}
	return low + " to " + high
}

// Kind names what a value is, where its unit does not say so.
func Kind(s library.Shape) string {
	switch s.Kind {
	case library.Integer:
		return "whole number"
	case library.Bool:
		return "true or false"
	case library.Text:
		return "text"
	case library.ListOf:
		return "list"
	case library.RecordOf:
		return record(s)
	case library.Table:
		return "a table with " + fieldNames(s.Params)
	}
	return ""
}

// mostMakers is how many functions are named that give a record.
const mostMakers = 3

// record says which functions give one, and what it must hold at least.
func record(s library.Shape) string {
	needs := "a record with " + fieldNames(needed(s.Params))
	names := makers(s)
	if len(names) == 0 || len(names) > mostMakers {
		return "a record with " + fieldNames(s.Params)
	}
	return "what " + strings.Join(names, " or ") + " gives, or " + needs
}

// needed are the fields that must be there, or all where none must.
func needed(fields []library.Param) []library.Param {
	list := slices.DeleteFunc(slices.Clone(fields), func(p library.Param) bool { return p.Shown != "" || p.Optional || p.Default != nil })
	if len(list) == 0 {
		return fields
	}
	return list
}

// makers are the functions whose answer has all fields of a record.
func makers(s library.Shape) (names []string) {
	for _, f := range library.All() {
		has := func(p library.Param) bool {
			return slices.ContainsFunc(f.Result.Params, func(q library.Param) bool { return q.Name == p.Name && q.Shape.Kind == p.Shape.Kind })
		}
		if f.Result.Kind == library.RecordOf && !slices.ContainsFunc(s.Params, func(p library.Param) bool { return !has(p) }) {
			names = append(names, f.Name)
		}
	}
	return names
}

func fieldNames(fields []library.Param) string {
	var names []string
	for _, p := range fields {
		names = append(names, p.WithUnit())
	}
	return strings.Join(names, ", ")
}
