package document

import "fmt"

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
