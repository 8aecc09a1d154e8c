package finding

import (
	"slices"
	"strconv"
	"strings"
)

// Dated is a part of which an answer has to tell the year that its plate, its bill or a paper shows.
type Dated struct {
	Name string // as the design has it: "volumes.tank"
	From int    // the year is this one or a later one
	Such int    // a year that may stand there, for an example
}

// short is the part as people speak of it: "tank".
func (d *Dated) short() string { return phraseOf(strings.TrimPrefix(d.Name, "volumes.")) }

// called are the words that people have for the part.
func (d *Dated) called() []string {
	if d.Name == "projectile" {
		return []string{"projectile*", "foam", "ball*", "rocket*", "dart*"}
	}
	return []string{d.short()}
}

// papers holds an answer against the years that it has to tell. Each stands behind the name of its part; one may do for several that are
// named before it.
func (it *Item) papers(c *Confirmation, words []string) (Outcome, Text) {
	for i := range it.Dated {
		d := &it.Dated[i]
		year := d.told(words)
		switch {
		case year == 0:
			return Unusable, Say("its answer, %q, tells no year of %s: what its plate, its bill or a paper shows", c.said(), d.Name).
				And(it.say())
		case year < d.From:
			return Failing, Say("its answer, %q, has the year %d of %s, and %d is asked for, or later", c.said(), year, d.Name, d.From)
		}
	}
	return Closes, nil
}

// told is the first year behind the last mention of the part; 0: there is none.
func (d *Dated) told(words []string) (year int) {
	at := -1
	for i := range words {
		if first(words[i:], d.called()) > 0 {
			at = i
		}
	}
	if at < 0 {
		return 0
	}
	i := slices.IndexFunc(words[at:], func(w string) bool { return yearOf(w) > 0 })
	if i < 0 {
		return 0
	}
	return yearOf(words[at+i])
}

// yearOf is the year that a word is; 0: it is none.
func yearOf(word string) int {
	if y, err := strconv.Atoi(word); err == nil && len(word) == 4 && y >= 1900 && y < 2100 {
		return y
	}
	return 0
}

// sentence is one that says all that an item in words asks, its years with it, in quotation marks; "" none is known.
func (it *Item) sentence() string {
	s := Sentence(it.ID)
	if s == "" {
		return ""
	}
	for i := range it.Dated {
		s += ", " + it.Dated[i].short() + " " + strconv.Itoa(it.Dated[i].Such)
	}
	return strconv.Quote(s)
}
