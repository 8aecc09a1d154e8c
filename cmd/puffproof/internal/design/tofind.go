package design

import (
	"slices"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/toml"
)

// unknown tells that a value says that it is not known: "?", or a list of that alone.
func unknown(v *toml.Value) bool {
	if v.Kind == toml.IsArray && len(v.Items) == 1 {
		v = v.Items[0]
	}
	return v.Kind == toml.IsString && v.Text == keys.NotKnown
}

// toFind keeps a key that is not known among what is to be found out: it is read as if left out. One that must
// be known is a fault which says how to find it; so is one that says, left out, that there is no such thing.
func (s *section) toFind(k *keys.Key, e *toml.Entry) {
	needed := k.Needed(s.selected) && !(k.Unless[0] != "" && s.texts[k.Unless[0]] == k.Unless[1])
	switch {
	case needed, k.OutIsNone:
		s.mustKnow(k, e)
	case slices.Contains(keys.FlowWords(), k.Name) && len(s.flowFigures()) == 0 && s.row.Name == "paths.*": // flow says it
	default:
		s.r.toFind = append(s.r.toFind, s.dotted(k.Name))
	}
}

// mustKnow is the fault of a key that is not known and has to be.
func (s *section) mustKnow(k *keys.Key, e *toml.Entry) {
	want := k.Name + " = " + k.ExampleIn(s.r.units)
	if k.OutIsNone {
		want += ", or the line left out where there is none"
	}
	s.wrong(k, e.Value.Offset, Problem{Message: "has to be known", Found: keys.NotKnown, Want: want, Hint: "to find it: " +
		k.TeachIn(s.r.units)})
}
