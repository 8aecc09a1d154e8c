package finding

import (
	"cmp"
	"math"
	"slices"
	"strings"
)

// NamedPart is a part of which an answer has to bring a figure.
type NamedPart struct {
	Name string // as the design has it
	Expected
	Stated Stated // what the design says of it; zero: nothing
}

// Stated is the figure that the design states of a part, of which less read off the part contradicts it, whatever would be enough.
type Stated struct {
	Key   string  // under which it stands
	Value float64 // SI; its end on the low side
}

// Contradicted says of the first figure of an answer that is less than the design states of its part what either says; nil: none is.
func (it *Item) Contradicted(c *Confirmation) Text {
	for i, f := range c.Figures {
		for _, p := range it.meant(c, i) {
			if s := p.Stated; f.Unit == p.Unit && s.Key != "" && !FigureBetween(p.Unit, s.Value, math.Inf(1)).holds(f.Value) {
				return Say("its answer, %q, contradicts the design: the design states %s as %s, the label has %s: change the design to the label's "+
					"figure, then answer again", c.said(), s.Key, Bars.Of(s.Value, 3), Bars.Of(f.Value, 3))
			}
		}
	}
	return nil
}

// meant are the parts that a figure of an answer is of: those named before it; where only one is asked that.
func (it *Item) meant(c *Confirmation, figure int) []NamedPart {
	switch {
	case len(it.Parts) <= 1:
		return it.Parts
	case figure < len(c.Beside):
		return partsIn(it.Parts, c.Beside[figure])
	}
	return nil
}

// named holds each figure of an answer against the part that stands before it. Where several are asked each has to be named, once.
func (it *Item) named(c *Confirmation) (Outcome, Text) {
	if len(it.Parts) == 0 {
		return Closes, nil
	}
	value, unit := c.said(), it.Parts[0].Unit
	found := map[string]bool{}
	for i, f := range c.Figures {
		if f.Unit != unit {
			continue
		}
		meant := it.meant(c, i)
		if len(meant) == 0 {
			return Unusable, Say("its answer, %q, has a figure behind the name of no part; asked is one of each: %s", value, it.partNames())
		}
		for k := range meant {
			p := &meant[k]
			if found[p.Name] {
				return Unusable, Say("its answer, %q, has two figures of %s", value, p.Name)
			}
			if found[p.Name] = true; !p.holds(f.Value) {
				return Failing, Say("its answer, %q, has a figure that is not what is expected of %s", value, p.Name)
			}
		}
	}
	for i := range it.Parts {
		if !found[it.Parts[i].Name] {
			return Unusable, Say("its answer, %q, has no figure of %s; asked is one of each: %s", value, it.Parts[i].Name, it.partNames())
		}
	}
	return Closes, nil
}

// partNames lists the parts of which figures are asked.
func (it *Item) partNames() string {
	var names []string
	for i := range it.Parts {
		names = append(names, it.Parts[i].Name)
	}
	return strings.Join(names, ", ")
}

// partsIn are the parts that a text names. What is a part of a longer name is not named by it.
func partsIn(parts []NamedPart, text string) (named []NamedPart) {
	long := slices.SortedStableFunc(slices.Values(parts), func(a, b NamedPart) int { return cmp.Compare(len(b.Name), len(a.Name)) })
	words := spoken(strings.ReplaceAll(text, ".", " "))
	for i := 0; i < len(words); {
		k := slices.IndexFunc(long, func(p NamedPart) bool { return begins(words[i:], phraseOf(p.Name)) > 0 })
		if k < 0 {
			i++
			continue
		}
		named = append(named, long[k])
		i += begins(words[i:], phraseOf(long[k].Name))
	}
	return named
}

// phraseOf is the name of a part as its words: of "paths.feed.hose" feed and hose.
func phraseOf(name string) string {
	return strings.Join(strings.FieldsFunc(strings.TrimPrefix(strings.ToLower(name), "paths."), func(r rune) bool {
		return strings.ContainsRune("._- ", r)
	}), " ")
}
