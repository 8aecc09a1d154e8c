// Package design reads design files: the one TOML file that describes a
// launcher. One table of keys (key.go and the files keys_*.go) makes the strict
// reader, the commented template, the reference text and the JSON schema.
//
// It turns text into a limits.Launcher in SI units, every quantity with a
// tolerance, stated or assumed. It judges nothing about safety: it refuses only
// what is unreadable, contradictory, impossible or outside the model's range.
// Start reading at Read, then key.go.
package design

import (
	"cmp"
	"slices"

	"puffproof/cmd/puffproof/internal/problem"
	"puffproof/limits/launcher"
)

// Problem is one fault of a design file.
type Problem = problem.Problem

// Version of the design file's keys, printed in the reference and the schema.
const Version = "1"

// Read reads a design file. The name is used in problems only. Where there are
// problems the launcher is nil and the list holds every fault that was found, in
// the order of the file.
func Read(name string, data []byte) (*launcher.Launcher, []Problem) {
	r := &reader{file: name, keys: newKeyTable(), positions: map[string]int{}}
	body, ok := r.text(data)
	if ok {
		r.tree = r.parse(body)
	}
	var launcher *launcher.Launcher
	if r.tree != nil {
		launcher = r.launcher(r.tree)
	}
	if len(r.problems) == 0 {
		return launcher, nil
	}
	return nil, r.listed()
}

// reader is one reading of one file.
type reader struct {
	file      string
	data      []byte // without a byte order mark
	lines     []int  // offset of each line's first byte
	keys      *keyTable
	tree      *table
	partial   bool // syntax errors: what is missing cannot be known
	ambient   launcher.Band
	positions map[string]int // offset of each key that was read, by dotted key
	problems  []placed
}

// placed is a problem with its offset, for sorting.
type placed struct {
	offset int
	Problem
}

// mostProblems bounds the list. A file with more is not a design file.
const mostProblems = 200

// listed gives the problems in the order of the file, each place and message
// once.
func (r *reader) listed() []Problem {
	slices.SortStableFunc(r.problems, func(a, b placed) int { return cmp.Compare(a.offset, b.offset) })
	list := make([]Problem, 0, len(r.problems))
	for i, p := range r.problems {
		if i > 0 && r.problems[i-1].Problem == p.Problem {
			continue
		}
		if len(list) == mostProblems {
			p.Problem = Problem{File: p.File, Line: p.Line, Column: p.Column, Message: "more problems follow; these first"}
			list = append(list, p.Problem)
			break
		}
		list = append(list, p.Problem)
	}
	return list
}

// fault adds a problem at an offset.
func (r *reader) fault(offset int, p Problem) {
	p.File = r.file
	p.Line, p.Column = r.place(offset)
	p.Found = problem.Clip(p.Found)
	r.problems = append(r.problems, placed{offset, p})
}
