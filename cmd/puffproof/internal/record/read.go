package record

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
)

// Log is what a record says.
type Log struct {
	Entries []Entry
	Altered []string // what is not as it was written, in words with its line; nil: nothing
	Torn    int      // bytes behind the last whole line that a crash left; 0: none
	Cut     int      // lines that crashes cut off earlier, and that are told of

	chain string // of the last entry
	ended bool   // the last byte ends a line
	torn  []byte
	size  int
	sum   [sha256.Size]byte
}

// Read understands the bytes of a record; of nothing it is empty. It never fails: what it cannot read it tells of.
func Read(data []byte) *Log {
	l := &Log{ended: true, size: len(data), sum: sha256.Sum256(data)}
	var waiting []byte // a line that is none, until the next one tells of it
	at := 0
	for line := 1; len(data) > 0; line++ {
		text, rest, whole := bytes.Cut(data, []byte("\n"))
		data = rest
		e, body, ok := parse(text)
		switch {
		case ok && waiting != nil && e.Kind == Torn && e.Bytes == len(waiting) && e.SHA256 == sumOf(waiting):
			waiting = nil
			l.Cut++
		case waiting != nil:
			l.Altered = append(l.Altered, fmt.Sprintf("line %d is no entry", at))
			waiting = nil
		}
		switch {
		case ok:
			e.Line = line
			l.take(e, body)
			l.ended = whole
		case !whole:
			l.torn, l.Torn = text, len(text)
		case len(text) > 0:
			waiting, at = text, line
		}
	}
	if waiting != nil {
		l.Altered = append(l.Altered, fmt.Sprintf("line %d is no entry", at))
	}
	return l
}

// Ends are the last letters of a record, in groups of four as people compare them: the beginning of its last chain, on which every
// line before it bears; "" of an empty one, and of none.
func (l *Log) Ends() string {
	if l == nil || len(l.Entries) == 0 {
		return ""
	}
	var b strings.Builder
	for i, r := range l.Entries[len(l.Entries)-1].Name() {
		if i > 0 && i%4 == 0 {
			b.WriteByte(' ')
		}
		b.WriteRune(r)
	}
	return b.String()
}

// Mark tells two states of a record apart.
func (l *Log) Mark() string { return hex.EncodeToString(l.sum[:]) }

// take adds an entry and holds its place and its chain against those before it.
func (l *Log) take(e Entry, body []byte) {
	n := 1
	if k := len(l.Entries); k > 0 {
		n = l.Entries[k-1].N + 1
	}
	before := len(l.Altered)
	switch {
	case e.N != n:
		l.Altered = append(l.Altered, fmt.Sprintf("line %d: entry %d stands where entry %d belongs", e.Line, e.N, n))
	case e.Chain != chainOf(l.chain, body):
		l.Altered = append(l.Altered, fmt.Sprintf("line %d: entry %d is not as it was written", e.Line, e.N))
	}
	e.Altered = len(l.Altered) > before
	l.Entries, l.chain = append(l.Entries, e), e.Chain
}

// parse understands one line; body is the entry without its chain.
func parse(text []byte) (e Entry, body []byte, ok bool) {
	i := bytes.LastIndex(text, chainKey)
	if i < 0 || !bytes.HasSuffix(text, []byte(`"}`)) {
		return e, nil, false
	}
	body = append(bytes.Clone(text[:i]), '}')
	dec := json.NewDecoder(bytes.NewReader(body))
	dec.DisallowUnknownFields()
	if err := dec.Decode(&e); err != nil || e.N < 1 || dec.More() {
		return Entry{}, nil, false
	}
	e.Chain = string(text[i+len(chainKey) : len(text)-2])
	return e, body, len(e.Chain) == 2*sha256.Size
}

func sumOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// Readings are the entries of steps.
func (l *Log) Readings() (out []Entry) {
	for _, e := range l.Entries {
		if e.Kind == Reading {
			out = append(out, e)
		}
	}
	return out
}

// Pending are the readings whose answers may not stand in the design yet, oldest first: a run ended between the two.
func (l *Log) Pending() (out []Entry) {
	written := map[int]bool{}
	for _, e := range l.Entries {
		for _, n := range e.Of {
			written[n] = true
		}
	}
	return slices.DeleteFunc(l.Readings(), func(e Entry) bool { return written[e.N] })
}

// Newest is the last reading of a step; nil: there is none.
func (l *Log) Newest(step string) *Entry {
	for i := len(l.Entries) - 1; i >= 0; i-- {
		if e := &l.Entries[i]; e.Kind == Reading && e.Step == step {
			return e
		}
	}
	return nil
}

// DesignBefore is what the design said when an entry was written; nil: no entry before it tells.
func (l *Log) DesignBefore(n int) map[string]string {
	var keys map[string]string
	for i := range l.Entries {
		if l.Entries[i].N >= n {
			break
		}
		if l.Entries[i].Kind == Design {
			keys = l.Entries[i].Keys
		}
	}
	return keys
}

// LastDesign is what the design said for the newest readings; nil: no entry tells.
func (l *Log) LastDesign() map[string]string {
	if len(l.Entries) == 0 {
		return nil
	}
	return l.DesignBefore(l.Entries[len(l.Entries)-1].N + 1)
}
