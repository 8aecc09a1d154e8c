package control

import "puffproof/pneumatics"

// Alone is what one part that a person moves does by itself once every timer has closed its contacts: nobody moves a timer, so
// that it is no action of its own.
type Alone struct {
	Part    string
	Changed []int // the loads, by index, that have current in the state where they should not, or the other way round
}

// AloneIn tries each key, button, switch and remote in a state, with the timers closed; nil where there is no timer.
func (w *Wiring) AloneIn(s pneumatics.State) (out []Alone) {
	var timers []Failure
	for i := range w.Parts {
		if w.Parts[i].Kind == Timer {
			timers = append(timers, Failure{Mode: Welded, Part: w.Parts[i].Name})
		}
	}
	if len(timers) == 0 {
		return nil
	}
	meant := w.Normal(s)
	for i := range w.Parts {
		switch w.Parts[i].Kind {
		case KeySwitch, StartButton, Button, Switch, Remote:
		default:
			continue
		}
		one := Alone{Part: w.Parts[i].Name}
		now := w.WrongIn(s, append(timers[:len(timers):len(timers)], Failure{Mode: Welded, Part: one.Part})...)
		for _, k := range w.Loads() {
			if now[k] != meant[k] {
				one.Changed = append(one.Changed, k)
			}
		}
		if len(one.Changed) > 0 {
			out = append(out, one)
		}
	}
	return out
}
