package fault

import (
	"math"

	"puffproof/limits/dial"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/pneumatics"
)

// controlFaults are those of the pressure switch and the gauges.
func (st *stage) controlFaults() []fault {
	var out []fault
	if s := st.Launcher.Switch; s != nil {
		out = append(out,
			fault{part: "pressure switch", mode: SwitchWelded, anyState: true, overcharges: true, changes: true,
				consequence: finding.Words("the supply runs on"), endsAt: ": %s",
				detected:  shownBy(st.Launcher, s.Senses, dial.Filling, "the gauge").Say("; the supply does not stop"),
				prevented: finding.Words("a relief valve that carries the supply")},
			fault{part: "pressure switch", mode: SwitchDead, anyState: true, whyNot: finding.Words("the supply never runs"),
				consequence: finding.Words("no charge"), detected: finding.Words("no charge at the first try")})
		if s.Adjustable != launcher.No {
			out = append(out, st.endStopFault())
		}
	}
	out = append(out, st.fillingFaults()...)
	for i := range st.Launcher.Gauges {
		g := &st.Launcher.Gauges[i]
		out = append(out, st.stillFaults(g)...)
		if !g.Range.Set {
			continue
		}
		f := fault{part: "gauge on " + g.On, mode: ReadsLow, anyState: true, raises: gaugeKnock * g.Range.High,
			latent: true, revealed: finding.ItemGaugeCompare,
			consequence: finding.Say("%s up to %s higher", st.stoppedBy(), finding.Bar(gaugeKnock*g.Range.High)),
			detected:    finding.Words("an independent gauge"), prevented: finding.Words("compare the gauges before each event")}
		f.changes = st.readToStop(g)
		if !f.changes {
			f.raises, f.whyNot = 0, finding.Words("no switch is set by it, and nobody fills by it")
			f.consequence = finding.Words("the launcher looks emptier than it is")
		}
		out = append(out, f)
	}
	return out
}

// gaugeKnock is how much below the truth a damaged gauge is taken to read, as a
// part of its range: a knocked pointer (own rule of this project).
const gaugeKnock = 0.10

// endStopFault is the switch turned up as far as it goes.
func (st *stage) endStopFault() fault {
	s := st.Launcher.Switch
	f := fault{part: "pressure switch", mode: SwitchEndStop, anyState: true, changes: true, overcharges: true,
		consequence: finding.Words("the end stop is not stated: as if the switch never stopped the supply"),
		detected:    shownBy(st.Launcher, s.Senses, dial.Filling, "the gauge"), prevented: finding.Words("a sealed or lacquered screw"),
		latent: true, revealed: finding.ItemSwitchTest}
	if s.AdjustableTo.Set {
		f.overcharges = false
		f.raises = max(0, s.AdjustableTo.High-s.CutOut.High)
		f.consequence = finding.Say("the supply stops at up to %s", finding.Bar(s.AdjustableTo.High))
	}
	if s.Adjustable == launcher.Unanswered {
		f.consequence = f.consequence.Say(" (pressure_switch.adjustable is not answered, which counts as yes)")
	}
	return f
}

// powerFaults cut the power in each state.
func (st *stage) powerFaults() []fault {
	var out []fault
	for _, s := range []pneumatics.State{pneumatics.Charging, pneumatics.Armed, pneumatics.Loading, pneumatics.Firing} {
		f := fault{part: "power", mode: NoPower, state: s, apply: func(w *launcher.Launcher) { unpowered(w, s) },
			consequence: st.emptiesUnpowered(s), detected: finding.Words("at once"),
			prevented: finding.Words("vents that open without power")}
		if s == pneumatics.Firing {
			f.whyNot = finding.Words("the shot has begun already and its valve shuts or stays")
		} else {
			f.unasked = true
			st.movesFrom(&f, s)
			if !f.changes {
				f.whyNot = finding.Words("without power nothing under pressure opens into the barrel")
			}
		}
		out = append(out, f)
	}
	return out
}

// emptiesUnpowered says what empties without power, from a state, and how long it takes.
func (st *stage) emptiesUnpowered(s pneumatics.State) finding.Text {
	if len(st.Emptying.Trouble) != 0 {
		return finding.Say("how it empties is not known: %s", st.Emptying.Trouble)
	}
	var each []finding.Text
	for _, c := range st.Emptying.Cases {
		if c.Kind != vent.PowerLost || c.From != s {
			continue
		}
		switch {
		case c.Slowest == 0:
			each = append(each, finding.Say("%s holds nothing that has to go", c.Volume))
		case math.IsInf(c.Slowest, 1):
			each = append(each, finding.Say("%s never empties, which %s judges", c.Volume, finding.VentPowerLoss))
		default:
			each = append(each, finding.Say("%s empty after %s at most", c.Volume, finding.Second(c.Slowest)))
		}
	}
	return finding.Join(each, ", ")
}

// unpowered makes the design's shot one in which every valve goes where it goes
// without power, from a state.
func unpowered(w *launcher.Launcher, s pneumatics.State) {
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
		p.Pulse = launcher.Band{}
	}
}
