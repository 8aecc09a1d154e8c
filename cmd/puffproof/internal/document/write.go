package document

import (
	"fmt"
	"path/filepath"
	"strings"
)

// Formats lists the formats, the default first.
func Formats() []string { return []string{"html", "pdf", "md"} }

// FormatOf is the format that a file's ending asks for; html where it asks for none.
func FormatOf(name string) string {
	switch strings.ToLower(filepath.Ext(name)) {
	case ".pdf":
		return "pdf"
	case ".md", ".markdown":
		return "md"
	}
	return "html"
}

// Write gives a document in a format of Formats.
func Write(d *Document, format string) ([]byte, error) {
	switch format {
	case "html":
		return HTML(d)
	case "pdf":
		return PDF(d)
	case "md":
		return Markdown(d)
	}
	return nil, fmt.Errorf("no format is named %q", format)
}
