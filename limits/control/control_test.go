package control

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"puffproof/pneumatics"
)

const (
	off, charging, armed, loading, firing = pneumatics.Off, pneumatics.Charging, pneumatics.Armed, pneumatics.Loading, pneumatics.Firing
)

// ways reads what a part has in its way.
func ways(t *testing.T, texts ...string) (out []Step) {
	t.Helper()
	for _, text := range texts {
		s, err := ParseStep(text)
		require.NoError(t, err, text)
		out = append(out, s)
	}
	return out
}

// twoRelays is a wiring with two relays that hold themselves, either of which cuts all three loads; invented.
func twoRelays(t *testing.T) *Wiring {
	used := pneumatics.SetOf(charging, armed, firing)
	return &Wiring{Parts: []Part{
		{Name: "dump", Kind: Load, Moves: []string{"dump"}, Through: ways(t, "f1", "k1.3", "k2.3")},
		{Name: "f1", Kind: Fuse, Rating: 2, Wire: 6},
		{Name: "fire", Kind: Load, Moves: []string{"fire"}, Through: ways(t, "f1", "k1.4", "k2.4", "pedal", "remote")},
		{Name: "gauge", Kind: PressureSwitch},
		{Name: "k1", Kind: Relay, Through: ways(t, "f1", "key.1", "stop.1", "start.1 or k1.1")},
		{Name: "k2", Kind: Relay, Through: ways(t, "f1", "key.2", "stop.2", "start.2 or k2.1")},
		{Name: "key", Kind: KeySwitch, ClosedIn: used},
		{Name: "pedal", Kind: Button, ClosedIn: pneumatics.SetOf(firing)},
		{Name: "pump", Kind: Load, Moves: []string{Supply}, Through: ways(t, "f1", "k1.2", "k2.2", "gauge")},
		{Name: "remote", Kind: Remote, ClosedIn: pneumatics.SetOf(firing)},
		{Name: "start", Kind: StartButton, ClosedIn: used},
		{Name: "stop", Kind: Stop},
	}}
}

// on names the loads that have current.
func on(w *Wiring, all On) string {
	text := ""
	for _, i := range w.Loads() {
		if all[i] {
			text += w.Parts[i].Name + " "
		}
	}
	return text
}

func named(w *Wiring, parts []int) (out []string) {
	for _, i := range parts {
		out = append(out, w.Parts[i].Name)
	}
	return out
}

// Written down by hand, contact by contact, before the code was run: in each state, with each contact welded in turn, which loads
// have current. Two relays in series leave a truth table that no single weld changes.
func TestTheTruthTableOfEachWeld(t *testing.T) {
	w := twoRelays(t)
	normal := map[pneumatics.State]string{off: "", charging: "dump pump ", armed: "dump pump ", loading: "", firing: "dump fire pump "}
	for s, want := range normal {
		outcomes, calm := w.In(s)
		require.True(t, calm)
		require.Len(t, outcomes, 1, "nothing hangs on what was before")
		assert.Equal(t, want, on(w, outcomes[0]), s.String())
	}
	welds := w.Welds()
	var names []string
	for _, f := range welds {
		names = append(names, w.Named(f))
	}
	assert.Equal(t, []string{"k1", "k2", "key.1", "key.2", "pedal", "remote", "start.1", "start.2", "stop.1", "stop.2"}, names)
	for _, f := range welds {
		for s, want := range normal {
			assert.Equal(t, want, on(w, w.WrongIn(s, f)), "%s welded, %s", w.Named(f), s)
			assert.Empty(t, w.Stopped(s, f), "%s welded, stop pressed while %s", w.Named(f), s)
		}
		released, returned := w.Restarts(armed, f)
		assert.Empty(t, released, w.Named(f))
		assert.Empty(t, returned, w.Named(f))
	}
}

