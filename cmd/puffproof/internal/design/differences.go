package design

import (
	"slices"

	"puffproof/cmd/puffproof/internal/edit"
)

// Difference is a key that two design files do not say alike.
type Difference struct {
	Key  string
	A, B *string // as the files write it; nil: it does not stand there
}

// Differences lists the keys whose values are not written alike in two files: in the order of the first, each that only the
// second has behind the one that stands before it there. The same quantity in other units is written otherwise, and listed.
func Differences(a, b *Editable) []Difference { return differences(a.all(), b.all()) }

// DifferencesOf is Differences of two files, which may be no designs. The error says which is no TOML.
func DifferencesOf(a, b []byte) ([]Difference, error) {
	first, err := edit.Open(a)
	if err != nil {
		return nil, err
	}
	second, err := edit.Open(b)
	if err != nil {
		return nil, err
	}
	return differences(first.All(), second.All()), nil
}

func differences(first, second []edit.Stated) []Difference {
	all := slices.Clone(first)
	for i, s := range second {
		if indexOf(all, s.Key) >= 0 {
			continue
		}
		at := 0
		if i > 0 {
			at = 1 + indexOf(all, second[i-1].Key)
		}
		all = slices.Insert(all, at, s)
	}
	var out []Difference
	for _, s := range all {
		d := Difference{s.Key, valueOf(first, s.Key), valueOf(second, s.Key)}
		if d.A == nil || d.B == nil || *d.A != *d.B {
			out = append(out, d)
		}
	}
	return out
}

// all lists what the file states. It was read before, so it is TOML.
func (e *Editable) all() []edit.Stated {
	f, err := edit.Open(e.data)
	if err != nil {
		return nil
	}
	return f.All()
}

func indexOf(list []edit.Stated, key string) int {
	return slices.IndexFunc(list, func(s edit.Stated) bool { return s.Key == key })
}

func valueOf(list []edit.Stated, key string) *string {
	if i := indexOf(list, key); i >= 0 {
		return &list[i].Value
	}
	return nil
}
