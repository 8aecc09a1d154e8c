package finding

import (
	"slices"
	"strings"
	"unicode"
)

// fewWords is how many words that tell something an answer in words has at least (own rule of this project): "no cracks".
const fewWords = 2

// worded holds the words of an answer, whose figures are as they should be, against what its item asks to be said: the statements that
// it has to have, and no word beyond those of the step.
func (it *Item) worded(c *Confirmation) (Outcome, Text) {
	of, words := statementOf(it.ID), spoken(c.Value)
	if year := it.strangeYear(words); year != "" {
		return Failing,
			Say("its answer, %q, has the year %s, which is none of those that the design states: put the date right there, or read "+
				"it again", c.said(), year)
	}
	if outcome, why := it.papers(c, words); outcome == Failing {
		return outcome, why
	}
	if len(it.Says) > 0 && !mentions(words, it.Says) {
		return Unusable, Say("its answer, %q, says nothing of: %s", c.said(), strings.ReplaceAll(strings.Join(it.Says, ", "), "*", "s"))
	}
	if of == nil {
		return Closes, nil // of what it asks nothing is known
	}
	inWords := it.Figure == nil && (it.May == nil || len(it.May.in(c)) == 0)
	switch {
	case inWords && len(it.Asks) == 0 && len(c.Figures) == 0 && Telling(c.Value) < fewWords:
		return Unusable, Say("its answer, %q, says too little: what was seen, so that who was not there can tell", c.said()).And(it.say())
	case inWords && of.say != "" && !Affirms(it.ID, c.Value):
		return Unusable, Say("its answer, %q, does not say that it was as it should be", c.said()).And(it.say())
	}
	for _, group := range of.needs {
		if !mentions(words, group) {
			return Unusable, Say("its answer, %q, does not say \"%s\"", c.said(), strings.ReplaceAll(group[0], "*", "")).And(it.say())
		}
	}
	if outcome, why := it.papers(c, words); outcome != Closes {
		return outcome, why
	}
	if word := it.strangeWord(of, c); word != "" {
		return Unusable, Say("its answer, %q, says more than the step asks, and what \"%s\" changes nobody can judge: say it without where "+
			"all is as asked, and \"failed\" and why where it is not", c.said(), word).And(it.say())
	}
	return Closes, nil
}

// say is the sentence that closes an item in words, as the end of another one; nil: none is known.
func (it *Item) say() Text {
	if s := it.sentence(); s != "" {
		return Say(", as %s", s)
	}
	return nil
}

// Write is what closes an item: the figure that it expects, and what is to be said beside it; nil: nothing is asked to be said.
func (it *Item) Write() Text {
	beside := it.Beside()
	if beside == nil || it.Figure == nil {
		return beside
	}
	read := Words("what was read,")
	if _, known := it.Figure.Unit.shown(); known && len(it.Parts) == 0 {
		read = read.Say(" %s,", (&Asked{Expected: *it.Figure}).Says())
	}
	return read.Say(" and ").And(beside)
}

// Beside is what closes an item beside the figure that it expects: a sentence, and further figures; nil: nothing is asked to be said.
func (it *Item) Beside() Text {
	var parts []Text
	if s := it.sentence(); s != "" {
		parts = append(parts, Say("%s", s))
	}
	if len(it.Dated) > 0 {
		parts = append(parts, Words("the years as a plate, a bill or a paper shows them"))
	}
	if of := statementOf(it.ID); of != nil && len(parts) == 0 {
		for _, group := range of.needs {
			parts = append(parts, Say("\"%s\"", strings.TrimSuffix(group[0], "*")))
		}
	}
	if len(it.Says) > 0 && it.Figure != nil {
		parts = append(parts, Say("\"%s\"", strings.TrimSuffix(it.Says[0], "*")))
	}
	for i := range it.Asks {
		if a := &it.Asks[i]; !a.May {
			parts = append(parts, Say("%s, ", a.Name).And(a.Says()))
		}
	}
	if e := it.Figure; e != nil && e.Times > 0 {
		parts = append(parts, Say("all of %d readings, or how many they were with the lowest and the highest, as \"%d times, ...\"", e.Times,
			e.Times))
	}
	return Join(parts, "; ")
}

// Sentence is one that says all that an item in words asks; "" none is known.
func Sentence(id string) string {
	if s := statementOf(id); s != nil {
		return s.say
	}
	return ""
}

// strangeYear is a year in an answer that is none of those of the design; "" there is none.
func (it *Item) strangeYear(words []string) string {
	for _, w := range words {
		if y := yearOf(w); y > 0 && len(it.Years) > 0 && !slices.Contains(it.Years, y) {
			return w
		}
	}
	return ""
}

// strangeWord is the first word of an answer that belongs neither to what its item asks nor to plain speech; "" there is none.
func (it *Item) strangeWord(of *statement, c *Confirmation) string {
	if of.open {
		return ""
	}
	read := affirmationOf(it.ID)
	known := slices.Concat(read.yes, read.fine, read.beside, of.with, unreserved, harmless, it.Says, Names(c.Who), troubles, deniable,
		doubtful, read.against, read.doubt) // of trouble and doubt only what is denied has come so far
	for _, group := range of.needs {
		known = append(known, group...)
	}
	for i := range it.Asks {
		known = slices.Concat(known, it.Asks[i].Behind, it.Asks[i].Or)
	}
	for _, e := range []*Expected{it.Figure, it.May} {
		if e != nil {
			known = slices.Concat(known, e.States, e.Where)
		}
	}
	for i := range it.Dated {
		known = append(known, it.Dated[i].called()...)
	}
	for i := range it.Parts {
		known = append(known, phraseOf(it.Parts[i].Name))
	}
	for _, s := range it.Stands {
		known = append(known, phraseOf(s.Name))
	}
	for _, name := range it.Names {
		known = append(known, phraseOf(name))
	}
	words := spoken(c.Value)
	for i := 0; i < len(words); {
		if n := longest(words[i:], known); n > 0 {
			i += n
			continue
		}
		w := words[i]
		_, counted := inWords[w]
		if w != stop && !counted && !slices.Contains(plain, w) && !unicode.IsDigit([]rune(w)[0]) && !slices.Contains(denials, w) {
			return w
		}
		i++
	}
	return ""
}

// longest is the number of words of the longest of some phrases with which a list begins; 0: none.
func longest(words []string, phrases []string) (n int) {
	for _, phrase := range phrases {
		n = max(n, begins(words, phrase))
	}
	return n
}

// plain are words that change nothing of what is said beside them, with the units of figures. Own rule of this project, no source.
var plain = strings.Fields(`
	a an the and or of in on at to by with from for as its it is was are were be been has had have that this these those there i we me
	us my our both each every all any one once twice thrice times time again still then than now after also too both side sides here
	so up down out over under between within round around first second third next same per right left top bottom front back rear above
	below bar bars they them through during mbar psi kpa pa mm cm m km metre metres meter meters in inch inches ft s sec secs second
	seconds min mins minute minutes h hour hours kg g gram grams n newton newtons j joule joules deg degree degrees degc degf c f k db
	dbc a amp amps ma mm2 cm2 m2 l ml v volts ohm ohms ms lb lbs oz lbf ozf in2 sqin mph fps mj kj hpa inh2o cmh2o mmh2o kgf gf gauge
	gauges reading readings read reads checked check checks looked look seen saw tried tested test tests measured counted found
	written done did do does yes ok okay fine good well clean`)
