package search

import (
	"fmt"
	"runtime/debug"
)

// Raised is a panic of a worker, raised again in the goroutine that waits for it: what it was raised with, and the stack that
// tells where.
type Raised struct {
	Value any
	Stack []byte
}

// String is what the panic was raised with.
func (r Raised) String() string { return fmt.Sprint(r.Value) }

// Caught is what a worker that recovers keeps of a panic until it is raised again: the first place counts.
func Caught(p any) Raised {
	if r, ok := p.(Raised); ok {
		return r
	}
	return Raised{p, debug.Stack()}
}
