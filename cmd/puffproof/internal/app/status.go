package app

import (
	"errors"
	"fmt"
	"io"
	"puffproof/cmd/puffproof/internal/render"
	"puffproof/limits/worst"
	"strings"
)

// status is an exit status of the program.
type status int

// The exit statuses. Scripts rely on them.
const (
	statusOK          status = 0   // every verdict passes or is not applicable
	statusNotHeld     status = 1   // some verdict fails or is unknown
	statusInput       status = 2   // the command line, a file or a design is wrong
	statusWithheld    status = 3   // a computation failed its own checks
	statusInterrupted status = 130 // 128 + SIGINT, as shells expect (common practice, no source)
)

// inputError is the user's to mend: status 2.
type inputError struct{ text string }

func (e *inputError) Error() string { return e.text }

// inputErrorf makes an inputError.
func inputErrorf(format string, args ...any) error {
	return &inputError{fmt.Sprintf(format, args...)}
}

// listedError is a list of problems that names its own places, one a line.
type listedError struct{ err error }

func (e *listedError) Error() string { return e.err.Error() }
func (e *listedError) Unwrap() error { return e.err }

var errInterrupted = errors.New("interrupted, nothing was written")

// reportError writes the message for err and gives its status.
func reportError(stderr io.Writer, err error) status {
	var input *inputError
	var listed *listedError
	switch {
	case errors.Is(err, errInterrupted):
		fmt.Fprintln(stderr, "puffproof: "+err.Error())
		return statusInterrupted
	case errors.As(err, &listed):
		for l := range strings.Lines(strings.TrimRight(listed.Error(), "\n")) {
			fmt.Fprintln(stderr, render.Clean(strings.TrimRight(l, "\n")))
		}
		return statusInput
	case errors.As(err, &input):
		fmt.Fprintln(stderr, "puffproof: "+render.Clean(input.text))
		return statusInput
	}
	var withheld *worst.WithheldError // says so itself
	text := "the result is withheld: " + err.Error()
	if errors.As(err, &withheld) {
		text = withheld.Error()
	}
	fmt.Fprintln(stderr, "puffproof: "+render.Clean(text))
	return statusWithheld
}
