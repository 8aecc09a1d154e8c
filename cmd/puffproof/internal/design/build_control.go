package design

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/toml"
	"puffproof/limits/control"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// control reads [control.NAME]; nil where there is none.
func (r *reader) control(root *toml.Table) *control.Wiring {
	var w control.Wiring
	for _, s := range r.named(root, "control", mostControl) {
		p := control.Part{Name: s.path[len("control."):], Kind: control.Kind(slices.Index(keys.ControlKinds(), s.selected)),
			ClosedIn: s.states["closed_in"], Moves: s.lists["moves"], Rating: s.band("rating").High, Least: s.band("rating").Low,
			Wire: s.wire()}
		for _, text := range s.lists["through"] {
			step, err := control.ParseStep(text)
			if err != nil {
				s.fault("through", Problem{Message: "is no contact", Found: text, Want: err.Error(), Hint: control.Hint(text)})
			}
			p.Through = append(p.Through, step)
		}
		for _, k := range r.keys.Of("control.*") {
			_, list := s.lists[k.Name]
			_, states := s.states[k.Name]
			if (k.Kind == keys.Names || k.Kind == keys.States) && k.Belongs(s.selected) && !list && !states {
				p.Missing = append(p.Missing, k.Name)
			}
		}
		w.Parts = append(w.Parts, p)
	}
	if w.Parts == nil {
		return nil
	}
	slices.SortStableFunc(w.Parts, func(a, b control.Part) int { return strings.Compare(a.Name, b.Name) })
	return &w
}

// checkControl holds the wiring to its own names and to the positions that the paths state.
func (r *reader) checkControl(l *launcher.Launcher) {
	w := l.Control
	if w == nil {
		return
	}
	sound := len(w.Unknown()) == 0
	for i := range w.Parts {
		p := &w.Parts[i]
		if p.Kind == control.PressureSwitch && l.Switch == nil {
			r.at("control."+p.Name+".kind", "there is no [pressure_switch]", "pressure switch", `a [pressure_switch], or kind = "switch"`)
		}
		through, moves := r.checkThrough(w, p), r.checkMoves(l, p)
		sound = sound && through && moves
	}
	for _, c := range w.Crossed() {
		sound = false
		r.at("control."+c.Part, "its contact "+c.String()+" has two different things before it in two ways", "",
			"a contact of its own for each way, or the same before it in both",
			"one contact joins what stands before it: write "+c.Part+".2 in the other way")
	}
	if sound && r.Sound() {
		r.checkPositions(l)
	}
}

// checkThrough reports contacts of parts that there are not, or that have none.
func (r *reader) checkThrough(w *control.Wiring, p *control.Part) (sound bool) {
	key, names := "control."+p.Name+".through", []string{}
	for i := range w.Parts {
		if w.Parts[i].Kind != control.Load {
			names = append(names, w.Parts[i].Name)
		}
	}
	sound = true
	for _, step := range p.Through {
		for _, c := range step {
			i := w.Index(c.Part)
			switch {
			case !slices.Contains(names, c.Part):
				r.at(key, "names an unknown part", c.Part, keys.Quoted(names), cmp.Or(w.HintOf(c), keys.MeantWord(c.Part, names, nil)))
			case c.Not && w.Parts[i].Kind != control.Relay:
				r.at(key, "only a relay has contacts that close when it drops", c.String(), c.Part)
			default:
				continue
			}
			sound = false
		}
	}
	return sound
}