// Two welds at once, by hand: with both relays stuck everything that only they switch is on for good; with both contacts of the
// key welded the relays hold on when it is turned off, and the stop still drops them.
func TestTwoWelds(t *testing.T) {
	w := twoRelays(t)
	k1, k2 := Failure{Mode: Welded, Part: "k1"}, Failure{Mode: Welded, Part: "k2"}
	assert.Equal(t, "dump pump ", on(w, w.WrongIn(off, k1, k2)))
	assert.Equal(t, []string{"dump", "pump"}, named(w, w.Stopped(armed, k1, k2)))
	key1, key2 := Failure{Mode: Welded, Part: "key", No: 1}, Failure{Mode: Welded, Part: "key", No: 2}
	assert.Equal(t, "dump pump ", on(w, w.WrongIn(loading, key1, key2)), "held from before")
	assert.Empty(t, w.Stopped(loading, key1, key2))
	remote, pedal := Failure{Mode: Welded, Part: "remote"}, Failure{Mode: Welded, Part: "pedal", No: 1}
	assert.Equal(t, "dump fire pump ", on(w, w.WrongIn(armed, remote, pedal)), "it fires as soon as it is armed")
	stop1, stop2 := Failure{Mode: Welded, Part: "stop", No: 1}, Failure{Mode: Welded, Part: "stop", No: 2}
	assert.Equal(t, []string{"dump", "fire", "pump"}, named(w, w.Stopped(firing, stop1, stop2)))
}

// By hand: a key that does not turn back holds both relays, which were pulled in, switched off too; a start button that jams in pulls
// them in again as soon as the stop is released or the power is back; both leave the stop its work. What has one contact in use
// sticks with that contact's weld, and the stop's contacts are forced open.
func TestAPartThatSticksWithAllItsContacts(t *testing.T) {
	w := twoRelays(t)
	key, start := Failure{Mode: Welded, Part: "key"}, Failure{Mode: Welded, Part: "start"}
	require.Equal(t, []Failure{key, start}, w.Stuck())
	assert.Equal(t, "dump pump ", on(w, w.WrongIn(off, key)))
	assert.Equal(t, "dump pump ", on(w, w.WrongIn(loading, key)))
	assert.Empty(t, on(w, w.WrongIn(loading, start)), "the key is off")
	for _, f := range w.Stuck() {
		assert.Empty(t, w.Stopped(firing, f), f.Part)
	}
	released, returned := w.StartsAgain(start)
	assert.Equal(t, []string{"dump", "pump"}, named(w, released))
	assert.Equal(t, []string{"dump", "pump"}, named(w, returned))
	released, returned = w.StartsAgain(key)
	assert.Empty(t, append(released, returned...), "the relays have dropped, and nobody presses start")
	assert.Equal(t, []string{"k1.1", "k1.2", "k1.3", "k1.4", "k2.1", "k2.2", "k2.3", "k2.4", "key.1", "key.2", "pedal", "remote", "start.1",
		"start.2", "stop.1", "stop.2"}, w.Tried(), "each contact that a meter is laid across")
}

// With one relay and one contact of each, by hand: that relay stuck, or the stop's contact welded, takes the stop away; the key's
// contact welded leaves everything on when it is turned off.
func TestOneRelayIsNotEnough(t *testing.T) {
	w := twoRelays(t)
	for i := range w.Parts {
		p := &w.Parts[i]
		switch p.Name {
		case "dump":
			p.Through = ways(t, "f1", "k1.3")
		case "fire":
			p.Through = ways(t, "f1", "k1.4", "pedal", "remote")
		case "pump":
			p.Through = ways(t, "f1", "k1.2", "gauge")
		}
	}
	still := map[string][]string{"k1": {"dump", "pump"}, "stop.1": {"dump", "pump"}}
	changed := map[string]string{"k1": "dump pump ", "key.1": "dump pump "}
	for _, f := range w.Welds() {
		assert.Equal(t, still[w.Named(f)], named(w, w.Stopped(armed, f)), "%s welded, stop pressed", w.Named(f))
		assert.Equal(t, changed[w.Named(f)], on(w, w.WrongIn(off, f)), "%s welded, off", w.Named(f))
	}
}

