package disk

import (
	"crypto/rand"
	"errors"
	"os"
	"path/filepath"
	"time"
	"unsafe"

	"golang.org/x/sys/windows"
)

var replaceFile = windows.NewLazySystemDLL("kernel32.dll").NewProc("ReplaceFileW")

// What ReplaceFile ends with where it got halfway (winerror.h), and that it need not
// keep all attributes (winbase.h).
const (
	unableToMoveReplacement2 = windows.Errno(1177) // the old file lies under the name of the backup
	ignoreMergeErrors        = 2
)

// exchange puts a file of a folder into another one's place, whose file goes to where
// displaced says, by ReplaceFile, which keeps its access list, attributes and streams.
// A program that has the file open without letting others move it is waited for.
func exchange(dir *os.File, a, b string) (displaced string, err error) {
	folder, err := pathOf(dir)
	if err != nil {
		return "", err
	}
	aside := tempPrefix + rand.Text()
	for try := 0; ; try++ {
		err = replaceBy(filepath.Join(folder, a), filepath.Join(folder, b), filepath.Join(folder, aside))
		if try == patience || !errors.Is(err, windows.ERROR_SHARING_VIOLATION) && !errors.Is(err, windows.ERROR_ACCESS_DENIED) {
			break
		}
		time.Sleep(10 * time.Millisecond)
	}
	switch {
	case err == nil:
		return aside, nil
	case errors.Is(err, unableToMoveReplacement2):
		return "", errors.Join(err, windows.Rename(filepath.Join(folder, aside), filepath.Join(folder, b)))
	case errors.Is(err, windows.ERROR_NOT_SUPPORTED), errors.Is(err, windows.ERROR_INVALID_PARAMETER), errors.Is(err, windows.ERROR_INVALID_FUNCTION):
		return "", errors.ErrUnsupported // a drive that cannot
	}
	return "", err
}

// patience is how often a file is tried that another program holds, 10 ms apart.
const patience = 50

// replaceBy has the system put a file into another one's place, which goes aside.
func replaceBy(file, place, aside string) error {
	var names [3]*uint16
	for i, name := range []string{place, file, aside} {
		var err error
		if names[i], err = windows.UTF16PtrFromString(name); err != nil {
			return err
		}
	}
	done, _, err := replaceFile.Call(uintptr(unsafe.Pointer(names[0])), uintptr(unsafe.Pointer(names[1])), uintptr(unsafe.Pointer(names[2])), ignoreMergeErrors, 0, 0)
	if done == 0 {
		return err
	}
	return nil
}

// pathOf is where an open file or folder lies, whatever its way there has become since.
func pathOf(file *os.File) (string, error) {
	name := make([]uint16, windows.MAX_LONG_PATH)
	n, err := windows.GetFinalPathNameByHandle(windows.Handle(file.Fd()), &name[0], uint32(len(name)), 0)
	if err != nil {
		return "", err
	}
	return windows.UTF16ToString(name[:n]), nil
}

// hasWriter reports whether a program has a file open for writing: it is then not to be
// had by somebody who lets none write.
func hasWriter(file *os.File) bool {
	path, err := pathOf(file)
	if err != nil {
		return false
	}
	name, err := windows.UTF16PtrFromString(path)
	if err != nil {
		return false
	}
	h, err := windows.CreateFile(name, windows.GENERIC_READ, windows.FILE_SHARE_READ|windows.FILE_SHARE_DELETE, nil, windows.OPEN_EXISTING, windows.FILE_ATTRIBUTE_NORMAL, 0)
	if err != nil {
		return errors.Is(err, windows.ERROR_SHARING_VIOLATION)
	}
	_ = windows.CloseHandle(h)
	return false
}
