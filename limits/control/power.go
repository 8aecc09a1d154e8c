package control

import (
	"slices"

	"puffproof/pneumatics"
)

// On tells of every part, by its index, whether it has current: relays and loads.
type On []bool

// Case is what people and pressures do to the wiring.
type Case struct {
	State   pneumatics.State
	Pressed bool   // the stop is
	Stop    string // the one that is pressed; "": all of them
	Filled  bool   // pressure switch and timer have opened
	Ends    Kind   // of the two the one that has; neither of them: both
	LetGo   bool   // buttons that were held are not
}

// settle is what has current once all relays have moved, from what had it before. pulse presses the start buttons of the state.
// The answer is false where it never comes to rest: a relay that opens its own way chatters.
//
// Where no contact closes as its relay drops, all that can pull in does so before anything drops: relays that hold each other may do
// either, and what stays on is the worse. Such a wiring always comes to rest.
func (w *Wiring) settle(c Case, wrong []Failure, before On, pulse bool) (On, bool) {
	on := slices.Clone(before)
	if !w.drops() {
		for _, pulls := range []bool{true, false} {
			for moved := true; moved; {
				moved = false
				next := w.step(c, wrong, on, pulse)
				for i := range next {
					if next[i] != on[i] && next[i] == pulls {
						on[i], moved = pulls, true
					}
				}
			}
		}
		return on, true
	}
	for range 2*len(w.Parts) + 2 {
		next := w.step(c, wrong, on, pulse)
		if slices.Equal(next, on) {
			return on, true
		}
		on = next
	}
	return on, false
}

// step is what gets current with the relays as they stand.
func (w *Wiring) step(c Case, wrong []Failure, on On, pulse bool) On {
	next := make(On, len(w.Parts))
	for i := range w.Parts {
		if w.Parts[i].Consumer() {
			next[i] = w.reaches(c, wrong, on, i, pulse)
		}
	}
	return next
}

// drops tells whether something has a contact in its way that closes as its relay drops.
func (w *Wiring) drops() bool {
	return slices.ContainsFunc(w.Parts, func(p Part) bool {
		return slices.ContainsFunc(p.Through, func(s Step) bool { return slices.ContainsFunc(s, func(c Contact) bool { return c.Not }) })
	})
}

// reaches tells whether current gets to a consumer.
func (w *Wiring) reaches(c Case, wrong []Failure, on On, i int, pulse bool) bool {
	p := &w.Parts[i]
	if has(wrong, Lost, p.Name) {
		return false
	}
	around := has(wrong, Around, p.Name)
	flows := true
	for _, step := range p.Through {
		closed := around && w.stopOpens(step, 0)
		behind := false
		for _, contact := range step {
			closed = closed || w.closed(c, wrong, on, contact, pulse)
			behind = behind || slices.Contains(wrong, Failure{Mode: Shorted, Part: contact.Part, No: contact.No, Not: contact.Not})
		}
		flows = flows && closed || behind
	}
	return flows
}

// closed tells whether a contact is.
func (w *Wiring) closed(c Case, wrong []Failure, on On, contact Contact, pulse bool) bool {
	i := w.Index(contact.Part)
	if i < 0 {
		return false
	}
	p := &w.Parts[i]
	if slices.ContainsFunc(wrong, func(f Failure) bool {
		return f.Mode == Broken && f.Part == p.Name && (f.No == 0 || f.No == contact.No && f.Not == contact.Not)
	}) {
		return false
	}
	welded := func(no int) bool {
		return slices.ContainsFunc(wrong, func(f Failure) bool {
			return f.Mode == Welded && f.Part == p.Name && f.No == no && f.Not == contact.Not
		})
	}
	if welded(contact.No) {
		return true
	}
	all := slices.ContainsFunc(wrong, func(f Failure) bool { return f.Mode == Welded && f.Part == p.Name && f.No == 0 })
	if all {
		return !contact.Not
	}
	closed := true
	switch in := p.ClosedIn.Has(c.State); p.Kind {
	case Stop:
		closed = !c.Pressed || c.Stop != "" && c.Stop != p.Name
	case Button:
		closed = in && !c.LetGo
	case KeySwitch, Remote, Switch:
		closed = in
	case StartButton:
		closed = in && pulse
	case Timer:
		closed = in && (!c.Filled || c.Ends == PressureSwitch)
	case PressureSwitch:
		closed = !c.Filled || c.Ends == Timer
	case Relay:
		closed = on[i]
	}
	return closed != contact.Not
}

// stopOpens tells whether nothing flows past a step once the stop has done what it can: each of its contacts is the stop's, or
// that of a relay whose own way the stop opens.
func (w *Wiring) stopOpens(step Step, depth int) bool {
	return !slices.ContainsFunc(step, func(c Contact) bool {
		i := w.Index(c.Part)
		switch {
		case i < 0 || c.Not || depth > len(w.Parts):
			return true
		case w.Parts[i].Kind == Stop:
			return false
		case w.Parts[i].Kind != Relay:
			return true
		}
		return !slices.ContainsFunc(w.Parts[i].Through, func(s Step) bool { return w.stopOpens(s, depth+1) })
	})
}

// dropped is what has current before anything was pressed.
func (w *Wiring) dropped() On { return make(On, len(w.Parts)) }

