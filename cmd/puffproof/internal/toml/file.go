// Package toml reads a TOML file into a tree of tables in which every key and value
// knows its place, and gathers what is wrong with the file. It goes on behind a fault,
// so that all of them are found at once.
package toml

import (
	"cmp"
	"slices"

	"puffproof/cmd/puffproof/internal/problem"
)

// File is one file under reading.
type File struct {
	Root     *Table // nil where nothing could be read
	Partial  bool   // syntax errors: what is missing cannot be known
	name     string
	again    func(table, found string) (problem.Problem, bool)
	data     []byte // without a byte order mark
	lines    []int  // offset of each line's first byte
	problems []placed
}

// placed is a problem with its offset, for sorting.
type placed struct {
	offset int
	problem.Problem
}

// mostProblems bounds the list. A file with more is not a design file.
const mostProblems = 200

// Read reads a file into a tree. The name is used in problems only. Again gives the
// problem of a table that is written twice, where there is more to say of it than that.
func Read(name string, data []byte, again func(table, found string) (problem.Problem, bool)) *File {
	f := &File{name: name, again: again}
	if f.text(data) {
		f.Root = newTable("", 0)
		f.parse()
	}
	return f
}

// Sound tells that no problem was found so far.
func (f *File) Sound() bool { return len(f.problems) == 0 }

// End is the offset behind the last byte.
func (f *File) End() int { return len(f.data) }

// Problems gives the problems in the order of the file, each place and message
// once.
func (f *File) Problems() []problem.Problem {
	slices.SortStableFunc(f.problems, func(a, b placed) int { return cmp.Compare(a.offset, b.offset) })
	list := make([]problem.Problem, 0, len(f.problems))
	for i, p := range f.problems {
		if i > 0 && f.problems[i-1].Problem == p.Problem {
			continue
		}
		if len(list) == mostProblems {
			return append(list, problem.Problem{File: p.File, Line: p.Line, Column: p.Column, Message: "more problems follow; these first"})
		}
		list = append(list, p.Problem)
	}
	return list
}

// Fault adds a problem at an offset.
func (f *File) Fault(offset int, p problem.Problem) {
	p.File = f.name
	p.Line, p.Column = f.place(offset)
	p.Found = problem.Clip(p.Found)
	f.problems = append(f.problems, placed{offset, p})
}
