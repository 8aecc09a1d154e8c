package finding

import (
	"math"
	"slices"
	"strings"
	"time"
)

// SupplyOff is the bare item of the plug of a supply: what every gauge may show with it pulled [Pa gauge], and how long is waited then
// where no gauge shows all that empties [s]; 0: gauges do.
func SupplyOff(target, wait float64) Item {
	it := Item{ID: ItemSupplyOff, Figure: FigureBetween(InPascalGauge, math.Inf(-1), target)}
	if wait > 0 {
		it.Asks = []Asked{{Expected: *FigureBetween(InSecond, wait, math.Inf(1)), Name: "how long it was waited then"}}
	}
	return it
}

// HeardEmpty are phrases that tell of an emptying which no gauge shows: it is heard.
func HeardEmpty() []string { return []string{"hissed", "hisses", "hiss"} }

// emptyWords say in words that every gauge is at zero.
var emptyWords = []string{"every gauge at zero", "all gauges at zero", "every gauge zero", "gauge zero", "gauges zero", "at zero",
	"to zero", "gauge at zero"}

// EmptyAt is the pressure that every gauge may show at the end of an emptying, up to a target [Pa gauge].
func EmptyAt(target float64) Asked {
	return Asked{Expected: *FigureBetween(InPascalGauge, math.Inf(-1), target), Name: "what every gauge shows then", Or: emptyWords,
		Ends: true}
}

// Lasting is for how long something is watched at least [s].
func Lasting(seconds float64) Asked {
	return Asked{Expected: *FigureBetween(InSecond, seconds, math.Inf(1)), Name: "how long it was watched", Clock: true}
}

// StandsIn are what stands in for distance from where projectiles come down.
func StandsIn() []string { return []string{"net", "nets", "hood", "hoods", "covered faces"} }

// FinestGuard is the opening [m] through which nobody reaches further than the shortest probe.
const FinestGuard = 4e-3

// Guard is the bare item of the guard at the muzzle: how long the probe is that does not reach the bore [m], and how long behind openings
// that are no larger than the finest.
func Guard(long, short float64) Item {
	var fine []string
	for _, name := range []string{"openings", "slots", "mesh", "holes", "gaps", "grid"} {
		for _, of := range []string{" of 4 mm", " of 3 mm", " of 2 mm"} {
			fine = append(fine, name+of)
		}
	}
	return Item{ID: ItemGuard, Figure: &Expected{Unit: InMetre, Low: 0, High: math.Inf(1), Reach: long, Where: fine, Nearer: short}}
}

// VentByHand is the bare item of what a hand opens: what every gauge may show then [Pa gauge].
func VentByHand(target float64) Item {
	return Item{ID: ItemVentByHand, Figure: FigureBetween(InPascalGauge, math.Inf(-1), target)}
}

// SwitchTest is the bare item of what ends the filling: ten readings of the cut-out, or their ends [Pa gauge].
func SwitchTest(low, high float64) Item {
	return Item{ID: ItemSwitchTest, Figure: &Expected{Unit: InPascalGauge, Low: low, High: high, Least: 2, Times: 10}}
}

// ColdState is how cold a tip was in the cold state of its press test, at most [K].
func ColdState(most float64) Asked {
	return Asked{Expected: *FigureBetween(InKelvin, math.Inf(-1), most), Any: true, Name: "how cold it was in the cold state"}
}

// NamedBy gives an item the names of a launcher's parts, and of what is to be kept up the design's own words.
func (it *Item) NamedBy(names []string) {
	if it.Names = names; strings.HasPrefix(it.ID, ControlItem) {
		it.Names = append(slices.Clone(names), spoken(it.Title.String())...)
	}
}

// JamDrill is the bare item of the drill for a jam, and for how long nobody goes near [s]; 0 or NaN: no time is asked.
func JamDrill(wait float64) Item {
	it := Item{ID: ItemJamDrill}
	if wait > 0 && !math.IsInf(wait, 1) {
		it.Asks = []Asked{{Expected: *FigureBetween(InSecond, wait, math.Inf(1)), Name: "how long nobody goes near"}}
	}
	return it
}

