package design

import (
	"regexp"
	"slices"
	"strings"
	"time"
	"unicode"

	"puffproof/cmd/puffproof/internal/toml"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// mostText bounds a free text in bytes.
const mostText = 500

// read reads the value of one key by its type.
func (s *section) read(k *key, e *toml.Entry) {
	switch k.kind {
	case quantity:
		s.quantity(k, e)
	case word:
		if s.is(k, e.Value, toml.IsString, quoted(k.words)) {
			s.word(k, e)
		}
	case text:
		if s.is(k, e.Value, toml.IsString, `text in quotes, such as `+k.example) {
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
		s.is(k, e.Value, toml.IsTable, "a table, such as "+k.example)
	}
}

// is holds a value to its TOML type.
func (s *section) is(k *key, v *toml.Value, want toml.Kind, accepted string) bool {
	if v.Kind == want {
		return true
	}
	p := Problem{Key: s.dotted(k.name), Message: "is " + v.Kind.String(), Found: v.Show(), Want: accepted}
	if v.Kind == toml.IsArray || v.Kind == toml.IsTable || v.Kind == toml.IsTables {
		p.Found = ""
	}
	s.r.Fault(v.Offset, p)
	return false
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
	f := fold(found)
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
		s.wrong(k, v.Offset, Problem{Message: "is blank", Want: k.example})
	default:
		s.texts[k.name] = v.Text
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

func (s *section) answer(k *key, e *toml.Entry) {
	v := e.Value
	switch {
	case v.Kind == toml.IsBool && v.Text == "true":
		s.answers[k.name] = launcher.Yes
	case v.Kind == toml.IsBool:
		s.answers[k.name] = launcher.No
	case v.Kind == toml.IsString && v.Text == "unknown":
		s.answers[k.name] = launcher.Unanswered
	default:
		hint := ""
		switch fold(v.Text) {
		case "yes", "true", "y":
			hint = "write true, without quotes"
		case "no", "false", "n":
			hint = "write false, without quotes"
		}
		s.wrong(k, v.Offset, Problem{Message: "is neither yes nor no", Found: v.Show(), Want: `true, false or "unknown"`,
			Hint: hint})
	}
}

// stateList reads a list of states; [] is none.
func (s *section) stateList(k *key, e *toml.Entry) {
	names := stateNames()
	if e.Value.Kind == toml.IsString {
		s.wrong(k, e.Value.Offset, Problem{Message: "is not a list", Found: e.Value.Text,
			Want: "a list of states: " + k.example,
			Hint: `write ["` + e.Value.Text + `"]`})
		return
	}
	if !s.is(k, e.Value, toml.IsArray, "a list of states: "+k.example) {
		return
	}
	var set pneumatics.StateSet
	for _, item := range e.Value.Items {
		found := false
		for _, st := range pneumatics.States() {
			if item.Kind == toml.IsString && item.Text == st.String() {
				set |= pneumatics.SetOf(st)
				found = true
			}
		}
		if !found {
			s.wrong(k, item.Offset, Problem{Message: "unknown state", Found: item.Show(), Want: quoted(names),
				Hint: stateHint(item.Text, names)})
		}
	}
	s.states[k.name] = set
}

func stateNames() []string {
	var names []string
	for _, st := range pneumatics.States() {
		names = append(names, st.String())
	}
	return names
}

func stateHint(found string, names []string) string {
	return meantWord(found, names, map[string]string{"charged": "armed", "live": "armed", "hot": "armed", "cocked": "armed", "ready": "armed",
		"safe": "off", "cold": "off", "shutdown": "off", "stop": "off", "fill": "charging", "filling": "charging", "pumping": "charging",
		"fire": "firing", "shoot": "firing", "shot": "firing", "load": "loading", "reload": "loading", "reloading": "loading"})
}

// gridControl is a grid with its mesh.
var gridControl = regexp.MustCompile(`^grid of [0-9]+(?:\.[0-9]+)? mm$`)

func objectControls() []string {
	return []string{"supervised loading by the adult in charge", "loading from the breech with the muzzle covered"}
}

func (s *section) controlList(k *key, e *toml.Entry) {
	if !s.is(k, e.Value, toml.IsArray, "a list: "+k.example) {
		return
	}
	for _, item := range e.Value.Items {
		if item.Kind == toml.IsString && (slices.Contains(objectControls(), item.Text) || gridControl.MatchString(item.Text)) {
			s.lists[k.name] = append(s.lists[k.name], item.Text)
			continue
		}
		s.wrong(k, item.Offset, Problem{Message: "unknown control", Found: item.Show(),
			Want: quoted(append(objectControls(), "grid of 10 mm")), Hint: meantWord(item.Text, objectControls(), nil)})
	}
}

// curve reads pairs of gauge pressure and flow, in order of rising pressure.
func (s *section) curve(k *key, e *toml.Entry) {
	if !s.is(k, e.Value, toml.IsArray, "a list of pairs: "+k.example) {
		return
	}
	last := -1.0
	for _, item := range e.Value.Items {
		if item.Kind != toml.IsArray || len(item.Items) != 2 || item.Items[0].Kind != toml.IsString || item.Items[1].Kind != toml.IsString {
			s.wrong(k, item.Offset, Problem{Message: "is not a pair of pressure and flow", Want: k.example})
			return
		}
		p, ok1 := s.parse(k.name, item.Items[0], unit.Pressure)
		f, ok2 := s.parse(k.name, item.Items[1], unit.VolumeFlow)
		if !ok1 || !ok2 {
			continue
		}
		gauge := s.toGauge(k, p)
		if gauge.Nominal <= last || f.Nominal < 0 {
			s.wrong(k, item.Items[0].Offset, Problem{Message: "points are not in order", Found: item.Items[0].Text,
				Want: "rising pressures from 0 on, flows of 0 or more"})
			return
		}
		last = gauge.Nominal
		s.points = append(s.points, launcher.CurvePoint{Gauge: gauge.Nominal, FreeAir: f.Nominal})
	}
}
