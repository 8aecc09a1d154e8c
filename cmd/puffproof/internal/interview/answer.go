package interview

import (
	"regexp"
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/problem"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/unit"
)

// Figures that answers hold beside plain quantities.
var (
	coefficient = regexp.MustCompile(`^(?i:(cv|kv))\s*[=:]?\s*(.+)$`)
	bothWays    = regexp.MustCompile(`^(.+?)\s*(?:[x×]|\bby\b)\s*(.+)$`)
)

// no are the words that say that there is none.
func no() []string { return []string{"no", "none", "n"} }

// meanings are what people say instead of the words of a question.
func meanings() map[string]string {
	return map[string]string{"foam ball": "ball", "balls": "ball", "foam rocket": "rocket", "rockets": "rocket", "darts": "dart",
		"in bore": "bore", "in a barrel": "bore", "barrel": "bore", "over tube": "tube", "over a tube": "tube", "pump": "hand pump",
		"bicycle pump": "hand pump", "bike pump": "hand pump", "floor pump": "hand pump", "cylinder": "regulated cylinder",
		"bottle": "regulated cylinder", "solenoid": "current", "electric": "current", "coil": "current", "lever": "hand", "tap": "hand",
		"ball valve": "hand", "manual": "hand", "bleed": "hole", "orifice": "hole", "solenoid valve": "valve", "none": "nothing", "no": "nothing"}
}

// Read holds an answer to what its question accepts and gives it as it is kept: trimmed, a word as the question has it,
// "no" for none. The problem says what is wrong; it has no place yet.
func (q *Question) Read(text string, units quantity.System) (string, *problem.Problem) {
	text = strings.TrimSpace(text)
	if text == "" || text == NotKnown {
		return NotKnown, nil
	}
	switch q.Form {
	case OneWord:
		return q.word(text)
	case FigureOrNo, HoseOrNo:
		if slices.Contains(no(), strings.ToLower(text)) {
			return "no", nil
		}
	}
	switch q.Form {
	case FlowFigure:
		_, p := q.flow(text, units)
		return text, p
	case HoseOrNo:
		_, _, p := q.hose(text, units)
		return text, p
	}
	return text, q.figure(text, q.key(), units)
}

// wrong is a problem with an answer.
func (q *Question) wrong(message, found, want, hint string) *problem.Problem {
	return &problem.Problem{Key: q.ID, Message: message, Found: found, Want: want, Hint: hint}
}

func (q *Question) word(text string) (string, *problem.Problem) {
	f := strings.ToLower(text)
	if slices.Contains(q.Words, f) {
		return f, nil
	}
	if w := meanings()[f]; slices.Contains(q.Words, w) {
		return w, nil
	}
	return NotKnown, q.wrong("is none of the answers", text, strings.Join(q.Words, ", ")+", ?", keys.MeantWord(text, q.Words, meanings()))
}

// figure reads a quantity, and holds it to what is possible.
func (q *Question) figure(text string, k *keys.Key, units quantity.System) *problem.Problem {
	v, err := unit.System(units).Parse(text, k.Dimension)
	switch {
	case err != nil:
		return q.wrong(string(err.Kind), err.Text, err.Want, err.Hint)
	case v.Reference != unit.Absolute && (v.Nominal < k.Min || v.Nominal > k.Max):
		return q.wrong("is outside what is possible", text, k.Span(units), "")
	}
	return nil
}

// flow gives the key of a firing valve's flow and its figure.
func (q *Question) flow(text string, units quantity.System) (flow [2]string, p *problem.Problem) {
	path := keys.New().Index["paths.*"]
	if m := coefficient.FindStringSubmatch(text); m != nil {
		name := map[string]string{"cv": "Cv", "kv": "Kv"}[strings.ToLower(m[1])]
		return [2]string{name, m[2]}, q.figure(m[2], path[name], units)
	}
	for _, name := range []string{"seat_bore", "nominal_flow", "sonic_conductance"} {
		_, err := unit.Parse(text, path[name].Dimension)
		if err == nil {
			return [2]string{name, text}, q.figure(text, path[name], units)
		}
		if p == nil || err.Kind != unit.WrongDimension {
			p = q.wrong("is no flow", text, q.Accepts(units)+", ?", err.Hint)
		}
	}
	return flow, p
}

// hose gives the bore and the length of a hose.
func (q *Question) hose(text string, units quantity.System) (bore, length string, p *problem.Problem) {
	m := bothWays.FindStringSubmatch(text)
	if m == nil {
		return "", "", q.wrong("is no bore and length", text, q.Accepts(units)+", ?", "write an x between the two")
	}
	row := keys.New().Index["paths.*.hose"]
	if p = q.figure(m[1], row["bore"], units); p == nil {
		p = q.figure(m[2], row["length"], units)
	}
	return m[1], m[2], p
}

// written is a value as TOML.
func written(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(s) + `"`
}
