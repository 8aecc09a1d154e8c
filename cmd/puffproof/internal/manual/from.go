package manual

import (
	"fmt"
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/edit"
	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/quantity"
)

const fromHead = `# Begun from the example %s: its figures are the example's and say
# "template". While one does, nothing holds. Replace each by your own, and say
# how you know it: measured, datasheet, label or estimated. "?" says that you do
# not know: the strict side is taken. What only you can say is "?" already.
# puffproof keys TABLE tells what a key means and how to measure it. A remark
# behind a line is about the example: take it away with the figure.
#
`

// From makes an example into a file to start from, in units of a system. The error says that the example is no TOML.
func From(name string, example []byte, units quantity.System) ([]byte, error) {
	f, err := edit.Open(example)
	if err != nil {
		return nil, err
	}
	for key, value := range map[string]string{"name": "My launcher", "revision": "A",
		"description": "Begun from the example " + name + "; every figure that says template is that example's"} {
		if err := f.Set(key, quoted(value)); err != nil {
			return nil, err
		}
	}
	blank, err := Blank(f.Bytes(), units)
	return append([]byte(fmt.Sprintf(fromHead, name)), blank...), err
}

// NoExample says that there is no example of a name, and which was probably meant.
func NoExample(name string, names []string) string {
	text := "no example " + fmt.Sprintf("%q", name) + "; there are " + strings.Join(slices.Sorted(slices.Values(names)), ", ")
	if near := keys.Meant(keys.Nearest(name, names)); near != "" {
		text += "; " + near
	}
	return text
}
