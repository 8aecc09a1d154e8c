package design

import (
	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/toml"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// section is one table of the file after its keys were read by the table of keys.
type section struct {
	r        *reader
	row      *keys.Row
	path     string // dotted, such as "paths.fire"
	offset   int
	selected string // value of the selector: the path's kind, the barrel's fit
	tab      *toml.Table
	bands    map[string]launcher.Band
	stated   map[string]bool // quantities that were written with a tolerance
	texts    map[string]string
	answers  map[string]launcher.Answer
	states   map[string]pneumatics.StateSet
	lists    map[string][]string
	readings map[string][]float64
	points   []launcher.CurvePoint
	asked    map[string]*toml.Entry // keys that have "?"
}

// dotted gives the full name of a key of this section.
func (s *section) dotted(name string) string {
	if s.path == "" {
		return name
	}
	return s.path + "." + name
}

// band gives a quantity; one that is missing has Set false and its key's name.
func (s *section) band(name string) launcher.Band {
	if b, ok := s.bands[name]; ok {
		return b
	}
	return launcher.Band{Key: s.dotted(name)}
}

// has tells whether a quantity or an answer was read.
func (s *section) has(name string) bool {
	return s.bands[name].Set || s.answers[name] != launcher.Unanswered
}

// or gives a quantity, or the assumed band where it is missing.
func (s *section) or(name string, nominal, low, high float64, reason finding.Text) launcher.Band {
	if b, ok := s.bands[name]; ok {
		return b
	}
	return assumed(s.dotted(name), nominal, low, high, reason)
}

// assumed is a band that the design does not have.
func assumed(key string, nominal, low, high float64, reason finding.Text) launcher.Band {
	return launcher.Band{Set: true, Nominal: nominal, Low: low, High: high, Key: key, Assumed: true,
		Reason: finding.Say("not stated; assumed: %s", reason)}
}

// usual is a reason that rests on practice, filled in as finding.Say does.
func usual(format string, args ...any) finding.Text {
	return finding.Say(format, args...).Say(" (%s)", keys.Practice)
}

// wrong reports a problem with a key at an offset.
func (s *section) wrong(k *keys.Key, offset int, p Problem) {
	p.Key = s.dotted(k.Name)
	s.r.Fault(offset, p)
}

// fault reports a problem at a key of this section, or at its header.
func (s *section) fault(name string, p Problem) {
	at := s.offset
	if offset, ok := s.r.positions[s.dotted(name)]; ok {
		at = offset
	}
	if p.Key == "" {
		p.Key = s.dotted(name)
	}
	s.r.Fault(at, p)
}

// like holds a value to its TOML type, and shows the key's example where it is another.
func (s *section) like(k *keys.Key, v *toml.Value, want toml.Kind, accepted string) bool {
	return v.Kind == want || s.is(k, v, want, accepted+" "+k.ExampleIn(s.r.units))
}

// is holds a value to its TOML type.
func (s *section) is(k *keys.Key, v *toml.Value, want toml.Kind, accepted string) bool {
	if v.Kind == want {
		return true
	}
	p := Problem{Key: s.dotted(k.Name), Message: "is " + v.Kind.String(), Found: v.Show(), Want: accepted}
	if v.Kind == toml.IsArray || v.Kind == toml.IsTable || v.Kind == toml.IsTables {
		p.Found = ""
	}
	s.r.Fault(v.Offset, p)
	return false
}
