package figure

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"
)

// styled is a style attribute as the SVG library writes it.
var styled = regexp.MustCompile(`\s+style="([^"]*)"`)

// Inline gives the drawing as SVG does, without style attributes: a page whose policy forbids styles within its text shows it
// all the same, and its style sheet may give the inks other colours. The drawing fills the room that the page gives it.
func (d *Drawing) Inline() ([]byte, error) {
	out, err := d.SVG()
	if err != nil {
		return nil, err
	}
	return styled.ReplaceAllFunc(out, func(found []byte) []byte {
		var b bytes.Buffer
		for _, rule := range strings.Split(string(styled.FindSubmatch(found)[1]), ";") {
			if name, value, ok := strings.Cut(rule, ":"); ok {
				fmt.Fprintf(&b, ` %s="%s"`, strings.TrimSpace(name), strings.TrimSpace(value))
			}
		}
		return b.Bytes()
	}), nil
}
