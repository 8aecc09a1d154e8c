package app

import (
	"runtime"

	"puffproof/cmd/puffproof/internal/build"
)

// program names what makes a paper: version and processor. Kinds of processor
// round the last digit in different ways, and a paper holds such digits.
func program() string { return build.Version() + " (" + runtime.GOARCH + ")" }