// Signed tells whether an answer has a name and a date.
func (c *Confirmation) Signed() bool {
	return Declared(c.Who) != "" && strings.TrimSpace(c.Date) != ""
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
	if len(c.Unproved) != 0 {
		return Void, c.Unproved
	}
	if c.Newer.Key != "" {
		return Void, Say("its answer of %s is older than a part that it speaks of: %s is %s; do it again with that part",
			strings.TrimSpace(c.Date), c.Newer.Key, c.Newer.Made)
	}
	if len(it.Never) != 0 {
		return Unusable, it.Never
	}
	if c.Changed {
		return Void, Say("its answer of %s is of another build: what it rests on was changed since", strings.TrimSpace(c.Date))
	}
	if judged, _, course := CourseIn(c.Value); it.ID == ItemLeakDown && c.Recorded && course && judged == Tight {
		return Closes, nil // its readings were judged as a course, and the record has them
	}
	if denies(it.ID, c.Value) {
		why := Say("its answer, %q, says that it was not done or did not pass", c.said())
		if says := it.say(); says != nil {
			why = why.And(Words("; if it did, write it")).And(says)
		}
		return Failing, why
	}
	if len(c.Odd) != 0 {
		if outcome, why := it.weigh(c); outcome == Unusable {
			return outcome, why
		}
		return Unusable, Say("its answer, %q, has a figure in a unit that nobody knows: %s", c.said(),
			strings.Join(c.Odd, "; "))
	}
	if outcome, why := it.weigh(c); outcome != Closes {
		return outcome, why
	}
	return it.worded(c)
}

// weigh holds the figures of an answer against what its item asks for.
func (it *Item) weigh(c *Confirmation) (Outcome, Text) {
	if len(c.Figures) > 0 && guessed(c.Value) {
		return Unusable, Say("its answer, %q, has a figure that was not read off", c.said())
	}
	if s, wrong := wrongWay(it.Stands, c.Value); wrong {
		return Failing, Say("its answer, %q, says that %s is %s; it has to be %s", c.said(), s.Name, word(!s.Open),
			word(s.Open))
	}
	c, outcome, why := it.asked(c)
	if outcome == Failing {
		return outcome, why
	}
	if o, w := it.figured(c); o != Closes {
		return o, w
	}
	return outcome, why
}

// figured holds the figures of an answer that no further one of those asked takes against the first.
func (it *Item) figured(c *Confirmation) (Outcome, Text) {
	if slices.ContainsFunc(c.Figures, func(f Figure) bool { return f.Unit == InOtherDecibel }) {
		return Unusable,
			Say("its answer, %q, is a level in dB(A) or dB(Z): A takes the low tones of a pop away, and neither is the C-weighted "+
				"peak that the limit is in; set the meter to C, peak, and write dB(C)", c.said())
	}
	if it.Figure == nil {
		if it.May != nil && len(it.May.in(c)) > 0 {
			if outcome, why := it.May.Judge(c); outcome != Closes {
				return outcome, why
			}
			return it.unreserved(c)
		}
		if why := it.strange(c); why != nil {
			return Unusable, why
		}
		if p := it.stillUnder(c); p > 0 {
			return Unusable, Say("its answer, %q, leaves open whether it was empty in the end: %s is not zero", c.said(),
				Bar3(p))
		}
		return it.unreserved(c)
	}
	if len(c.Figures) > 0 && len(it.Figure.in(c)) == 0 && len(it.Expect) != 0 {
		return Unusable, Say("its answer, %q, has a figure of something else; expected is: %s", c.said(), it.Expect)
	}
	if why := it.Contradicted(c); why != nil {
		return Failing, why
	}
	if outcome, why := it.Figure.Judge(c); outcome != Closes {
		return outcome, why
	}
	if outcome, why := it.named(c); outcome != Closes {
		return outcome, why
	}
	if of := affirmationOf(it.ID).beside; len(of) > 0 && !mentions(spoken(c.Value), of) {
		return Unusable, Say("its answer, %q, does not say what the figure is for: \"air\" or \"gas\", as the label has it",
			c.said())
	}
	return it.unreserved(c)
}

// unreserved refuses an answer with a word that takes a part of it back.
func (it *Item) unreserved(c *Confirmation) (Outcome, Text) {
	word := reserved(affirmationOf(it.ID), spoken(c.Value))
	if word == "" {
		return Closes, nil
	}
	return Unusable,
		Say("its answer, %q, has a word that leaves open how it was, \"%s\": say what was seen without it; where it was not as "+
			"it should be, \"failed\" and why", c.said(), word)
}

