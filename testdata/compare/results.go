package main

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"sync"
	"time"
)

// tally counts a command's designs.
type tally struct {
	designs, identical, different, allowed, timeouts int
	seconds                                          [2]float64 // processor time of the old and of the new program
}

// group is all differences of one kind in one command.
type group struct {
	command, kind, reason string
	count                 int
	designs               map[string]bool
	first                 difference
}

// slowOne is a command that took long.
type slowOne struct {
	step, design string
	seconds      float64
}

// results collects what became of every step on every design.
type results struct {
	mutex    sync.Mutex
	expected []*allowed
	tallies  map[string]*tally
	groups   map[string]*group
	slowest  []slowOne
	finished int // designs
	errs     []error
}

func newResults(expected []*allowed) *results {
	return &results{expected: expected, tallies: map[string]*tally{}, groups: map[string]*group{}}
}

// add takes a finding in; nil is none.
func (r *results) add(f *finding) {
	if f == nil {
		return
	}
	r.mutex.Lock()
	defer r.mutex.Unlock()
	t := r.tallies[f.step]
	if t == nil {
		t = &tally{}
		r.tallies[f.step] = t
	}
	t.designs++
	t.seconds[0] += f.computed[0]
	t.seconds[1] += f.computed[1]
	r.slowest = append(r.slowest, slowOne{f.step, f.design, max(f.computed[0], f.computed[1])})
	unexpected := 0
	for _, d := range f.differences {
		if !r.group(d) {
			unexpected++
		}
	}
	switch {
	case f.timedOut:
		t.timeouts++
	case unexpected > 0:
		t.different++
	case len(f.differences) > 0:
		t.allowed++
	default:
		t.identical++
	}
}

// group counts a difference with its kind and tells whether it was expected.
func (r *results) group(d difference) bool {
	reason := ""
	for _, a := range r.expected {
		if a.covers(d) {
			a.used++
			reason = a.reason
			break
		}
	}
	key := d.command + "\x00" + d.kind + "\x00" + reason
	g := r.groups[key]
	if g == nil {
		g = &group{command: d.command, kind: d.kind, reason: reason, designs: map[string]bool{}, first: d}
		r.groups[key] = g
	}
	g.count++
	g.designs[d.design] = true
	if d.design < g.first.design { // the same example whichever ran first
		g.first = d
	}
	return reason != ""
}

// done counts a design, with what went wrong while it was compared.
func (r *results) done(err error) {
	r.mutex.Lock()
	defer r.mutex.Unlock()
	r.finished++
	if err != nil {
		r.errs = append(r.errs, err)
	}
}

// progress says now and then how far it is.
func (r *results) progress(w io.Writer, all int) {
	r.mutex.Lock()
	defer r.mutex.Unlock()
	if r.finished%10 == 0 {
		fmt.Fprintf(w, "%s %d of %d designs\n", time.Now().Format(time.TimeOnly), r.finished, all)
	}
}

// unexpected tells whether there is a difference that -allow does not name.
func (r *results) unexpected() bool {
	for _, t := range r.tallies {
		if t.different > 0 {
			return true
		}
	}
	return false
}

// write prints the table, the kinds of difference, and what took long.
func (r *results) write(w io.Writer, dear time.Duration) {
	fmt.Fprintf(w, "%-18s%9s%11s%11s%9s%10s%9s%9s\n",
		"command", "designs", "identical", "different", "allowed", "timeouts", "old, s", "new, s")
	var all tally
	for _, s := range steps() {
		if t := r.tallies[s.name]; t != nil {
			t.line(w, s.name)
			all.sum(*t)
		}
	}
	all.line(w, "all")
	groups := slices.SortedFunc(maps.Values(r.groups), func(a, b *group) int {
		return cmp.Or(-cmp.Compare(a.count, b.count), cmp.Compare(a.command, b.command), cmp.Compare(a.kind, b.kind))
	})
	expected := func(g *group) bool { return g.reason != "" }
	writeGroups(w, "Differences that were not expected", slices.DeleteFunc(slices.Clone(groups), expected))
	writeGroups(w, "Differences that were expected", slices.DeleteFunc(groups, func(g *group) bool { return !expected(g) }))
	for _, a := range r.expected {
		if a.used == 0 {
			fmt.Fprintf(w, "\nNever met: %s (%s)\n", a.pattern, a.reason)
		}
	}
	r.writeSlow(w, dear)
	fmt.Fprintln(w)
}

func (t tally) line(w io.Writer, name string) {
	fmt.Fprintf(w, "%-18s%9d%11d%11d%9d%10d%9.1f%9.1f\n",
		name, t.designs, t.identical, t.different, t.allowed, t.timeouts, t.seconds[0], t.seconds[1])
}

func (t *tally) sum(o tally) {
	t.designs += o.designs
	t.identical += o.identical
	t.different += o.different
	t.allowed += o.allowed
	t.timeouts += o.timeouts
	t.seconds[0] += o.seconds[0]
	t.seconds[1] += o.seconds[1]
}

// longestShown bounds a value of an example, in characters.
const longestShown = 300

func writeGroups(w io.Writer, title string, groups []*group) {
	if len(groups) == 0 {
		return
	}
	fmt.Fprintf(w, "\n%s, by kind; the first example of each\n", title)
	for _, g := range groups {
		fmt.Fprintf(w, "\n%d x %s %s, %d designs\n", g.count, g.command, g.kind, len(g.designs))
		if g.reason != "" {
			fmt.Fprintf(w, "    expected: %s\n", g.reason)
		}
		fmt.Fprintf(w, "    %s: %s\n    - %s\n    + %s\n", g.first.design, g.first.path, clip(g.first.old), clip(g.first.new))
	}
}

func clip(s string) string {
	if r := []rune(s); len(r) > longestShown {
		return string(r[:longestShown]) + "…"
	}
	return s
}

// writeSlow lists the checks that computed so long that their designs were not asked
// further, and other commands that took five times as long.
func (r *results) writeSlow(w io.Writer, dear time.Duration) {
	slices.SortFunc(r.slowest, func(a, b slowOne) int { return -cmp.Compare(a.seconds, b.seconds) })
	headed := false
	for _, s := range r.slowest {
		if s.seconds < dear.Seconds() || s.step != "check" && s.seconds < 5*dear.Seconds() {
			continue
		}
		if !headed {
			fmt.Fprintln(w, "\nLong ones; a design with a long check was not asked further")
			headed = true
		}
		fmt.Fprintf(w, "    %6.1f s  %s on %s\n", s.seconds, s.step, s.design)
	}
}

// err is what kept the comparison from being whole.
func (r *results) err() error { return errors.Join(r.errs...) }