// enter is what has current in a state that begins with what had it before: the start buttons that belong to it are pressed and
// let go.
func (w *Wiring) enter(s pneumatics.State, wrong []Failure, before On) (On, bool) {
	pressed, calm := w.settle(Case{State: s}, wrong, before, true)
	out, rests := w.settle(Case{State: s}, wrong, pressed, false)
	for i := range w.Parts {
		if p := &w.Parts[i]; p.Kind == Load && slices.Contains(wrong, Failure{Mode: Flipped, Part: p.Name, State: s}) {
			out[i] = !out[i]
		}
	}
	return out, calm && rests
}

// In lists what may have current in a state, each outcome once: entered with all relays dropped, or from any other state. Where
// nothing is wrong there has to be one. The answer is false where a relay chatters.
func (w *Wiring) In(s pneumatics.State, wrong ...Failure) (out []On, calm bool) {
	calm = true
	before := []On{w.dropped()}
	for _, other := range pneumatics.States() {
		if on, rests := w.enter(other, wrong, w.dropped()); other != s && rests {
			before = append(before, on)
		}
	}
	for _, b := range before {
		on, rests := w.enter(s, wrong, b)
		calm = calm && rests
		if !slices.ContainsFunc(out, func(o On) bool { return slices.Equal(o, on) }) {
			out = append(out, on)
		}
	}
	return out, calm
}

// Normal is what has current in a state where nothing is wrong.
func (w *Wiring) Normal(s pneumatics.State) On {
	on, _ := w.enter(s, nil, w.dropped())
	return on
}

// WrongIn is what has current in a state with something wrong: of the outcomes the one that differs in most loads.
func (w *Wiring) WrongIn(s pneumatics.State, wrong ...Failure) On {
	normal, most := w.Normal(s), -1
	var out On
	outcomes, _ := w.In(s, wrong...)
	for _, on := range outcomes {
		n := 0
		for _, i := range w.Loads() {
			if on[i] != normal[i] {
				n++
			}
		}
		if n > most {
			out, most = on, n
		}
	}
	return out
}

// stops are the names of the stops; where there is none, a single "": nothing is pressed.
func (w *Wiring) stops() (out []string) {
	for i := range w.Parts {
		if w.Parts[i].Kind == Stop {
			out = append(out, w.Parts[i].Name)
		}
	}
	if out == nil {
		out = []string{""}
	}
	return out
}

// Stopped lists the loads that have current although a stop was pressed in a state, each stop by itself, by index, with something
// wrong or nothing.
func (w *Wiring) Stopped(s pneumatics.State, wrong ...Failure) (still []int) {
	outcomes, _ := w.In(s, wrong...)
	for _, on := range outcomes {
		for _, stop := range w.stops() {
			after, _ := w.settle(Case{State: s, Pressed: true, Stop: stop}, wrong, on, false)
			still = w.add(still, after)
		}
	}
	return still
}

// Overfills tells that the supply has current though pressure switch or timer has opened. It is asked only where one of them is
// in its way, and charging.
func (w *Wiring) Overfills(wrong ...Failure) bool { return w.overfills(Fuse, wrong) }

// EndedBy tells that the pressure switch, or the timer, takes the current from the supply as it opens, the other one closed.
func (w *Wiring) EndedBy(kind Kind) bool { return !w.overfills(kind, nil) }

func (w *Wiring) overfills(ends Kind, wrong []Failure) bool {
	outcomes, _ := w.In(pneumatics.Charging, wrong...)
	for _, on := range outcomes {
		after, _ := w.settle(Case{State: pneumatics.Charging, Filled: true, Ends: ends}, wrong, on, false)
		for _, i := range w.Loads() {
			if after[i] && slices.Contains(w.Parts[i].Moves, Supply) {
				return true
			}
		}
	}
	return false
}

// Restarts lists the loads that get current again by themselves in a state, nobody pressing anything: when a stop that was
// pressed is released, and when the power that was lost returns. Buttons that are held are let go by then.
func (w *Wiring) Restarts(s pneumatics.State, wrong ...Failure) (released, returned []int) {
	outcomes, _ := w.In(s, wrong...)
	for _, on := range outcomes {
		for _, stop := range w.stops() {
			after, _ := w.settle(Case{State: s, Pressed: true, Stop: stop, LetGo: true}, wrong, on, false)
			again, _ := w.settle(Case{State: s, LetGo: true}, wrong, after, false)
			for _, i := range w.add(nil, again) {
				if !after[i] && !slices.Contains(released, i) {
					released = append(released, i)
				}
			}
		}
		again, _ := w.settle(Case{State: s, LetGo: true}, wrong, w.dropped(), false)
		returned = w.add(returned, again)
	}
	return released, returned
}

// StartsAgain lists what Restarts does, in whatever state it may be in use.
func (w *Wiring) StartsAgain(wrong ...Failure) (released, returned []int) {
	for _, s := range []pneumatics.State{pneumatics.Charging, pneumatics.Armed, pneumatics.Loading, pneumatics.Firing} {
		again, back := w.Restarts(s, wrong...)
		released, returned = append(released, again...), append(returned, back...)
	}
	slices.Sort(released)
	slices.Sort(returned)
	return slices.Compact(released), slices.Compact(returned)
}

// add takes up the loads that have current, each once, without those that have it when all is switched off: they are meant to.
func (w *Wiring) add(to []int, on On) []int {
	off := w.Normal(pneumatics.Off)
	for _, i := range w.Loads() {
		if on[i] && !off[i] && !slices.Contains(to, i) {
			to = append(to, i)
		}
	}
	return to
}
