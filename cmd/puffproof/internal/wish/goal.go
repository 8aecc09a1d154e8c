// Package wish reads in words what a way is to come to: a goal, and what stays as it is.
package wish

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/advise"
)

// aim is a word of goals and what it is stated of.
type aim struct {
	word, example string
	is            advise.Aim
	dimension     unit.Dimension
	kind          quantity.Kind
}

func aims() []aim {
	return []aim{
		{"apex", "apex 3 m", advise.Apex, unit.Length, quantity.Length}, {"speed", "speed 8 m/s", advise.Speed, unit.Speed, quantity.Speed},
		{"range", "range 6 m", advise.Range, unit.Length, quantity.Length},
	}
}

// likewise are words as good as ours.
func likewise() map[string]string { return map[string]string{"height": "apex", "distance": "range"} }

// meant are a builder's words for what a goal is stated of.
func meant() map[string]string {
	return map[string]string{"high": "apex", "altitude": "apex", "up": "apex", "far": "range", "reach": "range", "velocity": "speed",
		"fast": "speed", "quick": "speed", "height": "apex", "distance": "range"}
}

// Goal reads a goal in units of a system; without a word it is the zero Goal.
func Goal(text string, units quantity.System) (advise.Goal, error) {
	if strings.TrimSpace(text) == "" {
		return advise.Goal{}, nil
	}
	word, figure := parted(text)
	known := strings.ToLower(word)
	if ours := likewise()[known]; ours != "" {
		known = ours
	}
	var words []string
	for _, a := range aims() {
		if a.word == known {
			return a.read(text, figure, units)
		}
		words = append(words, a.word)
	}
	hint := ""
	if near := keys.MeantWord(word, words, meant()); word != "" && near != "" {
		hint = "; " + near
	} else if _, no := unit.Parse(text, unit.Speed); word == "" && no == nil {
		hint = "; " + keys.Meant(`"speed `+strings.TrimSpace(text)+`"`)
	}
	return advise.Goal{}, fmt.Errorf("%q; accepted: %s%s", text, units.Example(`"apex 3 m", "speed 8 m/s" or "range 6 m"`), hint)
}

// read reads the figure of a goal.
func (a aim) read(text, figure string, units quantity.System) (g advise.Goal, err error) {
	such := "such as " + units.Example(`"`+a.example+`"`)
	if figure == "" {
		return g, fmt.Errorf("%q says not how much; accepted: a figure with its unit behind the word, %s", text, such)
	}
	q, wrong := unit.System(units).Parse(figure, a.dimension)
	const most = 100
	switch {
	case wrong != nil:
		return g, fmt.Errorf("%q: %v", text, wrong)
	case q.Stated:
		return g, fmt.Errorf("%q has a tolerance; accepted: one figure, which is what is wanted at least, %s", text, such)
	case !(q.Nominal > 0 && q.Nominal < most):
		return g, fmt.Errorf("%q; accepted: above 0 and below %s, %s", text, units.Words(a.kind, most, quantity.Down), such)
	}
	return advise.Goal{Aim: a.is, Value: q.Nominal}, nil
}

// parted is the word of a goal and its figure. A colon or an equals sign may stand between, and the word behind the figure.
func parted(text string) (word, figure string) {
	text = strings.TrimSpace(text)
	switch end := strings.IndexFunc(text, func(r rune) bool { return !unicode.IsLetter(r) }); {
	case end < 0:
		return text, ""
	case end > 0:
		return text[:end], strings.TrimLeft(text[end:], " \t:=")
	}
	at := strings.LastIndexAny(text, " \t")
	last := strings.ToLower(text[at+1:])
	if at >= 0 && (meant()[last] != "" || slices.ContainsFunc(aims(), func(a aim) bool { return a.word == last })) {
		return text[at+1:], strings.TrimSpace(text[:at])
	}
	return "", text
}
