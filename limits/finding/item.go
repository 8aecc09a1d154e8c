package finding

import (
	"math"
	"slices"
	"strings"
	"time"
	"unicode"
)

// Figure is a number with its unit in an answer of the checklist, in SI.
type Figure struct {
	Value float64
	Unit  Quantity
}

// Expected is the figure that an answer has to bring; Also is one that it may bring
// besides. An answer without the figure, or with one outside, leaves its item open.
type Expected struct {
	Unit      Quantity
	Low, High float64 // SI; infinite: no bound on that side
	Least     int     // how many such figures are asked for; 0: one
	Also      *Expected
}

// FigureBetween expects a figure between two bounds.
func FigureBetween(unit Quantity, low, high float64) *Expected {
	return &Expected{Unit: unit, Low: low, High: high}
}

// SupplyOff is the bare item of the plug of a supply: what every gauge may show with it pulled [Pa gauge].
func SupplyOff(target float64) Item {
	return Item{ID: ItemSupplyOff, Figure: FigureBetween(InPascalGauge, math.Inf(-1), target)}
}

// figureSlack is how far outside a figure may lie by rounding alone, relative to the
// bound (a reading is written down to three digits).
const figureSlack = 0.005

func (e *Expected) holds(v float64) bool {
	return v >= e.Low-figureSlack*math.Abs(e.Low) && v <= e.High+figureSlack*math.Abs(e.High)
}

// Signed tells whether an answer has a name and a date.
func (c *Confirmation) Signed() bool {
	return Declared(c.Who) != "" && strings.TrimSpace(c.Date) != ""
}

// Declared is a declaration without surrounding blanks; "" where it only says
// that there is none, or that it is still to come.
func Declared(text string) string {
	t := strings.TrimSpace(text)
	bare := strings.ToLower(strings.Trim(t, " .-?!"))
	switch bare {
	case "", "none", "no", "nobody", "nothing", "tba", "n/a", "n.a", "na", "unknown", "false", "x", "xxx":
		return ""
	}
	if says(bare, "to be", "will be", "todo", "to do", "tbd", "fixme", "planned", "plan to", "later", "pending", "not yet", "soon", "missing",
		"under construction", "ordered") {
		return ""
	}
	return t
}

// People counts the different names of an answer's "AB, CD", whatever their case.
func People(who string) int {
	names := map[string]bool{}
	for _, n := range strings.FieldsFunc(who, func(r rune) bool { return strings.ContainsRune(",;&+/", r) }) {
		if n = strings.ToLower(strings.Trim(n, " .")); n != "" {
			names[n] = true
		}
	}
	return len(names)
}

// denies tells of an answer that it says that nothing was done, or that the test failed.
func denies(text string) bool {
	return strings.TrimSpace(text) != "" && (Declared(text) == "" ||
		says(strings.ToLower(text), "fail", "fails", "failed", "failing", "failure",
			"not done", "not tested", "not passed", "not ok", "not resilient", "did not", "does not", "could not", "untested", "undone",
			"nope", "did nothing", "does nothing") || complains(strings.ToLower(text)))
}

// complains tells whether a text in lower case names a trouble of the part that was looked at, unless a word before it denies it: "no
// leak" is no complaint. A text that is misread so leaves its item open, which hurts nobody.
func complains(text string) bool {
	troubles := []string{"never", "stuck", "sticks", "jammed", "broken", "broke", "cracked", "crack", "leaks", "leaking", "unreadable",
		"illegible", "burst", "blocked", "iced", "loose", "torn", "bent", "wrong"}
	denied := 0 // how many words more a denial reaches
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
		if slices.Contains([]string{"no", "not", "nothing", "none", "without", "nowhere", "nobody"}, word) {
			denied = 3
			continue
		}
		if slices.Contains(troubles, word) && denied == 0 {
			return true
		}
		denied = max(denied-1, 0)
	}
	return false
}

// says tells whether a text in lower case has one of some words, as whole words.
func says(text string, some ...string) bool {
	words := " " + strings.Join(strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }), " ") + " "
	return slices.ContainsFunc(some, func(s string) bool { return strings.Contains(words, " "+s+" ") })
}

// Outcome is what comes of an answer.
type Outcome uint8

// The four outcomes. Only the first closes an item; only Failing speaks against the launcher.
const (
	Closes   Outcome = iota
	Void             // it counts no more, or not yet: its date, its time, or what it rests on was changed since
	Unusable         // it does not say what is asked: no figure, or one of something else
	Failing          // it was not done, did not pass, or its figure is outside of what is expected
)

// Refuses says why an answer does not close its item on a day, an ISO date; nil: it does.
// Without a day nobody knows whether it still holds, so it closes nothing.
func Refuses(it *Item, c *Confirmation, day string) Text {
	_, why := Judge(it, c, day)
	return why
}

// Judge says what comes of an answer to an item on a day as of Refuses, and why where it does not close it.
func Judge(it *Item, c *Confirmation, day string) (Outcome, Text) {
	if why := c.notOn(day); why != nil {
		return Void, why
	}
	if c.Changed {
		return Void, Say("its answer of %s is of another build: what it rests on was changed since", strings.TrimSpace(c.Date))
	}
	if denies(c.Value) {
		return Failing, Say("its answer, %q, says that it was not done or did not pass", strings.TrimSpace(c.Value))
	}
	if it.Reading && len(c.Figures) == 0 {
		return Unusable, Say("its answer, %q, has no figure: write what was read, or let a file of readings answer it",
			strings.TrimSpace(c.Value))
	}
	if it.Figure == nil {
		if why := it.strange(c); why != nil {
			return Unusable, why
		}
		return Closes, nil
	}
	return it.Figure.Judge(c)
}

