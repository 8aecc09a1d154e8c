package control

import (
	"cmp"
	"math"
	"slices"

	"puffproof/pneumatics"
)

// Mode is what is wrong.
type Mode uint8

// The modes.
const (
	Welded  Mode = iota // a contact stays closed; of a relay, a remote, a timer, or what a hand moves that sticks, all that close (No 0)
	Shorted             // the wire behind a contact stands at plus
	Lost                // a consumer gets no current
	Broken              // a contact does not close; of a fuse: it has blown, all its contacts (No 0)
	Around              // a load was wired around the stop
	Flipped             // a load has current in a state where it should not, or none where it should
)

// Failure is one thing that is wrong.
type Failure struct {
	Mode  Mode
	Part  string
	No    int              // of the contact, 0: all of the part
	Not   bool             // the contact that is closed while its relay has dropped
	State pneumatics.State // of Flipped
}

// has tells whether a failure of a mode is of a part.
func has(all []Failure, m Mode, part string) bool {
	return slices.ContainsFunc(all, func(f Failure) bool { return f.Mode == m && f.Part == part })
}

// Welds are the failures of contacts that do not open: of hand-moved parts each contact by itself, of relays, remotes and timers
// all at once, as one welded contact holds the armature and one fault of a receiver its outputs. What [pressure_switch] and the
// supply's timer do then is told of them anyway.
func (w *Wiring) Welds() (out []Failure) {
	for _, c := range w.contacts() {
		i := w.Index(c.Part)
		if i < 0 {
			continue
		}
		f := Failure{Mode: Welded, Part: c.Part, No: c.No, Not: c.Not}
		switch w.Parts[i].Kind {
		case Fuse, PressureSwitch:
			continue
		case Relay, Remote, Timer:
			if !c.Not {
				f.No = 0
			}
		}
		if !slices.Contains(out, f) {
			out = append(out, f)
		}
	}
	return out
}

// Stuck are parts moved by hand that stay as they were moved, with all their contacts: a key that does not turn back, a button that
// jams in. One that has a single contact in use is among Welds. The stop is left out: one that latches opens its contacts by the
// force of the hand (direct opening action, IEC 60947-5-1 annex K), and that it then does not is excluded (ISO 13849-2 table D.8;
// both from memory).
func (w *Wiring) Stuck() (out []Failure) {
	for i := range w.Parts {
		switch p := &w.Parts[i]; p.Kind {
		case KeySwitch, StartButton, Button, Switch:
			if w.Contacts(p.Name) > 1 {
				out = append(out, Failure{Mode: Welded, Part: p.Name})
			}
		}
	}
	return out
}

