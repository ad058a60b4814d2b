package disk

import (
	"io/fs"
	"path"
	"strings"
)

// Walk finds what lies below a folder: its files of an ending, and the folders that
// were walked through. It follows no links, passes over what begins with a dot, and
// stops after most of either.
func (f *Folder) Walk(under, ending string, most int) (files, folders []string) {
	fs.WalkDir(f.root.FS(), path.Clean(under), func(name string, e fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return fs.SkipDir
		case e.IsDir() && name != path.Clean(under) && strings.HasPrefix(e.Name(), "."):
			return fs.SkipDir
		case e.IsDir():
			folders = append(folders, name)
		case e.Type().IsRegular() && strings.EqualFold(path.Ext(name), ending):
			files = append(files, name)
		}
		if len(files) >= most || len(folders) >= most {
			return fs.SkipAll
		}
		return nil
	})
	return files, folders
}
