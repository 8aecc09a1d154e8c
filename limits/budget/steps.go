package budget

import (
	"slices"
	"strings"

	"puffproof/limits/catalogue"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// taking is the taking apart of one worst case.
type taking struct {
	in      Input
	box     *worst.Box
	worst   []float64 // where in the box the worst case lies
	nominal []float64
	at      *worst.Evaluator
}

func newTaking(in Input) *taking {
	b := in.Normal.Box
	return &taking{in: in, box: b, worst: in.Normal.Result.Best.Point, nominal: nominals(b, worst.NominalStart(in.Launcher)),
		at: b.Evaluator()}
}

// group is a set of quantities that a builder thinks of as one.
type group struct {
	what string
	of   func(label string) bool
}

// groups, with a name for the start pressure, are in the order in which the steps are told:
// what pushes, what lets it through, what holds back, what flies.
func groups(start string) []group {
	starts := func(prefixes ...string) func(string) bool {
		return func(label string) bool {
			for _, p := range prefixes {
				if strings.HasPrefix(label, p) {
					return true
				}
			}
			return false
		}
	}
	return []group{
		{start, starts("start pressure")},
		{"flow and opening of valves, hoses and holes", starts("paths.")},
		{"friction, and leakage past the projectile", starts("projectile.breakaway_force", "projectile.restart_force", "projectile.sliding_force",
			"projectile.clearance", "projectile.inside_diameter")},
		{"seat and barrel", starts("seating", "barrel.")},
		{"the rest: volumes, projectile, air, attitude", func(string) bool { return true }},
	}
}

// steps goes from the nominal shot to the energy of the model. A step that changes nothing is left out.
func (t *taking) steps() []Step {
	e := t.in.Energy
	out := []Step{{What: finding.Words("nominal shot"), Energy: known(e.NominalShot.FinalEnergy),
		Leaves: e.NominalShot.Outcome == pneumatics.Left.String()}}
	add := func(what string, energy float64, leaves bool) {
		last := &out[len(out)-1]
		if leaves == last.Leaves && alike(energy, last.Energy) {
			last.Energy = energy
			return
		}
		out = append(out, Step{What: finding.Words(what), Energy: energy, Leaves: leaves})
	}
	u := append([]float64(nil), t.nominal...)
	energy, leaves := t.bare(u)
	add("supply and valves as they may be before firing", energy, leaves)
	done := make([]bool, t.box.Dim)
	start := "start pressure: switch, gauge, heat, at their highest"
	if e.Rest.Set {
		start = "start pressure: bleeds blocked, heat, at their highest"
	}
	for _, g := range groups(start) {
		for k, label := range t.box.Labels {
			if !done[k] && g.of(label) {
				done[k], u[k] = true, t.worst[k]
			}
		}
		energy, leaves := t.bare(u)
		add(g.what, energy, leaves)
	}
	if e.MovingAt > 0 {
		out = append(out, Step{What: finding.Say("the vehicle's speed, %s", finding.Speed(e.MovingAt)), Energy: e.WorstEnergy, Leaves: true})
	} else if last := &out[len(out)-1]; alike(last.Energy, e.WorstEnergy) {
		last.Energy = e.WorstEnergy
	} else {
		out = append(out, Step{What: finding.Words("with all that its air can still give"), Energy: e.WorstEnergy, Leaves: true})
	}
	return append(out, Step{What: finding.Say("the model factor, %.3g", e.Factor), Energy: e.Model, Leaves: true})
}

// alike tells that two energies [J] are alike to what a step is worth telling for.
func alike(a, b float64) bool {
	d := a - b
	return d <= 0.005*b && -d <= 0.005*b
}

// bare is the final energy [J] of the shot at u, the vehicle standing still, without any factor; 0 where it does not leave.
func (t *taking) bare(u []float64) (energy float64, leaves bool) {
	r := t.at.Run(u)
	if r.Outcome != pneumatics.Left {
		return 0, false
	}
	return r.FinalEnergy, true
}

// energy is the energy at u as it is judged, without the model factor [J]; 0 where it is not known.
func (t *taking) energy(u []float64) float64 { return known(t.at.Value(u)) }

// shares moves each quantity alone back to its nominal value.
func (t *taking) shares() (kept []Share, small int) {
	whole := t.energy(t.worst)
	assumed := assumedKeys(t.in.Launcher)
	var all []Share
	for k := range t.box.Quantities {
		q := &t.box.Quantities[k]
		s := Share{Key: q.Key, Nominal: q.Nominal, At: q.Value(t.worst[k]), Assumed: assumed[q.Key]}
		u := append([]float64(nil), t.worst...)
		u[k] = t.nominal[k]
		s.Energy = whole - t.energy(u)
		all = append(all, s)
	}
	if k := t.box.Seat; k >= 0 {
		u := append([]float64(nil), t.worst...)
		u[k] = 0
		all = append(all, Share{Key: "seating", At: t.worst[k] * t.in.Launcher.Barrel.Travel.Nominal, Energy: whole - t.energy(u)})
	}
	all = t.starting(all, whole, assumed)
	return dearest(all, func(s Share) float64 { return s.Energy }, whole)
}

// starting adds what is gained where a band that the highest start pressure follows from is known: shots then start from less.
func (t *taking) starting(all []Share, whole float64, assumed map[string]bool) []Share {
	if t.box.Start < 0 {
		return all
	}
	l, high := t.in.Launcher, t.in.Energy.StartHigh
	for i, q := range catalogue.Of(l, high) {
		if q.AtEnd == "" || !(q.High > q.Low) {
			continue
		}
		w := l.Clone()
		hold(catalogue.Of(w, high)[i].Band)
		lower, ok := w.SoakedHigh()
		if !ok || lower >= high*(1-1e-6) {
			continue
		}
		u := append([]float64(nil), t.worst...)
		u[t.box.Start] *= lower / high
		if k := t.coordinate(q.Key); k >= 0 {
			u[k] = t.nominal[k]
		}
		s := Share{Key: q.Key, Nominal: q.Nominal, At: q.High, Assumed: assumed[q.Key], Energy: whole - t.energy(u)}
		if j := slices.IndexFunc(all, func(have Share) bool { return have.Key == q.Key }); j >= 0 {
			all[j].Energy = max(all[j].Energy, s.Energy)
			continue
		}
		all = append(all, s)
	}
	return all
}

// coordinate is the index of a quantity of the box; -1: it is none.
func (t *taking) coordinate(key string) int {
	for k := range t.box.Quantities {
		if t.box.Quantities[k].Key == key {
			return k
		}
	}
	return -1
}

// hold takes the tolerance off a band.
func hold(b *launcher.Band) { b.Low, b.High = b.Nominal, b.Nominal }
