package design

import (
	"slices"
	"strings"
	"time"
	"unicode"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/toml"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/launcher"
)

// mostText bounds a free text in bytes.
const mostText = 500

// read reads the value of one key by its type.
func (s *section) read(k *keys.Key, e *toml.Entry) {
	switch k.Kind {
	case keys.Number:
		s.quantity(k, e)
	case keys.Word:
		if s.is(k, e.Value, toml.IsString, keys.Quoted(k.Words)) {
			s.word(k, e)
		}
	case keys.Text:
		if s.like(k, e.Value, toml.IsString, "text in quotes, such as") {
			s.text(k, e)
		}
	case keys.Date:
		s.date(k, e)
	case keys.Answer:
		s.answer(k, e)
	case keys.States:
		s.stateList(k, e)
	case keys.Controls:
		s.controlList(k, e)
	case keys.Curve:
		s.curve(k, e)
	case keys.Readings:
		s.readingList(k, e)
	case keys.Names:
		s.nameList(k, e)
	case keys.Subtable:
		s.like(k, e.Value, toml.IsTable, "a table, such as")
	}
}

func (s *section) word(k *keys.Key, e *toml.Entry) {
	w, declared := e.Value.Text, false
	if k.Declarable() {
		w, declared = keys.Promised(w)
	}
	if known := alike(w, k.Words); known != "" {
		s.texts[k.Name] = known
		s.declares(k, declared)
		return
	}
	s.wrong(k, e.Value.Offset, Problem{Message: "unknown word", Found: w, Want: k.Accepted(s.r.units),
		Hint: wordHint(k.Name, w, k.Words)})
}

// alike is the word that is written, whatever its capitals and whatever parts it; "": none.
func alike(found string, words []string) string {
	for _, w := range words {
		if unit.Fold(w) == unit.Fold(found) {
			return w
		}
	}
	return ""
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
	return keys.MeantWord(found, words, means)
}

func (s *section) text(k *keys.Key, e *toml.Entry) {
	v := e.Value
	bad := strings.IndexFunc(v.Text, func(r rune) bool { return unicode.IsControl(r) && r != '\n' && r != '\t' })
	switch {
	case len(v.Text) > mostText:
		s.wrong(k, v.Offset, Problem{Message: "text is too long", Found: v.Text, Want: "at most 500 bytes"})
	case bad >= 0:
		s.wrong(k, v.Offset, Problem{Message: "text has a control character", Found: v.Text, Want: "printable text"})
	case k.Refuses != nil && k.Refuses(v.Text) != "":
		s.wrong(k, v.Offset, Problem{Message: k.Refuses(v.Text), Found: v.Text, Want: k.ExampleIn(s.r.units)})
	case strings.TrimSpace(v.Text) == "" && k.Needed(s.selected):
		s.wrong(k, v.Offset, Problem{Message: "is blank", Want: k.ExampleIn(s.r.units)})
	default:
		s.texts[k.Name] = v.Text
		first, _, _ := strings.Cut(v.Text, ":")
		s.declares(k, strings.TrimSpace(first) == string(unit.Declared) || k.Claim() && saysDeclared(v.Text))
	}
}

// saysDeclared tells that a text has the word somewhere: "declared: steel", "steel, declared".
func saysDeclared(text string) bool {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) })
	return slices.Contains(words, string(unit.Declared))
}

// declares keeps in mind that the value of a key is declared only.
func (s *section) declares(k *keys.Key, declared bool) {
	if declared {
		s.r.declared = append(s.r.declared, s.dotted(k.Name))
	}
}

func (s *section) date(k *keys.Key, e *toml.Entry) {
	v := e.Value
	if v.Kind == toml.IsString || v.Kind == toml.IsDate {
		if _, err := time.Parse(time.DateOnly, v.Text); err == nil {
			s.texts[k.Name] = v.Text
			return
		}
	}
	s.wrong(k, v.Offset, Problem{Message: "is not a date", Found: v.Show(),
		Want: `year-month-day, such as "2026-05-31"`})
}

func (s *section) answer(k *keys.Key, e *toml.Entry) {
	v := e.Value
	switch {
	case v.Kind == toml.IsBool && v.Text == "true":
		s.answers[k.Name] = launcher.Yes
	case v.Kind == toml.IsBool:
		s.answers[k.Name] = launcher.No
	case v.Kind == toml.IsString && v.Text == keys.DeclaredYes:
		s.answers[k.Name] = launcher.Yes
		s.declares(k, true)
	case v.Kind == toml.IsString && v.Text == keys.DeclaredNo:
		s.answers[k.Name] = launcher.No
		s.declares(k, true)
	case v.Kind == toml.IsString && v.Text == "unknown":
		s.answers[k.Name] = launcher.Unanswered
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
