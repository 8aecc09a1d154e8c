package main

import (
	"fmt"
	"os"
	"regexp"
	"strings"
)

// allowed is a difference that is expected.
type allowed struct {
	pattern, reason string
	expression      *regexp.Regexp // nil: the pattern is a path or a kind of path
	used            int
}

// readAllowed reads the file of -allow. Each line is
//
//	PATTERN :: REASON
//
// where PATTERN is a path of JSON, such as verdicts[dates.past].status, alone or after a
// command's name, or a regular expression between slashes that is held against
// "COMMAND PATH: OLD -> NEW". Empty lines and those that begin with # say nothing.
func readAllowed(name string) ([]*allowed, error) {
	if name == "" {
		return nil, nil
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, err
	}
	var out []*allowed
	n := 0
	for line := range strings.Lines(string(data)) {
		n++
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		pattern, reason, ok := strings.Cut(line, " :: ")
		a := &allowed{pattern: strings.TrimSpace(pattern), reason: strings.TrimSpace(reason)}
		if !ok || a.reason == "" {
			return nil, fmt.Errorf("%s:%d: a difference needs a reason: PATTERN :: REASON", name, n)
		}
		if p := a.pattern; len(p) > 2 && p[0] == '/' && p[len(p)-1] == '/' {
			if a.expression, err = regexp.Compile(p[1 : len(p)-1]); err != nil {
				return nil, fmt.Errorf("%s:%d: %w", name, n, err)
			}
		}
		out = append(out, a)
	}
	return out, nil
}

// covers tells whether a difference is of this kind.
func (a *allowed) covers(d difference) bool {
	if a.expression != nil {
		return a.expression.MatchString(d.String())
	}
	for _, path := range []string{d.path, d.kind} {
		if a.pattern == path || a.pattern == d.command+" "+path {
			return true
		}
	}
	return false
}
