package inputfile

import (
	"bufio"
	"io"
)

// Line is a line of an input as it was read, or why none can be.
type Line struct {
	Text string
	Err  error
}

// Lines gives the lines of an input as they come, each at most so many bytes long; the channel is closed at its end. Nothing wakes a
// read that waits: it stays behind.
func Lines(in io.Reader, longest int) <-chan Line {
	out := make(chan Line)
	go func() {
		defer close(out)
		lines := bufio.NewScanner(in)
		lines.Buffer(make([]byte, longest), longest)
		for lines.Scan() {
			out <- Line{Text: lines.Text()}
		}
		if err := lines.Err(); err != nil {
			out <- Line{Err: err}
		}
	}()
	return out
}
