package vent

import (
	"math"

	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"puffproof/pneumatics/graph"
)

// Jam is what is behind a projectile that never moved once the launcher was off, or without power, for the time that
// the design asks for: the worse of the two.
type Jam struct {
	Wait   float64 // the time [s]; NaN: the design asks for none
	Stays  float64 // highest pressure that stays behind it for good, by the graph [Pa gauge]; +Inf: all of it
	Behind float64 // highest pressure behind it after the wait [Pa gauge]; NaN where no time is asked and not all stays
	Energy float64 // the most that this air, with that of all volumes then joined to it, could give [J]; likewise
}

// AfterJam waits with a projectile held in the barrel. behind is the pressure behind it at first, as the volumes are at
// their highest [Pa gauge]. The error is a WithheldError.
func AfterJam(in Input, behind float64) (Jam, error) {
	target, _ := Target(in.Launcher, in.Limits.Total.Value)
	start, _, ok := HighestStart(in.Launcher)
	out := Jam{Wait: TimeAllowed(in.Launcher), Behind: math.NaN(), Energy: math.NaN()}
	if !ok {
		return out, nil
	}
	err := newVenter(in, start, target).waits(&out, behind)
	return out, err
}

// waits adds both ways of switching off to what a jam leaves.
func (v *venter) waits(out *Jam, behind float64) error {
	done := map[string]bool{}
	for _, kind := range []Kind{Shutdown, PowerLost} {
		for _, tight := range v.setups(Scenario{kind, pneumatics.Firing}, NarrowStuck) {
			key := tight.positions()
			if done[key] {
				continue
			}
			done[key] = true
			if err := v.waitBehind(out, tight, behind); err != nil {
				return err
			}
		}
	}
	return nil
}

// waitBehind adds one way of switching off to what a jam leaves.
func (v *venter) waitBehind(out *Jam, tight *Setup, behind float64) error {
	barrel := len(tight.Circuit.Volumes)
	keeps := tight.Residual()[barrel]
	out.Stays = max(out.Stays, keeps)
	one := tight.withRigidBarrel(v.in.Launcher.SpaceBehindProjectile(), behind)
	joined := one.joinedTo(barrel)
	add := func(gauge []float64) {
		energy, air := 0.0, one.Circuit.Ambient.Pressure
		for i, g := range gauge {
			if joined[i] && g > 0 {
				energy += one.Circuit.Volumes[i].Volume / pneumatics.CeilingDose(1, g, air)
			}
		}
		out.Behind, out.Energy = larger(out.Behind, gauge[barrel]), larger(out.Energy, energy)
	}
	switch {
	case math.IsInf(keeps, 1): // nothing leaves: whatever is joined is as it was
		add(one.gauges(nil))
		return nil
	case math.IsNaN(out.Wait):
		return nil
	}
	runs, err := v.e.runs(one, v.walls, out.Wait, 0)
	if err != nil {
		return err
	}
	for _, r := range runs {
		add(one.gauges(r))
	}
	return nil
}

// larger is the larger of two figures, of which the first may still be unknown.
func larger(a, b float64) float64 {
	if a >= b {
		return a
	}
	return b
}

// gauges are the gauge pressures of the volumes at the end of a run, or at the start [Pa].
func (s *Setup) gauges(r *pneumatics.Result) []float64 {
	out := make([]float64, len(s.Circuit.Volumes))
	for i := range out {
		p := s.scenario.Volumes[i].Pressure
		if r != nil {
			p = r.Volumes[i].Pressure
		}
		out[i] = p - s.Circuit.Ambient.Pressure
	}
	return out
}

// joinedTo tells which volumes can push air into one of them, itself included, as the valves are at last.
func (s *Setup) joinedTo(volume int) []bool {
	return graph.Reached(s.Circuit.Links(), len(s.Circuit.Volumes), pneumatics.Node(volume), func(i int, way graph.Way) bool {
		p := &s.Circuit.Paths[i]
		if p.From == pneumatics.Atmosphere || p.To == pneumatics.Atmosphere {
			return false // what is open to the same air is not joined
		}
		return p.Kind != pneumatics.Relief && p.OpeningAtLast(&s.scenario) > 0 && (way == graph.Against || !p.Kind.OneWay())
	}).Volumes()
}

// BleedDrill is the smallest drill [m] whose hole in the barrel, that nothing shuts, brings what a jam leaves down to an
// energy [J] in the time asked, at the ends of what the walls can do; NaN: none up to 5 mm does, or no time is asked.
func BleedDrill(in Input, behind, limit float64) (float64, error) {
	const step, widest = 0.1e-3, 5e-3
	target, _ := Target(in.Launcher, in.Limits.Total.Value)
	start, _, ok := HighestStart(in.Launcher)
	if !ok || math.IsNaN(TimeAllowed(in.Launcher)) {
		return math.NaN(), nil
	}
	for drill := SmallestVent; drill <= widest+step/2; drill = math.Max(drill+step, drill*1.2) {
		drill = nextDrill(drill)
		w := in.Launcher.Clone()
		w.Paths = append(w.Paths, launcher.PathSpec{Name: "bleed", From: "barrel", To: "atmosphere", Kind: pneumatics.Orifice,
			Flow: launcher.FlowSpec{Form: launcher.OrificeBore, Value: launcher.Exact("", drill-boreError),
				DischargeCoefficient: launcher.Exact("", narrowCd)}})
		bled := in
		bled.Launcher = w
		v := newVenter(bled, start, target)
		v.walls = extremes()
		out := Jam{Wait: TimeAllowed(w), Behind: math.NaN(), Energy: math.NaN()}
		if err := v.waits(&out, behind); err != nil {
			return math.NaN(), err
		}
		if out.Energy <= limit {
			return drill, nil
		}
	}
	return math.NaN(), nil
}
