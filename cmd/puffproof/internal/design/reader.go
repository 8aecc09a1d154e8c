package design

import (
	"puffproof/cmd/puffproof/internal/problem"
	"puffproof/cmd/puffproof/internal/toml"
	"puffproof/limits/launcher"
)

// Problem is one fault of a design file.
type Problem = problem.Problem

// reader is one reading of one file.
type reader struct {
	*toml.File
	keys      *keyTable
	ambient   launcher.Band
	declared  []string       // keys whose values are declared only
	positions map[string]int // offset of each key that was read, by dotted key
}
