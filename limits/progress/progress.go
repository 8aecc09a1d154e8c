// Package progress tells whoever waits what is being computed: what is looked at, how
// far it is, what it has found so far. A computation tells the function that its context
// carries; without one nothing is told and nothing is counted. No result depends on it.
//
// Start reading at With.
package progress

import (
	"context"
	"slices"

	"puffproof/limits/finding"
)

// Report says what a computation is at. Several that go side by side tell each its own.
type Report struct {
	Looking []finding.Text // what is looked at: the whole first, then a part of it
	Done    int            // steps of that part that are done, at most All
	All     int            // its steps; 0: it has none that can be counted
	Found   finding.Text   // what the part has found so far; nil: nothing that can be said
}

// Teller tells of one part of a computation. A nil one tells nobody.
type Teller struct {
	tell    func(Report)
	looking []finding.Text
}

type tellerKey struct{}

// With gives a context below which computations tell a function what they are at. They
// call it from many goroutines, some hundred times a second: it returns at once.
func With(ctx context.Context, tell func(Report)) context.Context {
	return context.WithValue(ctx, tellerKey{}, &Teller{tell: tell})
}

// Of is the teller of the part that a context belongs to; nil: nobody listens.
func Of(ctx context.Context) *Teller {
	t, _ := ctx.Value(tellerKey{}).(*Teller)
	return t
}

// Looking gives the context of a part of what ctx belongs to, and tells that it begins.
func Looking(ctx context.Context, at finding.Text) context.Context {
	t := Of(ctx)
	if t == nil || len(at) == 0 {
		return ctx
	}
	part := &Teller{t.tell, append(slices.Clone(t.looking), at)}
	part.Tell(0, 0, nil)
	return context.WithValue(ctx, tellerKey{}, part)
}

// Tell tells how many steps of the part are done of how many, and what it has found so
// far.
func (t *Teller) Tell(done, all int, found finding.Text) {
	if t != nil {
		t.tell(Report{t.looking, min(done, all), all, found})
	}
}
