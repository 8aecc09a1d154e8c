// Package build tells which build of the program this is, and where in it something happened.
package build

import (
	"runtime/debug"
	"strings"
)

// Version is the version of the module, or the revision it was built from.
func Version() string {
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

// PlaceOf finds the first line of our own code below the panic in a stack: the file and its line.
func PlaceOf(stack string) string {
	_, below, found := strings.Cut(stack, "panic(")
	if !found {
		below = stack
	}
	for line := range strings.Lines(below) {
		line = strings.TrimSpace(line)
		if !strings.HasPrefix(line, "/") || !strings.Contains(line, ".go:") || strings.Contains(line, "/src/runtime/") {
			continue
		}
		file, _, _ := strings.Cut(line, " ")
		return file[strings.LastIndex(file, "/")+1:]
	}
	return "place unknown"
}