// A wire at plus takes everything behind it along, and a relay's own contacts with it.
func TestAShortMovesAllThatHangsOnTheWire(t *testing.T) {
	w := twoRelays(t)
	assert.Empty(t, w.Shorts(), "each load has contacts of its own")
	for i := range w.Parts {
		if p := &w.Parts[i]; p.Name == "dump" {
			p.Through = ways(t, "f1", "k1.4", "k2.4")
		}
	}
	var got []string
	for _, f := range w.Shorts() {
		got = append(got, w.Named(f))
	}
	assert.Equal(t, []string{"k1.4", "k2.4"}, got, "dump and fire share two contacts")
	assert.Equal(t, "dump ", on(w, w.WrongIn(off, Failure{Mode: Shorted, Part: "k2", No: 4})), "fire waits for its buttons")
	assert.Empty(t, on(w, w.WrongIn(off, Failure{Mode: Shorted, Part: "k1", No: 4})), "k2 is behind it")
	w = &Wiring{Parts: []Part{{Name: "k", Kind: Relay, Through: ways(t, "b")}, {Name: "b", Kind: Button, ClosedIn: pneumatics.SetOf(firing)},
		{Name: "two", Kind: Load, Moves: []string{"feed", "fire"}, Through: ways(t, "k.2")}}}
	require.Len(t, w.Shorts(), 1, "two valves on one last wire")
	assert.Equal(t, "two ", on(w, w.WrongIn(loading, w.Shorts()[0])))
}

// What starts again by itself: a switch that stays where it is does, a relay that holds itself does not, unless its start button
// is stuck.
func TestWhatStartsAgainByItself(t *testing.T) {
	w := twoRelays(t)
	simple := &Wiring{Parts: []Part{{Name: "key", Kind: KeySwitch, ClosedIn: pneumatics.SetOf(charging, armed)}, {Name: "stop", Kind: Stop},
		{Name: "pump", Kind: Load, Moves: []string{Supply}, Through: ways(t, "key", "stop")}}}
	released, returned := simple.Restarts(charging)
	assert.Equal(t, []string{"pump"}, named(simple, released))
	assert.Equal(t, []string{"pump"}, named(simple, returned))
	released, returned = w.Restarts(charging)
	assert.Empty(t, append(released, returned...))
	stuck := []Failure{{Mode: Welded, Part: "start", No: 1}, {Mode: Welded, Part: "start", No: 2}}
	released, _ = w.Restarts(charging, stuck...)
	assert.Equal(t, []string{"dump", "pump"}, named(w, released))
}

// The pressure switch ends the filling as built; not where its relay sticks that comes behind it.
func TestWhatEndsTheFilling(t *testing.T) {
	w := twoRelays(t)
	assert.False(t, w.Overfills())
	assert.False(t, w.Overfills(Failure{Mode: Welded, Part: "k1"}))
	for i := range w.Parts {
		if p := &w.Parts[i]; p.Name == "pump" {
			p.Through = ways(t, "f1", "k1.2", "k2.2", "k3")
		}
	}
	w.Parts = append(w.Parts, Part{Name: "k3", Kind: Relay, Through: ways(t, "f1", "gauge")})
	assert.False(t, w.Overfills())
	assert.True(t, w.Overfills(Failure{Mode: Welded, Part: "k3"}))
}

// What is meant to have current when all is off, such as a vent that current opens, keeps it behind a pressed stop: it is not
// counted there, nor as one that starts again.
func TestWhatIsOnWhenAllIsOff(t *testing.T) {
	w := twoRelays(t)
	w.Parts = append(w.Parts, Part{Name: "vent", Kind: Load, Moves: []string{"vent"}, Through: ways(t, "f1", "not k1.5")})
	assert.Equal(t, "vent ", on(w, w.Normal(off)))
	assert.Equal(t, "dump pump ", on(w, w.Normal(armed)))
	assert.Empty(t, w.Stopped(armed))
	released, returned := w.Restarts(armed)
	assert.Empty(t, append(released, returned...))
}

