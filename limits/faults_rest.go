package limits

import (
	"fmt"
	"math"
	"strings"

	"puffproof/pneumatics"
)

// controlFaults are those of the pressure switch and the gauges.
func (st *faultStage) controlFaults() []fault {
	var out []fault
	if s := st.Launcher.Switch; s != nil {
		out = append(out,
			fault{part: "pressure switch", mode: SwitchWelded, anyState: true, overcharges: true, changes: true,
				consequence: "the supply runs on: " + st.Launcher.Overcharge().Why, detected: "the gauge; the supply does not stop", prevented: "a relief valve that carries the supply"},
			fault{part: "pressure switch", mode: SwitchDead, anyState: true, whyNot: "the supply never runs",
				consequence: "no charge", detected: "no charge at the first try"})
		if s.Adjustable != No {
			out = append(out, st.endStopFault())
		}
	}
	if s := st.Launcher.Supply; s != nil && s.Kind == RegulatedCylinder {
		out = append(out, fault{part: "supply", mode: Creeps, anyState: true, overcharges: true, changes: true, apply: fullCylinder,
			consequence: "the cylinder's regulator creeps or fails open: a full cylinder stands behind it", detected: "the gauge, ten minutes after charging",
			prevented: "a relief valve on the supplied volume that carries the open regulator"})
	}
	for i := range st.Launcher.Gauges {
		g := &st.Launcher.Gauges[i]
		if !g.Range.Set {
			continue
		}
		f := fault{part: "gauge on " + g.On, mode: ReadsLow, anyState: true, raises: gaugeKnock * g.Range.High, latent: true, revealed: itemGauge,
			consequence: fmt.Sprintf("a switch set by it stops the supply up to %s higher", bar(gaugeKnock*g.Range.High)),
			detected:    "an independent gauge", prevented: "compare the gauges before each event"}
		f.changes = st.Launcher.Switch != nil && g.On == st.Launcher.Switch.Senses
		if !f.changes {
			f.raises, f.whyNot = 0, "no switch is set by it"
			f.consequence = "the launcher looks emptier than it is"
		}
		out = append(out, f)
	}
	return out
}

// fullCylinder lets the supply push up to the pressure of a full cylinder.
func fullCylinder(w *Launcher) {
	const full = 200e5 // [Pa gauge] (common practice, from memory)
	d := &w.Supply.DeadHead
	d.Set, d.Nominal, d.High = true, max(d.Nominal, full), max(d.High, full)
}

// gaugeKnock is how much below the truth a damaged gauge is taken to read, as a
// part of its range: a knocked pointer (own rule of this project).
const gaugeKnock = 0.10

// endStopFault is the switch turned up as far as it goes.
func (st *faultStage) endStopFault() fault {
	s := st.Launcher.Switch
	f := fault{part: "pressure switch", mode: SwitchEndStop, anyState: true, changes: true, overcharges: true,
		consequence: "the end stop is not stated: as if the switch never stopped the supply", detected: "the gauge", prevented: "a sealed or lacquered screw",
		latent: true, revealed: itemSwitchTest}
	if s.AdjustableTo.Set {
		f.overcharges = false
		f.raises = max(0, s.AdjustableTo.High-s.CutOut.High)
		f.consequence = "the supply stops at up to " + bar(s.AdjustableTo.High)
	}
	if s.Adjustable == Unanswered {
		f.consequence += " (pressure_switch.adjustable is not answered, which counts as yes)"
	}
	return f
}

// powerFaults cut the power in each state.
func (st *faultStage) powerFaults() []fault {
	var out []fault
	for _, s := range []pneumatics.State{pneumatics.Charging, pneumatics.Armed, pneumatics.Loading, pneumatics.Firing} {
		f := fault{part: "power", mode: NoPower, state: s, apply: func(w *Launcher) { unpowered(w, s) },
			consequence: st.powerConsequence(s), detected: "at once", prevented: "vents that open without power"}
		if s == pneumatics.Firing {
			f.whyNot = "the shot has begun already and its valve shuts or stays"
		} else {
			f.unasked = true
			st.movesFrom(&f, s)
			if !f.changes {
				f.whyNot = "without power nothing under pressure opens into the barrel"
			}
		}
		out = append(out, f)
	}
	return out
}

// powerConsequence says what empties and how long it takes.
func (st *faultStage) powerConsequence(s pneumatics.State) string {
	if st.Emptying.Trouble != "" {
		return "how it empties is not known: " + st.Emptying.Trouble
	}
	var parts []string
	for _, c := range st.Emptying.Cases {
		if c.Kind != PowerLost || c.From != s {
			continue
		}
		if c.Slowest == 0 {
			parts = append(parts, c.Volume+" holds nothing that has to go")
		} else if math.IsInf(c.Slowest, 1) {
			parts = append(parts, c.Volume+" never empties")
		} else {
			parts = append(parts, fmt.Sprintf("%s empty after %s s at most", c.Volume, significant(c.Slowest, 2)))
		}
	}
	return strings.Join(parts, ", ")
}

// unpowered makes the design's shot one in which every valve goes where it goes
// without power, from a state.
func unpowered(w *Launcher, s pneumatics.State) {
	for k := range w.Paths {
		p := &w.Paths[k]
		if p.Kind != pneumatics.Valve && p.Kind != pneumatics.HandValve {
			continue
		}
		open := p.Unpowered == pneumatics.Open
		if p.Kind == pneumatics.HandValve || p.Unpowered == pneumatics.Stays {
			open = p.OpenIn.Has(s)
		}
		p.OpenIn = inFiring(p.OpenIn, open)
		p.Pulse = Band{}
	}
}

