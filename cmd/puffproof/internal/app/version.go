package app

import (
	"runtime"
	"runtime/debug"
)

// version is the version of the module, or the revision it was built from.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown version"
	}
	if v := info.Main.Version; v != "" && v != "(devel)" {
		return v
	}
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" {
			return "revision " + s.Value
		}
	}
	return "development build"
}

// program names what makes a paper: version and processor. Kinds of processor
// round the last digit in different ways, and a paper holds such digits.
func program() string { return version() + " (" + runtime.GOARCH + ")" }
