package design

import (
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/toml"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// section reads a table. Selected is the selector's value where another table
// decides it; a selector of its own goes before.
func (r *reader) section(rowName, path string, t *toml.Table, offset int, selected string) *section {
	s := &section{r: r, row: r.keys.Row(rowName), path: path, offset: offset, selected: selected, tab: t,
		bands: map[string]launcher.Band{}, stated: map[string]bool{}, texts: map[string]string{}, answers: map[string]launcher.Answer{},
		states: map[string]pneumatics.StateSet{}, lists: map[string][]string{}, readings: map[string][]float64{},
		asked: map[string]*toml.Entry{}}
	if s.row.Selector != "" {
		s.selected = s.selector()
	}
	if t != nil {
		r.positions[path] = offset
		for _, e := range t.Entries {
			s.entry(e)
		}
	}
	s.missing()
	return s
}

// selector peeks at the key that decides which others belong.
func (s *section) selector() string {
	e := s.tab.Get(s.row.Selector)
	if e == nil || e.Value.Kind != toml.IsString {
		return ""
	}
	return alike(e.Value.Text, s.r.keys.Index[s.row.Name][s.row.Selector].Words)
}

// entry reads one key.
func (s *section) entry(e *toml.Entry) {
	k := s.r.keys.Index[s.row.Name][e.Name]
	if k == nil {
		if s.row.Name == "" {
			return // tables are read elsewhere
		}
		if p, ok := anotherIn(s.row.Name, e); ok {
			s.r.Fault(e.Offset, p)
			return
		}
		s.r.Fault(e.Offset, Problem{Key: s.dotted(e.Name), Message: "unknown key", Found: e.Name,
			Want: s.names(), Hint: s.r.keys.SuggestKey(s.row.Name, e.Name, s.selected)})
		return
	}
	if !k.Belongs(s.selected) {
		s.r.Fault(e.Offset, Problem{Key: s.dotted(e.Name), Message: "does not belong to " + s.kindWords(), Found: e.Name,
			Want: k.Name + " with " + s.row.SelectorName() + " " + keys.Quoted(k.In), Hint: s.insteadOf(k.Name)})
		return
	}
	if k.Name != e.Name && s.tab.Get(k.Name) != nil {
		s.r.Fault(e.Offset, Problem{Key: s.dotted(e.Name), Message: "says the same as " + k.Name, Found: e.Name, Want: "one of the two"})
		return
	}
	s.r.positions[s.dotted(k.Name)], s.r.values[s.dotted(k.Name)] = e.Value.Offset, e.Value
	if unknown(e.Value) && k.Kind != keys.Subtable && s.row.Name != "checklist" {
		s.asked[k.Name] = e
		return
	}
	s.read(k, e)
}

// insteadOf names the key that takes the place of one that does not belong.
func (s *section) insteadOf(name string) string {
	switch {
	case s.selected == "over tube" && name == "travel":
		return "over a tube the rocket's way is engagement"
	case s.selected == "over tube" && name == "bore":
		return "over a tube: tube_outer_diameter and tube_inner_diameter"
	case s.selected == "in bore" && name == "engagement":
		return "in a bore the projectile's way is travel"
	case s.selected == "hand valve" && name == "unpowered":
		return "a hand valve stays where the hand left it"
	}
	return ""
}

func (s *section) kindWords() string {
	if s.row.Name == "barrel" || s.row.Name == "projectile" {
		return `fit "` + s.selected + `"`
	}
	what := "path"
	if s.row.Name == "supply" {
		what = "supply"
	}
	return "a " + what + " of kind \"" + s.selected + "\""
}

// names lists the keys that belong here.
func (s *section) names() string {
	var list []string
	for _, k := range s.r.keys.Of(s.row.Name) {
		if k.Belongs(s.selected) {
			list = append(list, k.Name)
		}
	}
	if len(list) > 12 {
		return "a key of [" + keys.ShownTable(s.row.Name) + "]; the file that puffproof init writes lists them"
	}
	return strings.Join(list, ", ")
}

// missing reports the keys that must stand, and those that must be known.
func (s *section) missing() {
	if s.r.Partial {
		return
	}
	for _, k := range s.r.keys.Of(s.row.Name) {
		if e := s.asked[k.Name]; e != nil {
			s.toFind(k, e)
			continue
		}
		if k.Needed(s.selected) && !s.stands(k) && !(k.Unless[0] != "" && s.texts[k.Unless[0]] == k.Unless[1]) {
			s.wrong(k, s.offset, Problem{Message: "missing", Want: k.Name + " = " + k.ExampleIn(s.r.units),
				Hint: firstSentence(k.TeachIn(s.r.units))})
		}
	}
}

func (s *section) stands(k *keys.Key) bool {
	return s.tab.Get(k.Name) != nil || slices.ContainsFunc(k.Aliases, func(a string) bool { return s.tab.Get(a) != nil })
}

func firstSentence(teach string) string {
	if i := strings.Index(teach, ". "); i >= 0 {
		return teach[:i+1]
	}
	return teach
}
