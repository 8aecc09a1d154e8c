package unit

import "fmt"

// Kind is the kind of fault in a quantity's text.
type Kind string

const (
	Empty          Kind = "empty"           // no text at all
	NotANumber     Kind = "not a number"    // no decimal number where one is needed
	CommaNumber    Kind = "comma in number" // a comma between digits
	FractionNumber Kind = "fraction"        // "1/2 in"
	TooExtreme     Kind = "too extreme"     // a number no launcher has, NaN, infinity
	NoUnit         Kind = "no unit"
	UnknownUnit    Kind = "unknown unit"
	WrongDimension Kind = "wrong dimension" // a mass where a force is wanted
	BadTolerance   Kind = "bad tolerance"
	BadOrigin      Kind = "bad origin"
	Trailing       Kind = "text left over"
	BelowZero      Kind = "below absolute zero"
)

// Error is one fault in a quantity's text. It is data: the caller adds the
// place in the file.
type Error struct {
	Kind   Kind
	Text   string // the offending part
	Offset int    // of Text within the quantity, in bytes
	Want   string // what would be accepted there
	Hint   string // what was probably meant; "" where nothing better is known
}

// Error gives the fault as one line.
func (e *Error) Error() string {
	s := fmt.Sprintf("%s: %q at byte %d; accepted: %s", e.Kind, e.Text, e.Offset, e.Want)
	if e.Hint != "" {
		s += "; " + e.Hint
	}
	return s
}
