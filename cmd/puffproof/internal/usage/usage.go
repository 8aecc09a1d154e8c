// Package usage is the command line as words: commands with their options, a line understood
// (flags on either side of the file name, one-line errors, hints at what was meant), help,
// and the scripts that complete a line in a shell.
//
// It runs nothing and knows no design. Start reading at Command, then at Parse.
package usage

import "fmt"

// Error is what is wrong with a command line, or with what it names: the user's to mend.
type Error struct{ text string }

func (e *Error) Error() string { return e.text }

// Errorf makes an Error.
func Errorf(format string, args ...any) error { return &Error{fmt.Sprintf(format, args...)} }
