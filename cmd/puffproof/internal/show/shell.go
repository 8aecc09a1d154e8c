package show

import (
	"path/filepath"
	"strings"
	"unicode"
)

// InShell is a file's name as it may be typed at a shell; DESIGN where it has none, or one that
// cannot be shown.
func InShell(name string) string {
	switch plain := func(r rune) bool { return unicode.In(r, unicode.L, unicode.Nd) || strings.ContainsRune("./_-+,@%", r) }; {
	case name == "" || name[0] == '-' || Clean(name) != name:
		return "DESIGN"
	case strings.IndexFunc(name, func(r rune) bool { return !plain(r) }) < 0:
		return name
	case strings.Contains(name, "'"):
		return "DESIGN"
	}
	return "'" + name + "'"
}

// FewOfTemplate is how many figures of the template a file has at most that was made of answers: in one with more nobody has entered
// anything yet.
const FewOfTemplate = 20

// BetterName is the file that a way out of a design is written to, where the one to name is free: never the design itself.
func BetterName(design string) string {
	if strings.HasPrefix(filepath.Base(design), "better") {
		return "better2.toml"
	}
	return "better.toml"
}
