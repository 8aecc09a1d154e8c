package finding

import (
	"cmp"
	"slices"
)

// Stand is how a part has to stand in a test, as an answer in words tells it.
type Stand struct {
	Name string // as the design has it
	Open bool   // else shut
}

// word is how a part stands.
func word(open bool) string {
	if open {
		return "open"
	}
	return "shut"
}

// way is what a word says of how a part stands.
type way uint8

const (
	unsaid way = iota
	openWay
	shutWay
)

// wayOf is what a word says.
func wayOf(word string) way {
	switch {
	case slices.Contains([]string{"open", "opens", "opened", "opening", "unlocked"}, word):
		return openWay
	case slices.Contains([]string{"shut", "shuts", "closed", "closes", "close", "closing", "sealed", "tight", "plugged"}, word):
		return shutWay
	}
	return unsaid
}

// otherwise tells whether a part has to stand the other way.
func (s Stand) otherwise(w way) bool { return w == openWay && !s.Open || w == shutWay && s.Open }

// linking are words that may stand between a part and how it stands.
var linking = []string{"is", "was", "are", "were", "stays", "stayed", "stay", "stands", "stood", "stand", "remains", "remained",
	"valve", "valves", "both", "all", "still", "always", "goes", "went", "go"}

// wrongWay finds a part that an answer says to stand the other way than it has to; false: there is none. The word may stand behind
// the parts ("dump and bleed open") or before them ("shut: fire"). A part that is denied, and one of which no such word is said, is
// passed over.
func wrongWay(stands []Stand, text string) (Stand, bool) {
	long := slices.SortedStableFunc(slices.Values(stands), func(a, b Stand) int { return cmp.Compare(len(b.Name), len(a.Name)) })
	words := spoken(text)
	var waiting []Stand // parts whose word is still to come
	before := unsaid    // a word that parts follow
	named, loose := false, false
	for i := 0; i < len(words); i++ {
		k, w := slices.IndexFunc(long, func(s Stand) bool { return begins(words[i:], phraseOf(s.Name)) > 0 }), wayOf(words[i])
		switch {
		case k >= 0:
			denied := i > 0 && slices.Contains(denials, words[i-1])
			i += begins(words[i:], phraseOf(long[k].Name)) - 1
			said := cmp.Or(behind(words[i+1:]), before)
			switch {
			case denied:
			case long[k].otherwise(said):
				return long[k], true
			case said == unsaid:
				waiting = append(waiting, long[k])
			}
			named, loose = true, false
		case w != unsaid:
			for _, s := range waiting {
				if s.otherwise(w) {
					return s, true
				}
			}
			if before = w; len(waiting) > 0 || named {
				before = unsaid
			}
			waiting, named = nil, false
		case words[i] == stop:
			if named = false; loose { // "fire button pressed, dump open" says nothing of fire
				waiting = nil
			}
		case words[i] != "and" && !slices.Contains(linking, words[i]):
			named, loose, before = false, true, unsaid
		}
	}
	return Stand{}, false
}

// behind is what the words behind a part say of how it stands, before anything else is said.
func behind(words []string) way {
	for _, w := range words {
		if !slices.Contains(linking, w) {
			return wayOf(w)
		}
	}
	return unsaid
}