// Tried names each contact that can stay closed unnoticed, one by one, as a meter is laid across them.
func (w *Wiring) Tried() (out []string) {
	for _, c := range w.contacts() {
		i := w.Index(c.Part)
		if i < 0 || w.Parts[i].Kind == Fuse || w.Parts[i].Kind == PressureSwitch {
			continue
		}
		if name := w.Named(Failure{Part: c.Part, No: c.No}); !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}

// Shorts are wires at plus that several consumers hang on: behind each contact that more than one has in its way. What one alone
// does at plus is a fault of its own.
func (w *Wiring) Shorts() (out []Failure) {
	for _, c := range w.contacts() {
		if i := w.Index(c.Part); i >= 0 && w.Parts[i].Kind != Fuse && w.passes(c) > 1 {
			out = append(out, Failure{Mode: Shorted, Part: c.Part, No: c.No, Not: c.Not})
		}
	}
	for _, i := range w.Loads() { // all that one load moves hangs on its last wire
		p := &w.Parts[i]
		if len(p.Moves) < 2 || len(p.Through) == 0 {
			continue
		}
		c := p.Through[len(p.Through)-1][0]
		f := Failure{Mode: Shorted, Part: c.Part, No: c.No, Not: c.Not}
		if !slices.Contains(out, f) {
			out = append(out, f)
		}
	}
	return out
}

// Losses are coils and motors that get no current each: what drops first when the voltage sinks nobody knows.
func (w *Wiring) Losses() (out []Failure) {
	for _, i := range w.Consumers() {
		out = append(out, Failure{Mode: Lost, Part: w.Parts[i].Name})
	}
	return out
}

// Opens are the failures of contacts that do not close, and of fuses that have blown, each by itself.
func (w *Wiring) Opens() (out []Failure) {
	for _, c := range w.contacts() {
		f := Failure{Mode: Broken, Part: c.Part, No: c.No, Not: c.Not}
		if i := w.Index(c.Part); i >= 0 && w.Parts[i].Kind == Fuse {
			f.No = 0
		}
		if !slices.Contains(out, f) {
			out = append(out, f)
		}
	}
	return out
}

// SharedWires are the Shorts of wires that several consumers hang on; those of a single load that moves several things are not among
// them.
func (w *Wiring) SharedWires() (out []Failure) {
	for _, f := range w.Shorts() {
		if w.passes(Contact{Part: f.Part, No: f.No, Not: f.Not}) > 1 {
			out = append(out, f)
		}
	}
	return out
}

// Bypasses are loads that somebody wired around the stop, each by itself; none where the stop opens nothing in its way anyway.
func (w *Wiring) Bypasses() (out []Failure) {
	for _, i := range w.Loads() {
		p := &w.Parts[i]
		if slices.ContainsFunc(p.Through, func(s Step) bool { return w.stopOpens(s, 0) }) {
			out = append(out, Failure{Mode: Around, Part: p.Name})
		}
	}
	return out
}

// Flips are outputs that are wrong in one state each.
func (w *Wiring) Flips(states ...pneumatics.State) (out []Failure) {
	for _, i := range w.Loads() {
		for _, s := range states {
			out = append(out, Failure{Mode: Flipped, Part: w.Parts[i].Name, State: s})
		}
	}
	return out
}

// FuseTrouble is what is wrong with the protection of a part of the wiring.
type FuseTrouble uint8

// The troubles.
const (
	NoFuse        FuseTrouble = iota // nothing in its way is a fuse
	TooLarge                         // it is above what the thinnest wire behind it bears
	RatingUnknown                    // one of the two is not known
	AboveAny                         // what the wire bears is not known, and none bears so much
)

// MostWire is the most that a wire behind a fuse bears [A]: 10 mm2 of copper (IEC 60364-5-52, from memory); what a toy has is far thinner.
const MostWire = 63

// FuseFinding is one trouble.
type FuseFinding struct {
	Part    string // the consumer without a fuse, or the fuse
	Trouble FuseTrouble
	Rating  float64 // of the fuse, at its upper end [A]
	Wire    float64 // of the thinnest wire behind it, at its lower end [A]; MostWire of AboveAny
}

// sideBySide is what is wrong with fuses of which one is enough: the wire behind them bears the sum. A wire of which nobody knows what it
// bears is told of its own fuse.
func (w *Wiring) sideBySide(p *Part, fuse func(Contact) bool) (out []FuseFinding) {
	sum, wire, n := 0.0, math.Inf(1), 0
	for _, c := range p.Through[0] {
		if fuse(c) {
			f := &w.Parts[w.Index(c.Part)]
			sum, wire, n = sum+f.Rating, min(wire, cmp.Or(f.Wire, MostWire)), n+1
		}
	}
	if n > 1 && sum > wire {
		out = append(out, FuseFinding{p.Name + " by fuses side by side", TooLarge, sum, wire})
	}
	return out
}

// Fuses lists what is wrong with the fuses. The rule, common practice: each consumer has one in its way, first of all, and none is
// above what the thinnest wire behind it bears for good. The order of IEC 60364-4-43, 433.1 (from memory): the device's rating
// not above the continuous current of the conductor.
func (w *Wiring) Fuses() (out []FuseFinding) {
	for i := range w.Parts {
		p := &w.Parts[i]
		first := func(c Contact) bool {
			k := w.Index(c.Part)
			return k >= 0 && w.Parts[k].Kind == Fuse
		}
		around := func(c Contact) bool { return !first(c) } // beside a fuse, the current goes by it
		switch {
		case p.Consumer() && (len(p.Through) == 0 || len(p.Through[0]) == 0 || slices.ContainsFunc(p.Through[0], around)):
			out = append(out, FuseFinding{Part: p.Name, Trouble: NoFuse})
		case p.Consumer():
			out = append(out, w.sideBySide(p, first)...)
		case p.Kind != Fuse:
		case p.Wire == 0 && p.Rating > MostWire:
			out = append(out, FuseFinding{p.Name, AboveAny, p.Rating, MostWire})
		case p.Rating == 0 || p.Wire == 0:
			out = append(out, FuseFinding{p.Name, RatingUnknown, p.Rating, p.Wire})
		case p.Rating > p.Wire:
			out = append(out, FuseFinding{p.Name, TooLarge, p.Rating, p.Wire})
		}
	}
	return out
}
