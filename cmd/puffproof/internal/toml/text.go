package toml

import (
	"bytes"
	"fmt"
	"slices"
	"unicode/utf8"

	"puffproof/cmd/puffproof/internal/problem"
)

// maxSize bounds a design file in bytes. A real one has a few thousand.
const maxSize = 1 << 20

// text holds the raw file to what a design file can be, and strips a byte order
// mark. It gives false where nothing can be read.
func (f *File) text(data []byte) bool {
	if len(data) > maxSize {
		f.Fault(0, problem.Problem{Message: fmt.Sprintf("the file has %d bytes; a design file has at most %d", len(data), maxSize),
			Hint: "is this the right file?"})
		return false
	}
	if bytes.HasPrefix(data, []byte{0xff, 0xfe}) || bytes.HasPrefix(data, []byte{0xfe, 0xff}) {
		f.Fault(0, problem.Problem{Message: "the file is UTF-16 text", Want: "UTF-8 text", Hint: `save it again with the encoding "UTF-8"`})
		return false
	}
	f.data = slices.Clip(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")))
	f.lines = []int{0}
	for i, b := range f.data {
		if b == '\n' {
			f.lines = append(f.lines, i+1)
		}
	}
	if bad := firstInvalid(f.data); bad >= 0 {
		p := problem.Problem{Message: fmt.Sprintf("byte 0x%02x is not UTF-8 text", f.data[bad]), Want: "UTF-8 text",
			Hint: `save the file again with the encoding "UTF-8"`}
		if f.data[bad] == 0xb1 || f.data[bad] == 0xb0 {
			p.Hint = `± or ° in an older encoding: save as "UTF-8", or write +/- and degC`
		}
		f.Fault(bad, p)
		return false
	}
	if cr := bytes.IndexByte(f.data, '\r'); cr >= 0 && len(f.lines) == 1 && cr < len(f.data)-1 {
		f.Fault(cr, problem.Problem{Message: "the lines end in a carriage return alone, so that the file is one line", // TOML 1.0.0, "Spec"
			Want: "lines that end in LF or CR LF", Hint: "save the file again with the line ends of Unix or Windows"})
		return false
	}
	if len(bytes.TrimSpace(f.data)) == 0 {
		f.Fault(0, problem.Problem{Message: "the file is empty", Hint: "puffproof init writes a file to start from"})
		return false
	}
	return true
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
func (f *File) place(offset int) (line, column int) {
	if len(f.lines) == 0 {
		return 1, 1
	}
	offset = min(max(offset, 0), len(f.data))
	i, exact := slices.BinarySearch(f.lines, offset)
	if !exact {
		i--
	}
	return i + 1, utf8.RuneCount(f.data[f.lines[i]:offset]) + 1
}

// line gives the line number of an offset.
func (f *File) Line(offset int) int {
	l, _ := f.place(offset)
	return l
}