// endsEmpty are the items in words that are done without air, or end without.
var endsEmpty = []string{ItemKeyAndStop, ItemLoadingWait, ItemDryControl, ItemTwoActions, ItemContacts, ItemGuard, ItemSealGuard,
	ItemExhaust,
	ItemJamDrill, ItemLookIn, ItemOpenTag, ItemOneProjectile, ItemNotFrozen, ItemColdDrain, ItemElevation}

// stillUnder is a pressure [Pa gauge] that an answer in words names beside an item that ends with the launcher empty, where it names no
// zero; 0: none.
func (it *Item) stillUnder(c *Confirmation) (most float64) {
	if !slices.Contains(endsEmpty, it.ID) || mentions(spoken(c.Value), []string{"zero"}) {
		return 0
	}
	for _, f := range c.Figures {
		if f.Unit != InPascalGauge {
			continue
		}
		if f.Value <= 0 {
			return 0
		}
		most = max(most, f.Value)
	}
	return most
}

// strange refuses an answer all of whose figures are in other quantities than its item
// speaks of: of the energy of shots a mass says nothing. A gauge at nothing belongs to any test.
func (it *Item) strange(c *Confirmation) Text {
	fits := func(f Figure) bool {
		return f.Unit == InPascalGauge && f.Value == 0 || slices.ContainsFunc(slices.Concat(it.Title, it.Expect), func(p Part) bool {
			return p.Figure != nil && p.Figure.Unit.quantity() == f.Unit
		})
	}
	speaks := slices.ContainsFunc(it.Expect, func(p Part) bool { return p.Figure != nil })
	if !speaks || len(c.Figures) == 0 || slices.ContainsFunc(c.Figures, fits) {
		return nil
	}
	return Say("its answer, %q, has a figure of something else; expected is: %s", c.said(), it.Expect)
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
	Beside     []string // for each of Figures the words before it, after the figure before
	Odd        []string // numbers in Value behind which a word stands that is all but a unit, with it: "3 psii"
	Shows      Text     // of a file of readings, in place of Value
	// Build is the fingerprint of what the answer rests on, as the program wrote it down with the answer; "" it says none.
	// Changed: the design says something else of that by now.
	Build   string
	Changed bool
	// Newer is a part that the answer rests on and that was made after it; zero: there is none.
	Newer NewerPart
	// Record names the reading in the record beside the design that the answer came from; "" it names none. Recorded: the record
	// has this very answer. Unproved says why the record does not bear out an answer that it should; nil: it does, or it has
	// nothing of this item.
	Record   string
	Recorded bool
	Unproved Text
	// Entry is the place of that reading in the record, from 1; Since that of the first of the readings which have passed for the same
	// build up to it, with none in between of another build or that failed; 0: it is not recorded.
	Entry, Since int
}

// NewerPart is a part of a design that was made after an answer which speaks of it.
type NewerPart struct {
	Key, Made string // its made_on, an ISO date
}

// NewestAfter is the newest of some parts that was made after a day on which something was read or answered; zero: there is none, or the
// day is none. What was read then was of another part: an answer of the checklist is void by it, a measurement counts no more.
func NewestAfter(date string, parts []NewerPart) (newest NewerPart) {
	date = strings.TrimSpace(date)
	if _, err := time.Parse(time.DateOnly, date); err != nil {
		return newest
	}
	for _, p := range parts {
		if p.Made > max(date, newest.Made) { // ISO dates
			newest = p
		}
	}
	return newest
}

// Said tells whether nothing but its own words stands behind an answer: it was written into the design by hand, and no record
// has it. A file of readings stands for itself.
func (c *Confirmation) Said() bool { return !c.Recorded && len(c.Shows) == 0 }

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
	Parts   []NamedPart   // of which the answer brings one figure each, by name where there are several; nil: figures have no names
	Stands  []Stand       // how parts have to stand, where an answer in words tells of it
	May     *Expected     // what the answer may bring where Figure is nil; nil: nothing is known of it
	Asks    []Asked       // further figures that the answer has to bring; nil: none
	Names   []string      // names of the launcher's parts and of its own words, which an answer may have; nil: none
	Years   []int         // of the dates that the design has; nil: none are known
	Dated   []Dated       // parts of which the answer tells a year that a paper shows; nil: none
	Says    []string      // phrases of which the answer has to have one, whatever figures it has; nil: none
	Never   Text          // why no answer closes it while the design stands as it does; nil: one can
	Done    *Confirmation // nil: open
	OpenWhy Text          // why the answer that there is does not close it; "" there is none, or it does
}
