package edit

import (
	"bytes"
	"strings"

	"puffproof/cmd/puffproof/internal/toml"
)

// Where things stand in a file that is known to be TOML.

// inline tells that a table is written as one value, within braces.
func (f *File) inline(e *toml.Entry) bool {
	at := f.behindKey(e.Offset)
	return at < len(f.data) && f.data[at] == '{'
}

// span is where the value of a key begins and ends.
func (f *File) span(e *toml.Entry) (from, to int) {
	from = f.behindKey(e.Offset)
	return from, f.endOfValue(from)
}

// behindKey is where the value begins of the key, or the last part of a dotted one, at an offset.
func (f *File) behindKey(at int) int {
	if c := f.data[at]; c == '"' || c == '\'' {
		at = f.endOfString(at)
	} else {
		for at < len(f.data) && bytes.IndexByte([]byte(" \t=.]\r\n"), f.data[at]) < 0 {
			at++
		}
	}
	for at < len(f.data) && bytes.IndexByte([]byte(" \t="), f.data[at]) >= 0 {
		at++
	}
	return at
}

// endOfValue is the offset behind the value that begins at an offset.
func (f *File) endOfValue(at int) int {
	switch f.data[at] {
	case '"', '\'':
		return f.endOfString(at)
	case '[', '{':
		return f.endOfList(at)
	}
	end := at
	for end < len(f.data) && bytes.IndexByte([]byte(",]}#\r\n"), f.data[end]) < 0 {
		end++
	}
	return at + len(bytes.TrimRight(f.data[at:end], " \t"))
}

// endOfList is the offset behind a list or an inline table.
func (f *File) endOfList(at int) int {
	depth := 0
	for at < len(f.data) {
		switch f.data[at] {
		case '"', '\'':
			at = f.endOfString(at)
			continue
		case '#':
			for at < len(f.data) && f.data[at] != '\n' {
				at++
			}
			continue
		case '[', '{':
			depth++
		case ']', '}':
			if depth--; depth == 0 {
				return at + 1
			}
		}
		at++
	}
	return at
}

// endOfString is the offset behind a string of any of the four kinds.
func (f *File) endOfString(at int) int {
	quote := f.data[at : at+1]
	if three := bytes.Repeat(quote, 3); bytes.HasPrefix(f.data[at:], three) {
		quote = three
	}
	at += len(quote)
	for at < len(f.data) {
		switch {
		case f.data[at] == '\\' && quote[0] == '"':
			at += 2
		case bytes.HasPrefix(f.data[at:], quote):
			at += len(quote)
			for len(quote) == 3 && at < len(f.data) && f.data[at] == quote[0] { // up to two more belong to the text
				at++
			}
			return at
		default:
			at++
		}
	}
	return at
}

// startOfLine is the offset of the first byte of a line.
func (f *File) startOfLine(at int) int { return bytes.LastIndexByte(f.data[:at], '\n') + 1 }

// endOfLine is the offset behind the end of a line.
func (f *File) endOfLine(at int) int {
	if n := bytes.IndexByte(f.data[at:], '\n'); n >= 0 {
		return at + n + 1
	}
	return len(f.data)
}

// lineEnd is how the file ends its lines.
func (f *File) lineEnd() string {
	if bytes.Contains(f.data, []byte("\r\n")) {
		return "\r\n"
	}
	return "\n"
}

// insert puts lines at the start of a line, or behind a last line without an end.
func (f *File) insert(at int, lines ...string) {
	text := strings.Join(lines, f.lineEnd()) + f.lineEnd()
	if at > 0 && f.data[at-1] != '\n' {
		text = f.lineEnd() + text
	}
	f.replace(at, at, text)
}
