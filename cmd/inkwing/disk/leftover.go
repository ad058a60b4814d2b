package disk

import (
	"path"
	"path/filepath"
	"regexp"
	"time"
)

// oldTemp is how long a temporary file lies before it counts as left behind by a
// run that was killed.
const oldTemp = time.Minute

// tempName is the whole name of one, with 26 letters by chance (rand.Text).
var tempName = regexp.MustCompile(`^` + regexp.QuoteMeta(tempPrefix) + `[A-Z2-7]{26}$`)

// Leftovers names the temporary files that runs left behind in a folder: ours by
// their name, regular, and older than any run takes over one.
func (f *Folder) Leftovers(folder string) (list []string) {
	names, err := f.List(folder)
	if err != nil {
		return nil
	}
	for _, name := range names {
		if !tempName.MatchString(name) {
			continue
		}
		name = path.Join(folder, name)
		info, err := f.root.Lstat(filepath.FromSlash(name))
		if err == nil && info.Mode().IsRegular() && time.Since(info.ModTime()) > oldTemp {
			list = append(list, name)
		}
	}
	return list
}