// Judge holds the figures of an answer against what is expected.
func (e *Expected) Judge(c *Confirmation) (Outcome, Text) {
	found := 0
	for _, f := range c.Figures {
		for one := e; one != nil; one = one.Also {
			if f.Unit != one.Unit {
				continue
			}
			if one == e {
				found++
			}
			if !one.holds(f.Value) {
				return Failing, Say("its answer, %q, is not what is expected", strings.TrimSpace(c.Value))
			}
		}
	}
	switch {
	case found > 0 && found < e.Least:
		return Unusable, Say("its answer, %q, has %d of the %d readings that are asked for", strings.TrimSpace(c.Value), found, e.Least)
	case found == 0:
		return Unusable, Say("its answer, %q, has no figure in %s", strings.TrimSpace(c.Value), e.Unit.inAnswer())
	}
	return Closes, nil
}

// strange refuses an answer all of whose figures are in other quantities than its item
// speaks of: of the energy of shots a mass says nothing. A pressure belongs to any test.
func (it *Item) strange(c *Confirmation) Text {
	fits := func(f Figure) bool {
		return f.Unit == InPascalGauge || slices.ContainsFunc(it.Expect, func(p Part) bool {
			return p.Figure != nil && p.Figure.Unit.quantity() == f.Unit
		})
	}
	speaks := slices.ContainsFunc(it.Expect, func(p Part) bool { return p.Figure != nil })
	if !speaks || len(c.Figures) == 0 || slices.ContainsFunc(c.Figures, fits) {
		return nil
	}
	return Say("its answer, %q, has a figure of something else; expected is: %s", strings.TrimSpace(c.Value), it.Expect)
}

// inAnswer names a unit as a person would write it.
func (q Quantity) inAnswer() string {
	switch q {
	case InPascalGauge:
		return "bar"
	case InMetre:
		return "mm"
	}
	return string(q)
}

// ItemValidMonths is how long an answer holds where the design states no valid_until
// [months]: own rule of this project (common practice, no source).
const ItemValidMonths = 12

// HoldsUntil is the last day on which an answer counts, an ISO date; "" where its date is none.
func (c *Confirmation) HoldsUntil() string {
	if until := strings.TrimSpace(c.ValidUntil); until != "" {
		return until
	}
	return MonthsAfter(strings.TrimSpace(c.Date), ItemValidMonths)
}

// MonthsAfter is the same day so many months later, an ISO date; "" for a text that is no date.
func MonthsAfter(date string, months int) string {
	t, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return ""
	}
	return t.AddDate(0, months, 0).Format(time.DateOnly)
}

// notOn says why an answer does not count on a day, by its dates; nil: it does.
func (c *Confirmation) notOn(day string) Text {
	on, err := time.Parse(time.DateOnly, day)
	if err != nil {
		return Words("the question names no day, so nobody knows whether its answer still holds")
	}
	date := strings.TrimSpace(c.Date)
	until, err := time.Parse(time.DateOnly, c.HoldsUntil())
	if given, none := time.Parse(time.DateOnly, date); none != nil || err != nil {
		return Say("its answer is dated %q and holds until %q: not both are dates", date, c.HoldsUntil())
	} else if given.After(on) {
		return Say("its answer is dated %s, which is still to come", date)
	}
	if on.After(until) {
		return Say("its answer of %s held until %s", date, c.HoldsUntil())
	}
	return nil
}

// Confirmation is one answer of the checklist.
type Confirmation struct {
	Item       string
	Who        string
	Date       string // ISO date
	Value      string
	ValidUntil string   // ISO date
	Figures    []Figure // the numbers with a unit in Value
	Shows      Text     // of a file of readings, in place of Value
	// Build is the fingerprint of what the answer rests on, as the program wrote it down with the answer; "" it says none.
	// Changed: the design says something else of that by now.
	Build   string
	Changed bool
}

// Says is what the answer says: what a person wrote, or what a file of readings shows.
func (c *Confirmation) Says() Text {
	if len(c.Shows) != 0 {
		return c.Shows
	}
	return Words(c.Value)
}

// AnswerBy marks an item as done by a file of readings, unless a person did it.
func (it *Item) AnswerBy(file string, shows Text) {
	if it.Done == nil {
		it.Done, it.OpenWhy = &Confirmation{Item: it.ID, Who: file, Shows: shows}, nil
	}
}

// IndexOfItem is where an item is in a list; -1: nowhere.
func IndexOfItem(items []Item, id string) int {
	return slices.IndexFunc(items, func(it Item) bool { return it.ID == id })
}

// Reopen takes the answer off an item that something newer speaks against.
func (it *Item) Reopen(why Text) {
	it.Done = nil
	it.Why = it.Why.Say(" Not done: %s.", why.TrimEnd(". "))
}

// Item is one entry of the checklist: what only a person can confirm.
type Item struct {
	ID      string // stable, such as "confirm.shots"
	Title   Text   // what to do
	Why     Text   // why it matters
	How     Text   // how to check it
	Expect  Text   // the figure to expect, in SI wording with its unit
	Verdict string // the verdict that rests on it; "" where none does
	Source  string
	Figure  *Expected     // what the answer has to bring; nil: no figure
	Reading bool          // readings close it, without bounds: an answer in words does not
	Done    *Confirmation // nil: open
	OpenWhy Text          // why the answer that there is does not close it; "" there is none, or it does
}
