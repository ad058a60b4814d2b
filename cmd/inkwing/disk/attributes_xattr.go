//go:build linux || darwin

package disk

import (
	"strings"

	"golang.org/x/sys/unix"
)

// maxAttribute is the largest list of attributes, and the largest value, that
// Linux has (xattr(7)).
const maxAttribute = 64 << 10

// copyAttributes copies extended attributes from file to file; on Linux access
// lists are two of them.
func copyAttributes(to, from int) {
	list, value := make([]byte, maxAttribute), make([]byte, maxAttribute)
	n, err := unix.Flistxattr(from, list)
	if err != nil {
		return
	}
	for name := range strings.SplitSeq(string(list[:n]), "\x00") {
		if name == "" {
			continue
		}
		if size, err := unix.Fgetxattr(from, name, value); err == nil {
			_ = unix.Fsetxattr(to, name, value[:size], 0)
		}
	}
}
