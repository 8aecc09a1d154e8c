package worst

import (
	"context"
	"math"
	"strings"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/progress"
	"puffproof/limits/search"
	"puffproof/pneumatics"
	"puffproof/pneumatics/graph"
)

// Entered is the worst shot that a change of state lets off by itself, with every part as it should be: the state that is
// entered opens, or leaves open, a way from air into the barrel. It needs no fault, and no action but the one that changes the
// state: it is switched off, armed, charged, put into state loading.
type Entered struct {
	State          pneumatics.State
	Valves         []string     // that are open in it on the way into the barrel; nil: the way is always open
	Energy, Judged float64      // of the worst shot, the second with the model factor [J]; 0: the air that gets in does not move it out
	Unknown        finding.Text // why more is not known; nil: it is
	found          *Case        // the search for it; nil: none was made
}

// Found is the search for the worst shot, of the launcher as it stands in that state; nil where it was not made here.
func (e *Entered) Found() *Case { return e.found }

// Shoots tells that a projectile is known to be moved out.
func (e *Entered) Shoots() bool { return e.Energy > leastEntered }

// leastEntered is an energy that is rounding of a computation that has come to rest [J].
const leastEntered = 1e-6

// Does says what changes the state: "switching it off".
func (e *Entered) Does() string {
	switch e.State {
	case pneumatics.Off:
		return "switching it off"
	case pneumatics.Charging:
		return "charging it"
	case pneumatics.Armed:
		return "arming it"
	}
	return "loading it"
}

// Opens says by what: "paths.fire is open into the barrel then".
func (e *Entered) Opens() string {
	switch len(e.Valves) {
	case 0:
		return "air has an open way into the barrel then"
	case 1:
		return "paths." + e.Valves[0] + " is open on the way into the barrel then"
	}
	return "paths." + strings.Join(e.Valves, ", paths.") + " are open on the way into the barrel then"
}

// HardestEntered is the hardest shot that a change of state lets off by itself; nil: none does.
func (e *EnergyReport) HardestEntered() (hardest *Entered) {
	for i := range e.Entered {
		if one := &e.Entered[i]; one.Shoots() && (hardest == nil || one.Judged > hardest.Judged) {
			hardest = one
		}
	}
	return hardest
}

// ShotsEntered are the changes of state that let a projectile out, as they were searched.
func (e *EnergyReport) ShotsEntered() (out []*Entered) {
	for i := range e.Entered {
		if one := &e.Entered[i]; one.Shoots() && one.found != nil {
			out = append(out, one)
		}
	}
	return out
}

// CountEntered raises the judged energy to that of a harder shot that a change of state lets off by itself: it is one of
// normal operation too. No measured shot tells of it.
func (e *EnergyReport) CountEntered(p *launcher.ProjectileSpec) {
	if one := e.HardestEntered(); one != nil && one.Judged > e.Judged {
		e.Judged, e.Basis = one.Judged, finding.OnModel
		e.UseAreas(p)
	}
}

// DecidingEntered is HardestEntered where its energy is the one that is judged; nil: it is that of firing.
func (e *EnergyReport) DecidingEntered() *Entered {
	if one := e.HardestEntered(); one != nil && one.Judged == e.Judged && one.Judged > e.Model {
		return one
	}
	return nil
}

// computeEntered asks every state but firing what entering it shoots, from up to high [Pa gauge]. States in which nothing that
// holds air has an open way into the barrel are left out. The error is the context's.
func computeEntered(ctx context.Context, l *launcher.Launcher, high float64, normal *Case) ([]Entered, error) {
	var out []Entered
	for _, s := range []pneumatics.State{pneumatics.Off, pneumatics.Charging, pneumatics.Armed, pneumatics.Loading} {
		w := l.Clone()
		Stays(w, s)
		flows := FlowsToBarrel(shutBefore(w))
		if !holdsAir(l, w, flows, high) {
			continue
		}
		one := Entered{State: s, Valves: valvesInto(w, flows)}
		if err := one.compute(ctx, l, w, high, normal); err != nil {
			return nil, err
		}
		out = append(out, one)
	}
	return out, nil
}

