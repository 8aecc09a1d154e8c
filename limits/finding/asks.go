package finding

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Asked is one figure more that an answer has to bring, told apart from the others by its unit or by the words before it.
type Asked struct {
	Expected
	Name   string   // of what it is, as the step prints it: "full flow"
	Behind []string // phrases of which one stands before it, after the figure before; nil: it is any figure of its unit
	Or     []string // phrases that say the same in its place; nil: nothing does
	Any    bool     // of several one is enough
	May    bool     // it may be left out
	Ends   bool     // where something ends: what stands behind "from" is where it began, and another one
	Clock  bool     // times of the day that lie so far apart say the same, as "from 14:05 to 14:20"
}

// is tells whether the i-th figure of an answer is this one.
func (a *Asked) is(c *Confirmation, i int) bool {
	var before []string
	if i < len(c.Beside) {
		before = spoken(c.Beside[i])
	}
	switch {
	case c.Figures[i].Unit != a.Unit:
		return false
	case a.Behind != nil:
		return mentions(before, a.Behind)
	}
	return !a.Ends || len(before) == 0 || before[len(before)-1] != "from"
}

// asked holds the further figures of an answer against those that it has to bring, and gives the answer without them.
func (it *Item) asked(c *Confirmation) (rest *Confirmation, outcome Outcome, why Text) {
	if len(it.Asks) == 0 {
		return c, Closes, nil
	}
	short := *c
	short.Figures, short.Beside = nil, nil
	found, good := make([]int, len(it.Asks)), make([]int, len(it.Asks))
	for i, f := range c.Figures {
		k := slices.IndexFunc(it.Asks, func(a Asked) bool { return a.is(c, i) })
		if k < 0 {
			short.Figures = append(short.Figures, f)
			if i < len(c.Beside) {
				short.Beside = append(short.Beside, c.Beside[i])
			}
			continue
		}
		if it.Asks[k].holds(f.Value) && f.Value >= it.Asks[k].reach(c)*(1-figureSlack) {
			good[k]++
		}
		found[k]++
	}
	for k := range it.Asks {
		if good[k] < found[k] && !(it.Asks[k].Any && good[k] > 0) {
			outcome, why = Failing, Say("its answer, %q, has a figure that is not what is expected of %s: ", c.said(), it.Asks[k].Name).
				And(it.Asks[k].Says())
		}
	}
	for k := range it.Asks {
		a := &it.Asks[k]
		if outcome != Closes || found[k] > 0 || a.May || a.Or != nil && mentions(spoken(c.Value), a.Or) {
			continue
		}
		if leaves, told := clockSpan(c.Value); a.Clock && told {
			if leaves < a.Low*(1-figureSlack) {
				outcome, why = Unusable, Say("its answer, %q, has times that leave %s, less than the %s that it takes", c.said(),
					Second(leaves).In(Shortest, 4), Second(a.Low).In(Shortest, 4))
			}
			continue
		}
		outcome, why = Unusable, Say("its answer, %q, says nothing of %s: asked is ", c.said(), a.Name).And(a.Says())
	}
	return &short, outcome, why
}

// Says is the figure in words, rounded to the side that is accepted, with what says the same in its place.
func (a *Asked) Says() Text { return a.says().Inward(&a.Expected) }

func (a *Asked) says() Text {
	shown, known := a.Unit.shown()
	var t Text
	switch {
	case !known:
		t = Words("a figure")
	case a.High < maxBound && a.Low > -maxBound:
		t = Say("%s to %s", shown(a.Low), shown(a.High))
	case a.High < maxBound:
		t = Say("%s or less", shown(a.High))
	case a.Where != nil:
		t = Say("%s or more, or %s beside \"%s\"", shown(a.Expected.Reach), shown(a.Nearer), strings.Join(a.Where, "\", \""))
	case a.Expected.Reach > 0:
		t = Say("%s or more", shown(a.Expected.Reach))
	case a.Low > -maxBound:
		t = Say("%s or more", shown(a.Low))
	}
	if len(a.Behind) > 0 {
		t = Say("%s behind \"%s\"", t, strings.TrimSuffix(a.Behind[0], "*"))
	}
	if len(a.Or) > 0 {
		t = t.Say(", or \"%s\"", strings.TrimSuffix(a.Or[0], "*"))
	}
	return t
}

// maxBound is beyond every figure: a bound above it is none.
const maxBound = 1e12

// shown shows a figure of an answer; false: none of that quantity is shown.
func (q Quantity) shown() (func(float64) Shown, bool) {
	switch q {
	case InPascalGauge:
		return Bar3, true
	case InMetre:
		return Metre, true
	case InSecond:
		return func(v float64) Shown { return Second(v).In(Shortest, 4) }, true
	case InKelvin:
		return func(v float64) Shown { return Celsius.Of(v, 3) }, true
	case InSquareMetre:
		return SquareMillimetre, true
	}
	return nil, false
}

// said is an answer as it is quoted.
func (c *Confirmation) said() string { return strings.TrimSpace(c.Value) }

// clock is a time of the day to another one, as people write it.
var clock = regexp.MustCompile(`\b([01]?\d|2[0-3]):([0-5]\d)\s*(?:to|until|till|-|–)\s*([01]?\d|2[0-3]):([0-5]\d)\b`)

// clockSpan is how long the times of an answer lie apart [s], over midnight too; false: it tells none.
func clockSpan(text string) (seconds float64, told bool) {
	m := clock.FindStringSubmatch(text)
	if m == nil {
		return 0, false
	}
	at := func(hour, minute string) int {
		h, _ := strconv.Atoi(hour)
		m, _ := strconv.Atoi(minute)
		return 60*h + m
	}
	const day = 24 * 60
	return float64(60 * ((at(m[3], m[4]) - at(m[1], m[2]) + day) % day)), true
}

// inWords are the numbers that people write as words.
var inWords = map[string]int{"zero": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
	"ten": 10, "eleven": 11, "twelve": 12, "fifteen": 15, "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60}

// InWords is the number, from 1, that a word in small letters is: "twelve"; false: it is none.
func InWords(word string) (n int, is bool) {
	n = inWords[word]
	return n, n > 0
}

// number is the count that a word is, or digits; false: it is none.
func number(word string) (int, bool) {
	if n, is := InWords(word); is {
		return n, true
	}
	n, err := strconv.Atoi(word)
	return n, err == nil
}

// times are words that stand behind a count of what was read.
var times = []string{"times", "cycles", "readings", "fills", "shots", "loads", "runs", "lifts", "tries", "balls", "rockets", "projectiles"}

// counts tells whether words say that so many readings were taken, or more.
func counts(words []string, least int) bool {
	for i := 0; i+1 < len(words); i++ {
		if n, is := number(words[i]); is && n >= least && (slices.Contains(times, words[i+1]) || i > 0 && words[i-1] == "all") {
			return true
		}
	}
	return false
}

// shortOf tells whether words say that not all of some were as they should be: "7 of 8".
func shortOf(words []string) bool {
	for i := 0; i+2 < len(words); i++ {
		n, is := number(words[i])
		of, all := number(words[i+2])
		if words[i+1] == "of" && is && all && n < of {
			return true
		}
	}
	return false
}
