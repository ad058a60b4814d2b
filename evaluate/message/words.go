package message

import "strings"

// shortest is how many letters each word of a name has at least that reads as
// words: t_charge and n_series are symbols with an index.
const shortest = 3

// Words writes a name as words where it is made of some: powered time for
// powered_time, calm.control margin for calm.control_margin; V_full stays.
func Words(name string) string {
	parts := strings.Split(name, ".")
	for i, part := range parts {
		if isWords(part) {
			parts[i] = strings.ReplaceAll(part, "_", " ")
		}
	}
	return strings.Join(parts, ".")
}

func isWords(name string) bool {
	for _, word := range strings.Split(name, "_") {
		if len(word) < shortest && word != "of" && word != "to" {
			return false
		}
	}
	return !strings.ContainsFunc(name, func(r rune) bool {
		return r != '_' && (r < 'a' || r > 'z')
	})
}
