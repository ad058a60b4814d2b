package packing

import (
	"errors"
	"fmt"
	"path"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// Endings are those of the files that are carried: texts, tables of data, images.
// Nothing among them is run by being there.
var Endings = []string{".md", ".markdown", ".txt", ".csv", ".tsv", ".svg", ".png", ".jpg", ".jpeg", ".gif", ".webp"}

// The lengths that every system can hold.
const (
	maxName = 200 // bytes of a folder's or a file's name
	maxPath = 1000
)

// devices are names that Windows takes for devices, whatever ending follows.
var devices = []string{"con", "prn", "aux", "nul", "conin$", "conout$", "clock$"}

// fits reports why a path cannot be carried: it has to lie below the folder, and
// be a plain file there, on every system.
func fits(name string) error {
	switch {
	case name == "":
		return errors.New("is empty")
	case len(name) > maxPath:
		return fmt.Errorf("is longer than %d bytes", maxPath)
	case !utf8.ValidString(name):
		return errors.New("is not UTF-8")
	case path.IsAbs(name):
		return errors.New("is absolute")
	}
	for part := range strings.SplitSeq(name, "/") {
		if err := partFits(part); err != nil {
			return err
		}
	}
	if !slices.Contains(Endings, strings.ToLower(path.Ext(name))) {
		return errors.New("is neither a text, nor a table of data, nor an image, by its ending")
	}
	return nil
}

// partFits is fits for the name of one folder or file.
func partFits(part string) error {
	switch {
	case part == "":
		return errors.New("has a folder without a name")
	case part[0] == '.':
		return errors.New("has a part that begins with a dot")
	case len(part) > maxName:
		return fmt.Errorf("has a part longer than %d bytes", maxName)
	case strings.HasSuffix(part, ".") || part != strings.TrimSpace(part):
		return errors.New("has a part that ends with a dot, or begins or ends with a space")
	case strings.ContainsAny(part, `\:*?"<>|`):
		return errors.New(`holds one of the characters \ : * ? " < > |`)
	case strings.ContainsFunc(part, func(r rune) bool { return unicode.IsControl(r) || unicode.Is(unicode.Cf, r) }):
		return errors.New("holds a character that cannot be seen")
	case isDevice(part):
		return errors.New("is the name of a device on Windows")
	}
	return nil
}

func isDevice(part string) bool {
	stem, _, _ := strings.Cut(strings.ToLower(part), ".")
	stem = strings.TrimRight(stem, " ")
	if slices.Contains(devices, stem) {
		return true
	}
	number, port := strings.CutPrefix(stem, "com")
	if !port {
		number, port = strings.CutPrefix(stem, "lpt")
	}
	return port && utf8.RuneCountInString(number) == 1 && strings.Contains("0123456789¹²³", number)
}

// taken are paths as a file system sees them that does not tell capitals or forms
// of accents apart; true where a file lies, false for a folder.
type taken map[string]bool

// add refuses a path that would lie on another one, or within it.
func (t taken) add(name string) error {
	key := strings.Map(folded, norm.NFC.String(name))
	if _, there := t[key]; there {
		return fmt.Errorf("carries two files in one place: %s", name)
	}
	t[key] = true
	for dir := path.Dir(key); dir != "."; dir = path.Dir(dir) {
		if t[dir] {
			return fmt.Errorf("carries a file that is a folder, too: %s", dir)
		}
		t[dir] = false
	}
	return nil
}

// folded is one letter for all its capitals and small forms.
func folded(r rune) rune {
	least := r
	for next := unicode.SimpleFold(r); next != r; next = unicode.SimpleFold(next) {
		least = min(least, next)
	}
	return least
}