// checkMoves reports loads that move what has no coil, and what two of them move.
func (r *reader) checkMoves(l *launcher.Launcher, p *control.Part) (sound bool) {
	key, names := "control."+p.Name+".moves", []string{}
	for i := range l.Paths {
		if q := &l.Paths[i]; q.Kind == pneumatics.Valve && !q.Way.Exhausts() {
			names = append(names, q.Name)
		}
	}
	if s := l.Supply; s != nil && s.Kind != launcher.HandPump {
		names = append(names, control.Supply)
	}
	sound = true
	for i, name := range p.Moves {
		twice := slices.Contains(p.Moves[:i], name)
		for k := range l.Control.Parts {
			other := &l.Control.Parts[k]
			twice = twice || other.Name < p.Name && slices.Contains(other.Moves, name)
		}
		switch {
		case name == control.Supply && slices.ContainsFunc(l.Paths, func(q launcher.PathSpec) bool { return q.Name == name }):
			r.at(key, "a path has the name that means the supply", name, "another name for that path")
		case twice:
			r.at(key, "is moved twice", name, "each valve by one load")
		case !slices.Contains(names, name):
			r.at(key, "has no coil here", name, keys.Quoted(names), keys.MeantWord(name, names, map[string]string{"pump": control.Supply,
				"compressor": control.Supply, "motor": control.Supply, "inflator": control.Supply}))
		default:
			continue
		}
		sound = false
	}
	return sound
}

// checkPositions refuses a wiring that in some state gives a valve current where its path says that it has none, or none where it
// has: one of the two is a slip.
func (r *reader) checkPositions(l *launcher.Launcher) {
	w := l.Control
	for _, s := range pneumatics.States() {
		outcomes, calm := w.In(s)
		if !calm {
			loop := w.Restless(s)
			r.at(r.firstOf(w, func(p *control.Part) bool { return slices.Contains(loop, p.Name) }), "chatters in state "+s.String(),
				strings.Join(loop, ", "), "a wiring that comes to rest: relays that open their own way, or each other's in turn, never do")
			return
		}
		for i := range w.Parts {
			p := &w.Parts[i]
			if p.Consumer() && slices.ContainsFunc(outcomes, func(on control.On) bool { return on[i] != outcomes[0][i] }) {
				r.at("control."+p.Name+".through", "whether it has current in state "+s.String()+" depends on what was before", "",
					"the same whatever was before", "name the state in the closed_in of its start button, or open its way in that state")
				return
			}
		}
		r.positionsIn(l, s, outcomes[0])
	}
	timed := l.Switch == nil && l.Supply != nil && l.Supply.RunTime.Set
	if goesOn := l.Switch != nil && !w.EndedBy(control.PressureSwitch) || timed && w.Overfills(); goesOn && w.Moves(control.Supply) {
		r.at(r.firstOf(w, func(p *control.Part) bool { return slices.Contains(p.Moves, control.Supply) }),
			"nothing in the way of the supply ends the filling", "", `the part of kind "pressure switch" or "timer" in its through`,
			"a switch that sits in the pump is in its way too")
	}
}

// firstOf is the key of the way of the first part of a kind.
func (r *reader) firstOf(w *control.Wiring, of func(p *control.Part) bool) string {
	for i := range w.Parts {
		if of(&w.Parts[i]) {
			return "control." + w.Parts[i].Name + ".through"
		}
	}
	return "control"
}

// positionsIn holds what has current in a state to the paths and the supply.
func (r *reader) positionsIn(l *launcher.Launcher, s pneumatics.State, on control.On) {
	for i := range l.Control.Parts {
		for _, name := range l.Control.Parts[i].Moves {
			key := "control." + l.Control.Parts[i].Name
			k := slices.IndexFunc(l.Paths, func(p launcher.PathSpec) bool { return p.Name == name })
			says := "has none then"
			switch {
			case name == control.Supply && l.Supply != nil && on[i] && !l.Supply.RunsIn.Has(s):
				says = "does not run then (runs_in)"
			case k < 0 || l.Paths[k].Unpowered == pneumatics.Stays || on[i] == l.Paths[k].PoweredIn().Has(s):
				continue
			case !on[i]:
				says = "has it then"
			}
			with := map[bool]string{true: "has current", false: "has no current"}[on[i]]
			what := "paths." + name
			if name == control.Supply {
				what = name
			}
			r.at(key, fmt.Sprintf("%s in state %s by its wiring, but %s %s", with, s, what, says), "",
				"a wiring and positions that agree", "a path has current in the states in which it stands otherwise than unpowered says")
		}
	}
}
