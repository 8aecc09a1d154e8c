package limits

import (
	"fmt"
	"math"

	"puffproof/pneumatics"
)

// openPathFaults are those of a fixed opening or a bare hose.
func (st *faultStage) openPathFaults(i int) []fault {
	p := &st.Launcher.Paths[i]
	f := fault{part: p.Name, mode: Blocked, anyState: true, apply: func(w *Launcher) { shut(&w.Paths[i]) },
		consequence: "no air passes " + p.Name, detected: "no charge, or no shot, at the first try"}
	if p.To == "atmosphere" || p.From == "atmosphere" {
		f.consequence = fmt.Sprintf("%s does not empty through %s: %s", p.From, p.Name, st.keepsWithout(i))
		f.detected, f.prevented, f.latent, f.revealed = "the vent test", "clean, drained air; a vent of 0.8 mm or more", true, ItemVentTest
		f.changes = reachOf(st.Launcher).paths[i] // it no longer lets air out during the shot
	}
	if !f.changes {
		f.whyNot = "blocked it lets less air to the barrel, not more"
	}
	return []fault{f}
}

// drilledOut is how much wider a restrictor's bore can be found, where no hose
// says how wide the fittings are (own rule of this project).
const drilledOut = 2.0

// boreFault is a restrictor that is missing, so that the bore of its hose
// remains, or that was drilled out.
func (st *faultStage) boreFault(i int) []fault {
	p := &st.Launcher.Paths[i]
	if p.Flow.Form != OrificeBore || p.Kind == pneumatics.Relief {
		return nil
	}
	wide := drilledOut * p.Flow.Value.High
	what := "twice its bore"
	if p.Hose != nil && p.Hose.Bore.High > p.Flow.Value.High {
		wide, what = p.Hose.Bore.High, "the bore of its hose"
	}
	f := fault{part: p.Name, mode: BoreMissing, anyState: true,
		apply:       func(w *Launcher) { w.Paths[i].Flow.Value.High = max(wide, w.Paths[i].Flow.Value.High) },
		consequence: fmt.Sprintf("%s passes as much as %s, %s", p.Name, what, millimetre(wide)), detected: "a drill shank as a gauge",
		latent: true, revealed: ItemBore}
	switch {
	case p.To == "atmosphere" || p.From == "atmosphere":
		f.whyNot, f.latent, f.revealed = "it only lets air out", false, ""
	case !reachOf(st.Launcher).paths[i]:
		f.whyNot = "it is shut before air can pass it during a shot"
	default:
		f.changes = true
	}
	return []fault{f}
}

// hoseFaults are those of a hose.
func (st *faultStage) hoseFaults(i int) []fault {
	p := &st.Launcher.Paths[i]
	if p.Hose == nil {
		return nil
	}
	off := fault{part: p.Name, mode: HoseOff, anyState: true, whyNot: "the air goes into the room",
		detected: "a bang and a whipping hose", prevented: "clips every 200 mm, a sleeve, a restraint"}
	if high, ok := st.Launcher.ventPressures(); ok {
		top := 0.0
		for _, g := range high {
			top = max(top, g)
		}
		pa := st.Launcher.Ambient.Pressure.Nominal
		push := Thrust(circle(p.Hose.Bore.High), top, pa, st.Launcher.gas().Gamma)
		off.consequence = fmt.Sprintf("the loose end pushes with up to %s N at %s", significant(push, 2), bar(top))
	}
	wider := fault{part: p.Name, mode: HoseWider, anyState: true, latent: true, revealed: ItemBore,
		consequence: "the hose no longer holds the flow back",
		detected:    "the hose's print against the parts list", changes: reachOf(st.Launcher).paths[i], apply: func(w *Launcher) {
			h := w.Paths[i].Hose
			if w.Paths[i].Kind == pneumatics.Hose {
				h.Bore.High *= drilledOut
				return
			}
			h.Conductance = Band{Set: true, Nominal: noHose, Low: h.Conductance.Low, High: noHose, Key: "paths." + p.Name + ".hose"}
			if !st.Launcher.Paths[i].Hose.Conductance.Set {
				h.Conductance.Low = 1
			}
		}}
	if !wider.changes {
		wider.whyNot = "no air passes it during a shot"
	}
	return []fault{off, wider}
}

// noHose is a conductance so many times a hose's that it no longer matters [-].
const noHose = 100

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
