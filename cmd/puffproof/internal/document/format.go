package document

import (
	"bytes"
	"strings"
)

// Formats lists the formats, the default first.
func Formats() []string { return []string{"html", "pdf", "md"} }

// FormatOf is the format that a file's ending asks for, with its dot; html where
// there is no ending. It is false for an ending of no format.
func FormatOf(ending string) (string, bool) {
	switch strings.ToLower(ending) {
	case "", ".html", ".htm":
		return "html", true
	case ".pdf":
		return "pdf", true
	case ".md", ".markdown":
		return "md", true
	}
	return "", false
}

// FormatOfFile is the format that a file of this program begins with.
func FormatOfFile(file []byte) string {
	switch {
	case bytes.HasPrefix(file, []byte("%PDF-")):
		return "pdf"
	case bytes.HasPrefix(file, []byte("<!DOCTYPE html>")):
		return "html"
	}
	return "md"
}
