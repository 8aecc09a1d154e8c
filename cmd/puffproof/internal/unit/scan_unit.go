package unit

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// matchUnit takes the longest unit of any dimension that stands here.
func (p *parser) matchUnit() (Unit, bool) {
	p.space()
	var best Unit
	longest := 0
	for _, u := range table() {
		if n := spelled(p.rest(), u.Name); n > longest && ends(p.rest()[n:]) {
			best, longest = u, n
		}
	}
	p.unitAt = p.at
	p.at += longest
	return best, longest > 0
}

// spelled gives how many bytes at the start of text spell the unit's name, 0 if
// they do not. Blanks may be doubled, and ², ³ and · may stand for 2, 3 and a
// blank.
func spelled(text, name string) int {
	t := text
	for _, want := range name {
		got, n := utf8.DecodeRuneInString(t)
		switch {
		case n == 0:
			return 0
		case want == ' ':
			trimmed := strings.TrimLeft(t, " \t\u00a0·*")
			if len(trimmed) == len(t) && !strings.HasPrefix(t, "(") {
				return 0
			}
			t = trimmed
			continue
		case got == want, got == '²' && want == '2', got == '³' && want == '3':
		default:
			return 0
		}
		t = t[n:]
	}
	return len(text) - len(t)
}

// ends tells whether a unit's name can end before this text.
func ends(after string) bool {
	r, n := utf8.DecodeRuneInString(after)
	return n == 0 || !unicode.IsLetter(r) && !unicode.IsDigit(r) && !strings.ContainsRune("²³^/(_.", r) ||
		strings.HasPrefix(after, "...") || strings.HasPrefix(after, "/+") || strings.HasPrefix(after, "/-")
}

// expectUnit reads the unit after the number n and holds it to the wanted
// dimension.
func (p *parser) expectUnit(n float64) (Unit, *Error) {
	u, found := p.matchUnit()
	if !found && p.want == Dimensionless && p.plainEnd() {
		return Unit{Factor: 1}, nil
	}
	if !found {
		return Unit{}, p.noUnit(n, p.accepted())
	}
	if u.Dimension != p.want {
		return Unit{}, p.wrongUnit(u, n)
	}
	return u, nil
}

// plainEnd tells whether a plain number may end here.
func (p *parser) plainEnd() bool {
	r := p.rest()
	return r == "" || strings.ContainsAny(r[:1], ",+-") || strings.HasPrefix(r, "±")
}

func (p *parser) accepted() string {
	if p.want == Pressure {
		return Accepted(p.want) + "; with abs or gauge behind it where it matters"
	}
	return Accepted(p.want)
}

// unitText is what stands where a unit should, up to a tolerance or an origin.
func (p *parser) unitText() string {
	t := p.rest()
	for _, stop := range []string{"±", ",", "+/-", "+", " -", " to "} {
		if i := strings.Index(t, stop); i >= 0 {
			t = t[:i]
		}
	}
	return strings.TrimSpace(t)
}

// noUnit is the fault for a missing or unknown unit after the number n.
func (p *parser) noUnit(n float64, want string) *Error {
	p.space()
	text := p.unitText()
	if text == "" {
		return p.fail(NoUnit, clip(strings.TrimSpace(p.text)), want, p.missingHint(p.want))
	}
	return p.fail(UnknownUnit, clip(text), want, p.unknownHint(text, n, p.want))
}

// wrongUnit is the fault for a known unit of another dimension; the scanner
// stands behind it.
func (p *parser) wrongUnit(u Unit, n float64) *Error {
	end := p.at
	p.at = p.unitAt
	return p.fail(WrongDimension, p.text[p.at:end], p.want.String()+": "+p.accepted(), p.wrongHint(u, n, p.want))
}