// A load that somebody wired around the stop keeps its current, and no other does; a coil without current takes its relay's loads
// along.
func TestBypassesAndLosses(t *testing.T) {
	w := twoRelays(t)
	require.Len(t, w.Bypasses(), 3)
	for _, f := range w.Bypasses() {
		still := named(w, w.Stopped(firing, f))
		assert.Equal(t, []string{f.Part}, still)
	}
	lost := map[string]string{"dump": "fire pump ", "fire": "dump pump ", "pump": "dump fire ", "k1": "", "k2": ""}
	for _, f := range w.Losses() {
		assert.Equal(t, lost[f.Part], on(w, w.WrongIn(firing, f)), f.Part)
	}
	assert.Equal(t, "dump fire pump ", on(w, w.WrongIn(armed, Failure{Mode: Flipped, Part: "fire", State: armed})))
	assert.Equal(t, "dump pump ", on(w, w.WrongIn(charging, Failure{Mode: Flipped, Part: "fire", State: armed})))
}

// A relay that opens its own way chatters; one with a contact that closes as it drops does not.
func TestARelayThatOpensItsOwnWayChatters(t *testing.T) {
	w := &Wiring{Parts: []Part{{Name: "k", Kind: Relay, Through: ways(t, "not k")}}}
	_, calm := w.In(armed)
	assert.False(t, calm)
	w = &Wiring{Parts: []Part{{Name: "b", Kind: Button, ClosedIn: pneumatics.SetOf(firing)}, {Name: "k", Kind: Relay, Through: ways(t, "b")},
		{Name: "vent", Kind: Load, Moves: []string{"vent"}, Through: ways(t, "not k.2")}}}
	assert.Equal(t, "vent ", on(w, w.Normal(armed)))
	assert.Empty(t, on(w, w.Normal(firing)))
	assert.Empty(t, on(w, w.WrongIn(armed, Failure{Mode: Welded, Part: "k"})), "pulled in, it opens")
	assert.Equal(t, "vent ", on(w, w.WrongIn(firing, Failure{Mode: Welded, Part: "k", No: 2, Not: true})))
}

// The rule of the fuses at its edge, and what is missing.
func TestFuses(t *testing.T) {
	w := twoRelays(t)
	assert.Empty(t, w.Fuses())
	f := &w.Parts[w.Index("f1")]
	f.Rating = 6
	assert.Empty(t, w.Fuses(), "as much as the wire bears")
	f.Rating = 6.01
	assert.Equal(t, []FuseFinding{{"f1", TooLarge, 6.01, 6}}, w.Fuses())
	f.Rating = 0
	assert.Equal(t, []FuseFinding{{"f1", RatingUnknown, 0, 6}}, w.Fuses())
	f.Wire = 0
	for rating, trouble := range map[float64]FuseTrouble{63: RatingUnknown, 63.01: AboveAny, 100: AboveAny} {
		wire := map[FuseTrouble]float64{AboveAny: 63}[trouble]
		f.Rating = rating
		assert.Equal(t, []FuseFinding{{"f1", trouble, rating, wire}}, w.Fuses(), "10 mm2 of copper bear 63 A (IEC 60364-5-52, from memory)")
	}
	f.Rating, f.Wire = 63, 63
	assert.Empty(t, w.Fuses())
	f.Rating, f.Wire = 2, 6
	pump := &w.Parts[w.Index("pump")]
	pump.Through = pump.Through[1:]
	assert.Equal(t, []FuseFinding{{Part: "pump", Trouble: NoFuse}}, w.Fuses())
	pump.Through = ways(t, "k1.2", "f1")
	assert.Equal(t, []FuseFinding{{Part: "pump", Trouble: NoFuse}}, w.Fuses(), "it comes first: the wire to it is protected by nothing")
	pump.Through = ways(t, "f1 or k1.2", "k2.2")
	assert.Equal(t, []FuseFinding{{Part: "pump", Trouble: NoFuse}}, w.Fuses(), "the current goes by it through the contact beside it")
}

