package unit

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// largest bounds every number that is read. Nothing in a launcher is beyond
// 1e15 or, unless zero, below 1e-15 in any unit listed here.
const largest = 1e15

// maxDigits bounds the digits of a number; more cannot be meant.
const maxDigits = 40

// The number forms, compiled once and never changed.
var (
	decimal      = regexp.MustCompile(`^(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?`)
	commaNumber  = regexp.MustCompile(`^([0-9]+),([0-9]+)`)
	inchFraction = regexp.MustCompile(`^(?:([0-9]{1,3})[ -])?([0-9]{1,3})/([0-9]{1,3})`)
)

const numberWant = `a decimal number, such as 0.5 or 12 or 1.2e-8`

// scanner reads a quantity's text from left to right.
type scanner struct {
	text   string
	at     int
	system System // of the examples in faults
}

func (s *scanner) rest() string { return s.text[s.at:] }

func (s *scanner) done() bool {
	s.space()
	return s.at >= len(s.text)
}

// space skips blanks, the no-break ones of word processors too.
func (s *scanner) space() {
	s.at = len(s.text) - len(strings.TrimLeft(s.rest(), " \t\u00a0\u202f\u2009"))
}

// skip skips the first of the prefixes that stands here.
func (s *scanner) skip(prefixes ...string) bool {
	for _, p := range prefixes {
		if strings.HasPrefix(s.rest(), p) {
			s.at += len(p)
			return true
		}
	}
	return false
}

func (s *scanner) fail(k Kind, text, want, hint string) *Error {
	return &Error{Kind: k, Text: text, Offset: s.at, Want: want, Hint: hint}
}

// word is the run of text up to the next blank, for messages.
func (s *scanner) word() string {
	w := s.rest()
	if i := strings.IndexAny(w, " \t"); i >= 0 {
		w = w[:i]
	}
	if w == "" {
		w = s.text
	}
	return clip(w)
}

// clip shortens text for a message without cutting a character.
func clip(w string) string {
	r := []rune(w)
	if len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return w
}

// number reads an unsigned decimal number.
func (s *scanner) number() (float64, *Error) {
	s.space()
	if err := s.oddNumber(); err != nil {
		return 0, err
	}
	m := decimal.FindString(s.rest())
	if m == "" {
		return 0, s.fail(NotANumber, s.word(), numberWant, "")
	}
	v, err := strconv.ParseFloat(m, 64)
	digits, _, _ := strings.Cut(strings.ToLower(m), "e")
	tooSmall := math.Abs(v) < 1/largest && strings.ContainsAny(digits, "123456789")
	if err != nil || len(m) > maxDigits || math.Abs(v) > largest || tooSmall {
		return 0, s.fail(TooExtreme, clip(m), "a number between 1e-15 and 1e15, or 0", "")
	}
	s.at += len(m)
	if next := s.rest(); next != "" && (next[0] == '.' && !strings.HasPrefix(next, "...") || next[0] == '_' || next[0] == '\'' ||
		next[0] == ',' && len(next) > 1 && isDigit(next[1])) {
		s.at -= len(m)
		return 0, s.fail(NotANumber, s.word(), numberWant, "write digits and at most one decimal point")
	}
	return v, nil
}

func isDigit(b byte) bool { return b >= '0' && b <= '9' }

// oddNumber finds the number forms that people write and that are not read.
func (s *scanner) oddNumber() *Error {
	rest := s.rest()
	if m := commaNumber.FindStringSubmatch(rest); m != nil {
		hint := fmt.Sprintf("write %s.%s, not %s", m[1], m[2], m[0])
		if len(m[2]) == 3 && m[1] != "0" {
			hint = fmt.Sprintf("write %s%s if thousands are meant, %s.%s if not", m[1], m[2], m[1], m[2])
		}
		return s.fail(CommaNumber, clip(m[0]), "a decimal point", hint)
	}
	if m := inchFraction.FindStringSubmatch(rest); m != nil {
		return s.fail(FractionNumber, m[0], "a decimal number", s.fractionHint(m))
	}
	lower := strings.ToLower(rest)
	for _, w := range []string{"nan", "inf", "∞", "0x", "0b", "0o"} {
		if strings.HasPrefix(lower, w) {
			return s.fail(NotANumber, s.word(), numberWant, "")
		}
	}
	if strings.HasPrefix(rest, "≈") || strings.HasPrefix(rest, "~") {
		return s.fail(NotANumber, s.word(), numberWant, "write "+s.either(`"12 g, estimated"`, `"0.4 oz, estimated"`)+" for a rough figure")
	}
	if strings.HasPrefix(rest, "<") || strings.HasPrefix(rest, ">") || strings.HasPrefix(rest, "≤") || strings.HasPrefix(rest, "≥") {
		return s.fail(NotANumber, s.word(), numberWant, "write a range, such as "+s.either(`"0 to 5 N"`, `"0 to 1 lbf"`))
	}
	return nil
}

func (s *scanner) fractionHint(m []string) string {
	whole, _ := strconv.ParseFloat("0"+m[1], 64)
	top, _ := strconv.ParseFloat(m[2], 64)
	bottom, _ := strconv.ParseFloat(m[3], 64)
	if bottom == 0 {
		return "write a decimal number"
	}
	v := whole + top/bottom
	inches, mm := strconv.FormatFloat(v, 'g', 6, 64)+" in", strconv.FormatFloat(v*25.4, 'g', 5, 64)+" mm"
	return "write " + s.either(inches+" ("+mm+")", inches) + "; a thread's name, such as G1/4, is not a diameter: measure the hole"
}
