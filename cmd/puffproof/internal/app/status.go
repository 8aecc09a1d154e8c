package app

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"puffproof/cmd/puffproof/internal/problem"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/cmd/puffproof/internal/usage"
	"puffproof/limits/worst"
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

// heldStatus is the exit status of an answer that holds or does not.
func heldStatus(holds bool) status {
	if holds {
		return statusOK
	}
	return statusNotHeld
}

// inputError is the user's to mend: status 2.
type inputError = usage.Error

// inputErrorf makes an inputError.
func inputErrorf(format string, args ...any) error { return usage.Errorf(format, args...) }

// fileError is what is wrong inside of a file: every problem with its place.
type fileError struct{ problems []problem.Problem }

func (e *fileError) Error() string {
	var b strings.Builder
	for _, p := range e.problems {
		b.WriteString(p.String() + "\n")
	}
	return strings.TrimSuffix(b.String(), "\n")
}

// interruption ends a run that a signal stopped: nothing more is written.
type interruption struct{ wrote []string } // files that had their names by then

func (e *interruption) Error() string {
	if len(e.wrote) == 0 {
		return "interrupted, nothing was written"
	}
	return "interrupted; written before: " + strings.Join(e.wrote, ", ")
}

// reportError writes the message for err and gives its status.
func reportError(stderr io.Writer, err error) status {
	var input *inputError
	var file *fileError
	var stopped *interruption
	switch {
	case errors.As(err, &stopped):
		fmt.Fprintln(stderr, "puffproof: "+show.Clean(stopped.Error()))
		return statusInterrupted
	case errors.As(err, &file):
		for l := range strings.Lines(file.Error()) {
			fmt.Fprintln(stderr, show.Clean(strings.TrimRight(l, "\n")))
		}
		return statusInput
	case errors.As(err, &input):
		fmt.Fprintln(stderr, "puffproof: "+show.Clean(input.Error()))
		return statusInput
	}
	var withheld *worst.WithheldError // says so itself
	var internal *internalError
	text := "the result is withheld: " + err.Error()
	switch {
	case errors.As(err, &withheld):
		text = withheld.Error()
	case errors.As(err, &internal):
		text = internal.text
	}
	fmt.Fprintln(stderr, "puffproof: "+show.Clean(text))
	return statusWithheld
}
