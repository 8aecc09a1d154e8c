package design

import (
	"bytes"
	"fmt"
	"slices"
	"unicode/utf8"
)

// maxSize bounds a design file in bytes. A real one has a few thousand.
const maxSize = 1 << 20

// text holds the raw file to what a design file can be, and strips a byte order
// mark. It gives false where nothing can be read.
func (r *reader) text(data []byte) ([]byte, bool) {
	if len(data) > maxSize {
		r.fault(0, Problem{Message: fmt.Sprintf("the file has %d bytes; a design file has at most %d", len(data), maxSize),
			Hint: "is this the right file?"})
		return nil, false
	}
	if bytes.HasPrefix(data, []byte{0xff, 0xfe}) || bytes.HasPrefix(data, []byte{0xfe, 0xff}) {
		r.fault(0, Problem{Message: "the file is UTF-16 text", Want: "UTF-8 text", Hint: `save it again with the encoding "UTF-8"`})
		return nil, false
	}
	r.data = slices.Clip(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")))
	r.lines = []int{0}
	for i, b := range r.data {
		if b == '\n' {
			r.lines = append(r.lines, i+1)
		}
	}
	if bad := firstInvalid(r.data); bad >= 0 {
		p := Problem{Message: fmt.Sprintf("byte 0x%02x is not UTF-8 text", r.data[bad]), Want: "UTF-8 text",
			Hint: `save the file again with the encoding "UTF-8"`}
		if r.data[bad] == 0xb1 || r.data[bad] == 0xb0 {
			p.Hint = `± or ° in an older encoding: save as "UTF-8", or write +/- and degC`
		}
		r.fault(bad, p)
		return nil, false
	}
	if len(bytes.TrimSpace(r.data)) == 0 {
		r.fault(0, Problem{Message: "the file is empty", Hint: "puffproof init writes a file to start from"})
		return nil, false
	}
	return r.data, true
}

// firstInvalid gives the offset of the first byte that is not UTF-8, or -1.
func firstInvalid(data []byte) int {
	for i := 0; i < len(data); {
		c, n := utf8.DecodeRune(data[i:])
		if c == utf8.RuneError && n == 1 {
			return i
		}
		i += n
	}
	return -1
}

// place turns an offset into a line and a column, both from 1; the column
// counts characters.
func (r *reader) place(offset int) (line, column int) {
	if len(r.lines) == 0 {
		return 1, 1
	}
	offset = min(max(offset, 0), len(r.data))
	i, exact := slices.BinarySearch(r.lines, offset)
	if !exact {
		i--
	}
	return i + 1, utf8.RuneCount(r.data[r.lines[i]:offset]) + 1
}

// line gives the line number of an offset.
func (r *reader) line(offset int) int {
	l, _ := r.place(offset)
	return l
}