// compute searches the worst shot; w is the launcher l whose valves stay in a shot as they are in the state.
func (e *Entered) compute(ctx context.Context, l, w *launcher.Launcher, high float64, normal *Case) error {
	if w.SupplyFires() && w.Supply.MostFreeAir() <= 0 && launcher.ReachOf(w).Supply {
		e.Unknown = finding.Key("supply.free_air").Say(" is not stated, and %s lets what it delivers into the barrel", e.Does())
		w.Supply.RunsIn, w.Supply.RunsInStated = 0, true
	}
	q := EnergyQuestion(w, high)
	q.FromAll = nil
	for _, s := range []pneumatics.State{pneumatics.Armed, pneumatics.Charging} {
		if s != e.State {
			q.FromAll = append(q.FromAll, s)
		}
	}
	q.Name = e.Does()
	fills := fillsFiring(l)
	q.Adjust = func(_ *pneumatics.Circuit, sc *pneumatics.Scenario, _ []float64) {
		for range fills {
			for _, f := range fills {
				sc.Volumes[f.to].Pressure = max(sc.Volumes[f.to].Pressure, sc.Volumes[f.from].Pressure)
			}
		}
	}
	b := NewBox(w, q)
	found, err := Maximise(progress.Looking(ctx, finding.Words("what a change of state shoots")), w, q,
		search.Quick(append(SeedsFor(w, normal, q), b.Hills()...)...))
	if err != nil {
		return err
	}
	if found.Undetermined() && len(e.Unknown) == 0 {
		e.Unknown = finding.Notes(finding.Say("what %s shoots could not be computed over the whole tolerance box", e.Does()), found.Narrow)
	}
	e.found = found
	if found.Result.Found && !math.IsNaN(found.Value) {
		e.Energy, e.Judged = found.Energies()
	}
	return nil
}

// Stays makes the design's shot one in which valves and supply stay as they are in a state.
func Stays(w *launcher.Launcher, s pneumatics.State) {
	firing := pneumatics.SetOf(pneumatics.Firing)
	in := func(set pneumatics.StateSet) pneumatics.StateSet {
		if set.Has(s) {
			return set | firing
		}
		return set &^ firing
	}
	for k := range w.Paths {
		if p := &w.Paths[k]; movable(p) {
			p.OpenIn, p.Pulse = in(p.OpenIn), launcher.Band{}
		}
	}
	if sp := w.Supply; sp != nil {
		sp.RunsIn, sp.RunsInStated = in(sp.RunsIn), true
	}
}

// shutBefore is the launcher with what was open before a shot shut: it does not count.
func shutBefore(l *launcher.Launcher) *launcher.Launcher {
	w := l.Clone()
	for k := range w.Paths {
		w.Paths[k].OpenIn &= pneumatics.SetOf(pneumatics.Firing)
	}
	return w
}

func movable(p *launcher.PathSpec) bool {
	return p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve
}

// FlowsToBarrel tells of every volume whether its air can flow to the barrel in a shot, in the direction that check valves and
// regulators let it.
func FlowsToBarrel(l *launcher.Launcher) []bool {
	reach := launcher.ReachOf(l)
	// From the barrel backwards: against the way the air flows.
	return graph.Reached(l.Links(), len(l.Volumes), pneumatics.BarrelNode, func(i int, way graph.Way) bool {
		return reach.Paths[i] && (way == graph.Against || !l.Paths[i].Kind.OneWay())
	}).Volumes()
}

// holdsAir tells that something that holds air, or a supply that runs, flows into the barrel. w is the launcher l with its valves
// as they are in the state.
func holdsAir(l, w *launcher.Launcher, flows []bool, high float64) bool {
	gauge := l.HighStart(high)
	for range gauge {
		for _, f := range fillsFiring(l) {
			gauge[f.to] = max(gauge[f.to], gauge[f.from])
		}
	}
	for i, flow := range flows {
		if flow && gauge[i] > 0 {
			return true
		}
	}
	return w.SupplyFires() && flows[w.Node(w.Supply.Feeds)]
}

// fill is a way by which one volume fills another.
type fill struct{ from, to pneumatics.Node }

// fillsFiring are the ways by which a volume that is shut off from the barrel in a shot fills in it: what it holds stays for later.
func fillsFiring(l *launcher.Launcher) (out []fill) {
	empties := FlowsToBarrel(l)
	for i, k := range l.Links() {
		p := &l.Paths[i]
		if !k.BetweenVolumes() || !movable(p) || !p.OpenIn.Has(pneumatics.Firing) {
			continue
		}
		for _, f := range []fill{{k.From, k.To}, {k.To, k.From}} {
			if !empties[f.to] {
				out = append(out, f)
			}
		}
	}
	return out
}

// valvesInto are the valves that are open on a way by which a volume flows into the barrel.
func valvesInto(w *launcher.Launcher, flows []bool) (names []string) {
	for i, k := range w.Links() {
		p := &w.Paths[i]
		into := func(n pneumatics.Node) bool { return n == pneumatics.BarrelNode || n >= 0 && flows[n] }
		if movable(p) && p.OpenIn.Has(pneumatics.Firing) && into(k.From) && into(k.To) {
			names = append(names, p.Name)
		}
	}
	return names
}