// A step is read as it is written; what is none is refused with what would be one.
func TestStepsAreRead(t *testing.T) {
	for text, want := range map[string]Step{
		"key":             {{Part: "key", No: 1}},
		" k1.2 ":          {{Part: "k1", No: 2}},
		"not k1":          {{Part: "k1", No: 1, Not: true}},
		"start or  k1.12": {{Part: "start", No: 1}, {Part: "k1", No: 12}},
	} {
		got, err := ParseStep(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
	for text, says := range map[string]string{"": "a contact", "k1.0": "1 to 12", "k1.13": "1 to 12", "k1.x": "1 to 12", "k1 k2": "a contact",
		"start or": "a contact", "not": "a contact", "or k1": "a contact"} {
		_, err := ParseStep(text)
		assert.ErrorContains(t, err, says, text)
	}
}

// Relays that hold each other stay pulled in once they are, and drop together behind a stop.
func TestRelaysThatHoldEachOther(t *testing.T) {
	w := &Wiring{Parts: []Part{{Name: "stop", Kind: Stop}, {Name: "start", Kind: StartButton, ClosedIn: pneumatics.SetOf(armed)},
		{Name: "a", Kind: Relay, Through: ways(t, "stop", "start or b")}, {Name: "b", Kind: Relay, Through: ways(t, "a")},
		{Name: "load", Kind: Load, Through: ways(t, "b.2")}}}
	assert.Equal(t, "load ", on(w, w.Normal(armed)))
	assert.Empty(t, w.Stopped(armed))
	one := w.dropped()
	one[w.Index("a")] = true // the other has not moved yet
	settled, calm := w.settle(Case{State: off}, nil, one, false)
	assert.True(t, calm)
	assert.Equal(t, "load ", on(w, settled), "the worse of the two ends")
}

// Whatever the wiring: without contacts that close as a relay drops, a contact that welds or a wire at plus takes current from nothing,
// a coil without current has none, and a pressed stop gives current to nothing that had none.
func TestWeldsOnlyAdd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawn(t)
		more := append(w.Welds(), w.Shorts()...)
		for _, s := range pneumatics.States() {
			normal, calm := w.In(s)
			require.True(t, calm, "without such contacts nothing chatters")
			least := w.dropped()
			for i := range least { // whatever was before
				least[i] = true
				for _, o := range normal {
					least[i] = least[i] && o[i]
				}
			}
			for _, f := range more {
				outcomes, _ := w.In(s, f)
				for _, o := range outcomes {
					for _, i := range w.Loads() {
						require.True(t, !least[i] || o[i], "%v takes the current from %s while %s", f, w.Parts[i].Name, s)
					}
				}
			}
			for _, f := range w.Losses() {
				outcomes, _ := w.In(s, f)
				for _, o := range outcomes {
					require.False(t, o[w.Index(f.Part)], f.Part)
				}
			}
			for _, i := range w.Stopped(s) {
				has := false
				for _, o := range normal {
					has = has || o[i]
				}
				require.True(t, has, w.Parts[i].Name)
			}
		}
	})
}

// drawn is a wiring of up to four relays and three loads, their ways drawn.
func drawn(t *rapid.T) *Wiring {
	some := func() pneumatics.StateSet { return pneumatics.StateSet(rapid.IntRange(0, 31).Draw(t, "states")) }
	w := &Wiring{Parts: []Part{{Name: "key", Kind: KeySwitch, ClosedIn: some()}, {Name: "stop", Kind: Stop},
		{Name: "start", Kind: StartButton, ClosedIn: some()}, {Name: "button", Kind: Button, ClosedIn: some()}}}
	names := []string{"key", "stop", "start", "button"}
	relays := rapid.IntRange(0, 4).Draw(t, "relays")
	for i := range relays {
		names = append(names, string(rune('a'+i)))
	}
	for i := range relays + 3 {
		p := Part{Name: string(rune('a' + i)), Kind: Relay}
		if i >= relays {
			p.Kind, p.Moves = Load, []string{p.Name}
		}
		for range rapid.IntRange(1, 4).Draw(t, "steps") {
			var s Step
			for range rapid.IntRange(1, 2).Draw(t, "beside") {
				s = append(s, Contact{Part: rapid.SampledFrom(names).Draw(t, "part"), No: rapid.IntRange(1, 2).Draw(t, "no")})
			}
			p.Through = append(p.Through, s)
		}
		w.Parts = append(w.Parts, p)
	}
	return w
}