// Factors of the faults of a projectile (own rules of this project): a sticky
// one holds up to three times as firmly as the firmest of the design's band, a
// wrong or wet one is up to twice as heavy.
const (
	stickiest = 3.0
	heaviest  = 2.0
)

// projectileFaults are those of the projectile and of the muzzle.
func (st *faultStage) projectileFaults() []fault {
	out := []fault{
		{part: "projectile", mode: StickyBall, anyState: true, changes: true, extra: []string{"stickiness"}, adjust: func(c *pneumatics.Circuit, u []float64) {
			k := 1 + u[0]*(stickiest-1)
			c.Barrel.Breakaway *= k
			c.Barrel.Restart *= k
			c.Barrel.Sliding *= k
		}, consequence: "it lets go later and harder, up to three times as firmly held", detected: "it does not slide in by its own weight as usual", prevented: "dry store, a clean bore, fresh projectiles"},
		{part: "projectile", mode: HeavyBall, anyState: true, changes: true, extra: []string{"heaviness"}, adjust: func(c *pneumatics.Circuit, u []float64) {
			c.Barrel.Mass *= 1 + u[0]*(heaviest-1)
		}, consequence: "a wrong or wet projectile, up to twice the mass", detected: "a kitchen scale", prevented: "one kind only, counted in and out"},
		{part: "projectile", mode: TwoLoaded, anyState: true, changes: true, adjust: func(c *pneumatics.Circuit, _ []float64) { c.Barrel.Mass *= 2 },
			share: func(float64) float64 { return 0.5 }, consequence: "two leave together; the energy is that of one of them", detected: "look in before each load", prevented: "one adult loads, counts aloud"},
	}
	return append(out, st.jammed(), fault{part: "muzzle", mode: MuzzlePlugged, anyState: true, whyNot: "the projectile does not leave",
		consequence: "the barrel takes the pressure", detected: "look in before each load", prevented: "a barrel rated for it; a cover while it stands"})
}

// jammed is a projectile that does not move at all: the barrel takes the whole
// pressure and keeps it where nothing bleeds it.
func (st *faultStage) jammed() fault {
	f := fault{part: "projectile", mode: Jammed, anyState: true, whyNot: "it does not leave", detected: "no shot at the command",
		prevented: "a bleed from the barrel; the jam drill"}
	high, ok := st.Launcher.ventPressures()
	if !ok {
		f.consequence, f.freed = "the pressure behind it is not known", math.NaN()
		return f
	}
	tight := st.Launcher.ventLauncher(narrowStuck)
	c := new(pneumatics.Circuit)
	tight.Fill(c)
	keeps := pneumatics.Residual(c, &pneumatics.Scenario{From: pneumatics.Firing, To: pneumatics.Off})
	top := 0.0
	reach := reachOf(st.Launcher)
	for i, g := range high {
		if reach.volumes[i] {
			top = max(top, g)
		}
	}
	energy := st.Launcher.barrelSpace() / pneumatics.CeilingDose(1, top, st.Launcher.Ambient.Pressure.Low)
	f.freed, f.behind = energy, top
	if keeps[len(keeps)-1] > st.Emptying.Target {
		f.consequence = fmt.Sprintf("switched off, up to %s stays behind it, which could give it %s when a hand frees it: only the jam drill (item "+itemJamDrill+") keeps that harmless", worstBar(top), worstJoule(energy))
	} else {
		f.consequence = fmt.Sprintf("up to %s behind it, which bleeds off once it is switched off; freed by hand before, it could gain %s", worstBar(top), worstJoule(energy))
	}
	f.consequence += " (the whole charge behind a projectile that does not move at all; barrel.stalled is about one that stops by itself after a shot, with what that leaves)"
	return f
}

// barrelSpace is the most air that can be behind a projectile in the barrel [m3].
func (l *Launcher) barrelSpace() float64 {
	b := &l.Barrel
	if b.Fit == pneumatics.OverTube {
		return b.DeadVolume.High + circle(l.Projectile.InsideDiameter.High)*b.Engagement.High
	}
	return b.DeadVolume.High + circle(b.Bore.High)*b.Travel.High
}

// Thrust is the force of a jet from an open end [N]:
//
//	choked:   F = A (2 (2/(g+1))^(1/(g-1)) p - pa)
//	subsonic: F = A pa 2g/(g-1) ((p/pa)^((g-1)/g) - 1)
//
// p the absolute pressure inside, section A [m2] with no loss. Source: momentum
// balance of the ideal convergent nozzle (for instance Shapiro, Compressible
// Fluid Flow, chapter 4, from memory).
func Thrust(section, gauge, ambient, gamma float64) float64 {
	p := ambient + gauge
	critical := math.Pow((gamma+1)/2, gamma/(gamma-1))
	if p/ambient >= critical {
		return section * (2*math.Pow(2/(gamma+1), 1/(gamma-1))*p - ambient)
	}
	return section * ambient * 2 * gamma / (gamma - 1) * (math.Pow(p/ambient, (gamma-1)/gamma) - 1)
}
