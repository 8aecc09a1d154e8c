package app

import (
	"errors"
	"puffproof/cmd/puffproof/internal/design"
	"puffproof/limits/launcher"
	"strings"
)

// readDesign understands a design file; its error has one problem after another,
// each with its place.
func readDesign(name string, data []byte) (*launcher.Launcher, error) {
	l, problems := design.Read(name, data)
	if len(problems) == 0 {
		return l, nil
	}
	var b strings.Builder
	for _, p := range problems {
		b.WriteString(p.String() + "\n")
	}
	return nil, errors.New(b.String())
}

// designTemplate is the commented file that init writes.
func designTemplate() []byte { return []byte(design.Template()) }
