// Package design reads design files: the one TOML file that describes a
// launcher. One table of keys (package keys) makes the strict reader; template,
// reference and schema are made from the same (package manual).
//
// It turns text into a limits.Launcher in SI units, every quantity with a
// tolerance, stated or assumed. It judges nothing about safety: it refuses only
// what is unreadable, contradictory, impossible or outside the model's range.
// Start reading at Read.
package design

import (
	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/toml"
	"puffproof/limits/launcher"
)

// Reader reads design files. What it says of their faults has its figures in Units; what
// it quotes of a file stays as it stands there. The zero value speaks metric. Its Proof is the record beside the design; nil: there
// is none, and an answer that came from one counts for nothing.
type Reader struct {
	Units quantity.System
	Proof *Proof
}

// Read reads a design file. The name is used in problems only. Where there are
// problems the launcher is nil and the list holds every fault that was found, in
// the order of the file.
func (in Reader) Read(name string, data []byte) (*launcher.Launcher, []Problem) {
	r := &reader{File: toml.Read(name, data, writtenAgain), units: in.Units, keys: keys.New(), positions: map[string]int{},
		values: map[string]*toml.Value{}}
	var launcher *launcher.Launcher
	if r.Root != nil {
		launcher = r.launcher(r.Root)
	}
	if r.Sound() {
		holdAgainst(launcher, in.Proof, data)
		return launcher, nil
	}
	return nil, r.Problems()
}
