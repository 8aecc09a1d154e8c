//go:build !linux

package atomicfile

import (
	"io/fs"
	"os"
)

// openUnnamed gives nil: only Linux has files without a name that can get one later.
func openUnnamed(string, fs.FileMode) *os.File { return nil }

// linkUnnamed is never called where there are no unnamed files.
func linkUnnamed(*os.File, string) error { return fs.ErrInvalid }
