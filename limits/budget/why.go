package budget

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// lively is the final speed [m/s] below which a shot is explained: little flies further than it falls (own rule of this project).
const lively = 2.5

// holding is what holds a nominal shot back, in figures.
type holding struct {
	l *launcher.Launcher
	c *pneumatics.Circuit
	r *pneumatics.Result
	// charge is the free air that the volumes joined to the barrel hold above the atmosphere, need what it takes to fill barrel and
	// travel against the friction [m3, at ambient].
	charge, need float64
	push, start  float64 // the highest pressure behind the projectile, and the highest of those volumes [Pa gauge]
	way          float64 // travel from the seat [m]
}

// Why says, with figures, why a nominal shot stalls, or leaves below 2.5 m/s; none where it flies.
func Why(l *launcher.Launcher, n *worst.Nominal) []finding.Text {
	r := n.Result
	if !n.Circuit.Barrel.Present || r.Outcome == pneumatics.Left && r.FinalSpeed >= lively {
		return nil
	}
	h := weigh(l, n)
	var out []finding.Text
	for _, reason := range []func() finding.Text{h.force, h.air, h.friction, h.valve, h.mass} {
		if t := reason(); len(t) > 0 {
			out = append(out, t)
		}
	}
	return out
}

// weigh takes the figures of a shot.
func weigh(l *launcher.Launcher, n *worst.Nominal) *holding {
	c, pa, b := n.Circuit, n.Circuit.Ambient.Pressure, &n.Circuit.Barrel
	h := &holding{l: l, c: c, r: n.Result, way: b.Travel - n.Scenario.Seat, push: n.Result.BarrelPeak - pa}
	for i, joined := range launcher.ReachOf(l).Volumes {
		if gauge := n.Scenario.Volumes[i].Pressure - pa; joined && gauge > 0 {
			h.charge += c.Volumes[i].Volume * gauge / pa
			h.start = max(h.start, gauge)
		}
	}
	// Behind the projectile the volume grows by A x at ambient pressure; friction and weight ask for F/A more in all of it.
	behind := b.DeadVolume + b.Area*(n.Scenario.Seat+h.way)
	h.need = b.Area*h.way + behind*h.resisting()/(b.Area*pa)
	return h
}

// resisting is the steady force against the projectile under way [N].
func (h *holding) resisting() float64 { return h.c.Barrel.Sliding + max(h.c.Barrel.Weight(), 0) }

// force tells that the air does not get the projectile to move.
func (h *holding) force() finding.Text {
	b := &h.c.Barrel
	hold := b.Breakaway + max(b.Weight(), 0)
	if h.r.Position > 1e-6 || !(hold > h.push*b.Area) {
		return nil
	}
	// A run that cannot move it is not followed: then all that is there counts.
	most := h.push
	if !(most > 0) {
		most = h.start
	}
	if hold < most*b.Area {
		return finding.Say("It does not move, though the %s before the barrel would break it away: next to nothing of it arrives. Does "+
			"the firing valve open at that pressure (its least differential, its pilot), and is the whole way from the vessel open while "+
			"it fires?",
			finding.Bar(most))
	}
	return finding.Say("It does not move: it takes %s to break it away, and the air pushes with %s at most (%s on its section).",
		finding.Newton(hold), finding.Newton(most*b.Area), finding.Bar(most))
}

// air tells that the charge is too small for the barrel.
func (h *holding) air() finding.Text {
	if h.l.SupplyPushes() || h.r.Position <= 1e-6 || !(h.charge < 1.5*h.need) {
		return nil
	}
	return finding.Say("Too little air for this barrel: the charge holds %s of free air, and to push the projectile through %s against its "+
		"friction takes %s. A larger dose, a higher cut-out or less travel.", finding.Litre(h.charge), finding.Millimetre(h.way),
		finding.Litre(h.need))
}

// friction tells that half of the work or more is rubbed away.
func (h *holding) friction() finding.Text {
	a := h.r.Account
	net := a.GasWork - a.Atmosphere + a.JetWork
	if !(a.Friction > 0.5*net) || !(net > 0) {
		return nil
	}
	return finding.Say("Friction takes %s of the %s that the air does beyond pushing the atmosphere away.", finding.Joule(a.Friction),
		finding.Joule(net))
}

// valve tells that what lets the air in holds it back.
func (h *holding) valve() finding.Text {
	const little = 0.3
	if h.r.Position <= 1e-6 || !(h.push < little*h.start) || math.IsNaN(h.push) {
		return nil
	}
	return finding.Say("What lets the air in is small for this barrel: of %s before it at most %s arrive behind the projectile. A valve "+
		"that passes more, a shorter or wider hose, or one that opens faster.", finding.Bar(h.start), finding.Bar(h.push))
}

// mass tells of a heavy projectile that a push without other hindrance does not get going.
func (h *holding) mass() finding.Text {
	b, a := &h.c.Barrel, h.r.Account
	net := a.GasWork - a.Atmosphere + a.JetWork
	if h.r.Outcome != pneumatics.Left || !(a.Friction <= 0.5*net) || h.push < 0.3*h.start {
		return nil
	}
	return finding.Say("Of the air's %s most goes into a projectile of %s: lighter, or more pressure over more travel.", finding.Joule(net),
		finding.Shown{Value: b.Mass, Unit: finding.Grams, Digits: 2})
}
