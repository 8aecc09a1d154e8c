package design

import (
	"slices"
	"strings"
	"time"
	"unicode"

	"puffproof/cmd/puffproof/internal/toml"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/launcher"
)

// mostText bounds a free text in bytes.
const mostText = 500

// read reads the value of one key by its type.
func (s *section) read(k *key, e *toml.Entry) {
	switch k.kind {
	case number:
		s.quantity(k, e)
	case word:
		if s.is(k, e.Value, toml.IsString, quoted(k.words)) {
			s.word(k, e)
		}
	case text:
		if s.like(k, e.Value, toml.IsString, "text in quotes, such as") {
			s.text(k, e)
		}
	case date:
		s.date(k, e)
	case answer:
		s.answer(k, e)
	case states:
		s.stateList(k, e)
	case controls:
		s.controlList(k, e)
	case curve:
		s.curve(k, e)
	case readings:
		s.readingList(k, e)
	case subtable:
		s.like(k, e.Value, toml.IsTable, "a table, such as")
	}
}

func (s *section) word(k *key, e *toml.Entry) {
	w := e.Value.Text
	if slices.Contains(k.words, w) {
		s.texts[k.name] = w
		return
	}
	s.wrong(k, e.Value.Offset, Problem{Message: "unknown word", Found: w, Want: quoted(k.words), Hint: wordHint(k.name,
		w, k.words)})
}

// wordHint explains builders' words for the allowed ones.
func wordHint(name, found string, words []string) string {
	f := unit.Fold(found)
	switch {
	case name == "unpowered" && slices.Contains([]string{"nc", "normally_closed", "shut", "close"}, f):
		return `NC of the pneumatic trade is "closed"`
	case name == "unpowered" && slices.Contains([]string{"no", "normally_open"}, f):
		return `NO of the pneumatic trade is "open"`
	case name == "kind":
		return kindHint(found, words)
	case name == "tip" && slices.Contains([]string{"soft", "squishy", "sponge", "foam", "eva", "pu", "rubber"}, f):
		return `soft ones are "resilient", once that is proved`
	case name == "name": // of the gas
		return "only air was checked; other gases scale flows differently and can suffocate (carbon dioxide) or burn"
	}
	var means map[string]string
	if name == "unpowered" {
		means = map[string]string{"bistable": "stays", "latching": "stays", "hold": "stays", "last": "stays", "unchanged": "stays"}
	}
	return meantWord(found, words, means)
}

func (s *section) text(k *key, e *toml.Entry) {
	v := e.Value
	bad := strings.IndexFunc(v.Text, func(r rune) bool { return unicode.IsControl(r) && r != '\n' && r != '\t' })
	switch {
	case len(v.Text) > mostText:
		s.wrong(k, v.Offset, Problem{Message: "text is too long", Found: v.Text, Want: "at most 500 bytes"})
	case bad >= 0:
		s.wrong(k, v.Offset, Problem{Message: "text has a control character", Found: v.Text, Want: "printable text"})
	case strings.TrimSpace(v.Text) == "" && k.needed(s.selected):
		s.wrong(k, v.Offset, Problem{Message: "is blank", Want: k.exampleIn(s.r.units)})
	default:
		s.texts[k.name] = v.Text
		first, _, _ := strings.Cut(v.Text, ":")
		s.declares(k, strings.TrimSpace(first) == string(unit.Declared))
	}
}

// declares keeps in mind that the value of a key is declared only.
func (s *section) declares(k *key, declared bool) {
	if declared {
		s.r.declared = append(s.r.declared, s.dotted(k.name))
	}
}

func (s *section) date(k *key, e *toml.Entry) {
	v := e.Value
	if v.Kind == toml.IsString || v.Kind == toml.IsDate {
		if _, err := time.Parse(time.DateOnly, v.Text); err == nil {
			s.texts[k.name] = v.Text
			return
		}
	}
	s.wrong(k, v.Offset, Problem{Message: "is not a date", Found: v.Show(),
		Want: `year-month-day, such as "2026-05-31"`})
}

// Answers that are promised and not shown yet.
const (
	declaredYes = "declared yes"
	declaredNo  = "declared no"
)

func (s *section) answer(k *key, e *toml.Entry) {
	v := e.Value
	switch {
	case v.Kind == toml.IsBool && v.Text == "true":
		s.answers[k.name] = launcher.Yes
	case v.Kind == toml.IsBool:
		s.answers[k.name] = launcher.No
	case v.Kind == toml.IsString && v.Text == declaredYes:
		s.answers[k.name] = launcher.Yes
		s.declares(k, true)
	case v.Kind == toml.IsString && v.Text == declaredNo:
		s.answers[k.name] = launcher.No
		s.declares(k, true)
	case v.Kind == toml.IsString && v.Text == "unknown":
		s.answers[k.name] = launcher.Unanswered
	default:
		hint := ""
		switch unit.Fold(v.Text) {
		case "yes", "true", "y":
			hint = "write true, without quotes"
		case "no", "false", "n":
			hint = "write false, without quotes"
		}
		s.wrong(k, v.Offset, Problem{Message: "is neither yes nor no", Found: v.Show(), Hint: hint,
			Want: `true, false, "unknown", or "declared yes" and "declared no" of what is still to be shown`})
	}
}
