package main

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"unicode/utf8"
)

// difference is one place where the two programs differ.
type difference struct {
	command, design string
	path            string // where: verdicts[energy.total].value, or a line of text
	kind            string // the path of all of its kind: without numbers, and names but those of verdicts
	old, new        string
}

// String is what a regular expression of the -allow file is held against.
func (d difference) String() string {
	return d.command + " " + d.path + ": " + d.old + " -> " + d.new
}

// finding is what became of a step on a design.
type finding struct {
	step, design string
	computed     [2]float64 // processor time of the old and the new program [s]
	timedOut     bool       // the old program, or both
	differences  []difference
}

// compare runs a step in both programs. It gives nil where the design has nothing to
// run it on, and where it went wrong: then the scene has an error.
func (s *scene) compare(p step) *finding {
	f := &finding{step: p.name, design: s.design.name}
	a, ok := s.outcome(p, s.was)
	if !ok {
		return nil
	}
	f.computed[0] = a.Computed.Seconds()
	if a.TimedOut {
		f.timedOut = true
		return f
	}
	b, ran := s.outcome(p, s.now)
	if s.err != nil {
		return nil
	}
	f.computed[1] = b.Computed.Seconds()
	f.differences = s.between(p, a, b, ran)
	if len(f.differences) > 0 && a.Day != s.runner.day { // an answer may change with the day
		today := s.was
		today.fresh = true
		if a, ok = s.outcome(p, today); ok {
			f.differences = s.between(p, a, b, ran)
		}
	}
	return f
}

// between lists the differences of two outcomes.
func (s *scene) between(p step, a, b outcome, ran bool) []difference {
	w := &differ{command: p.name, design: s.design.name}
	switch {
	case !ran:
		w.add("(not run)", "(not run)", "ran", "an earlier command left no file for it")
		return w.found
	case b.TimedOut:
		took, limit := fmt.Sprintf("%.1f s", a.Computed.Seconds()), fmt.Sprintf("more than %.0f s", b.Limit.Seconds())
		w.add("(out of time)", "(out of time)", took, limit)
		return w.found
	}
	if a.Exit != b.Exit {
		w.add("(exit status)", "(exit status)", fmt.Sprint(a.Exit), fmt.Sprint(b.Exit))
	}
	clean := func(data []byte, of program) []byte { return neutral(data, of.version, s.was.version != s.now.version) }
	stream := func(name string, was, now []byte) {
		if !bytes.Equal(was, now) {
			w.stream(name, clean(was, s.was), clean(now, s.now))
		}
	}
	stream("", a.Stdout, b.Stdout)
	stream("stderr", a.Stderr, b.Stderr)
	names := maps.Clone(a.Files)
	maps.Copy(names, b.Files)
	for _, name := range slices.Sorted(maps.Keys(names)) {
		was, had := a.Files[name]
		now, has := b.Files[name]
		if had != has {
			w.add("file "+name, "file "+name, thereOr(had), thereOr(has))
			continue
		}
		stream("file "+name, was, now)
	}
	return w.found
}

func thereOr(there bool) string {
	if there {
		return "written"
	}
	return "not written"
}

var archive = regexp.MustCompile(`puffproof-archive:[A-Za-z0-9+/=]+`)

// neutral makes a paper's archive readable and, where the two programs have other
// versions, takes the version out.
func neutral(data []byte, version string, versions bool) []byte {
	data = archive.ReplaceAllFunc(data, func(found []byte) []byte {
		text, err := base64.StdEncoding.DecodeString(string(found[len("puffproof-archive:"):]))
		var b bytes.Buffer
		if err != nil || json.Indent(&b, text, "", " ") != nil {
			return found
		}
		return b.Bytes()
	})
	if versions && version != "" {
		data = bytes.ReplaceAll(data, []byte(version), []byte("VERSION"))
	}
	return data
}

// differ collects differences of one step on one design.
type differ struct {
	command, design string
	found           []difference
}

func (w *differ) add(path, kind, old, new string) {
	w.found = append(w.found, difference{w.command, w.design, path, kind, old, new})
}

// stream compares what went to one place: as JSON where both are, else line by line.
func (w *differ) stream(name string, was, now []byte) {
	if bytes.Equal(was, now) {
		return
	}
	before := len(w.found)
	a, errA := decode(was)
	b, errB := decode(now)
	prefix := ""
	if name != "" {
		prefix = name + ": "
	}
	switch {
	case errA == nil && errB == nil:
		w.json(prefix, prefix, a, b)
	case !utf8.Valid(was) || !utf8.Valid(now):
		w.add(prefix+"(bytes)", prefix+"(bytes)", fmt.Sprintf("%d bytes", len(was)), fmt.Sprintf("%d bytes", len(now)))
	default:
		w.text(prefix, string(was), string(now))
	}
	if len(w.found) == before {
		w.add(prefix+"(layout)", prefix+"(layout)", "the same values", "written in another way")
	}
}
