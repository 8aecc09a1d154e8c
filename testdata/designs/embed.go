// Package designs holds the example launchers, whose data are invented, for the program to start a design from.
package designs

import (
	"embed"
	"slices"
	"strings"
)

//go:embed whale.toml rocket.toml soapbox.toml
var files embed.FS

// Names lists the examples, in order.
func Names() (names []string) {
	entries, _ := files.ReadDir(".") // what is embedded can be read
	for _, e := range entries {
		names = append(names, strings.TrimSuffix(e.Name(), ".toml"))
	}
	slices.Sort(names)
	return names
}

// Example is the design file of an example; false: there is none of the name.
func Example(name string) ([]byte, bool) {
	data, err := files.ReadFile(name + ".toml")
	return data, err == nil
}
