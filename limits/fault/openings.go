package fault

import (
	"puffproof/limits/drill"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/pneumatics"
)

// openPathFaults are those of a fixed opening or a bare hose.
func (st *stage) openPathFaults(i int) []fault {
	p := &st.Launcher.Paths[i]
	f := fault{part: p.Name, mode: Blocked, anyState: true, apply: func(w *launcher.Launcher) { shut(&w.Paths[i]) },
		consequence: finding.Say("no air passes %s", p.Name), detected: finding.Words("no charge, or no shot, at the first try")}
	if p.To == "atmosphere" || p.From == "atmosphere" {
		f.consequence = finding.Say("%s does not empty through %s: %s", p.From, p.Name, st.keepsWithout(i))
		f.detected, f.prevented, f.latent, f.revealed = finding.Words("the vent test"), wideEnough(), true, finding.ItemVentTest
		if p.From == "barrel" && p.Restrictor() { // no gauge shows it, and nothing loaded the muzzle lets the air out
			f.consequence = finding.Say("%s does not bleed the barrel: %s", p.Name, st.behindWithout(i))
			f.detected, f.revealed = finding.Words("a drill shank through it"), finding.ItemBore
		}
		sealed, high := st.failed(&f), st.normalHigh()
		// It no longer lets air out during the shot, nor before it in the heat.
		f.changes = launcher.ReachOf(st.Launcher).Paths[i] || sealed.Soak(high) > st.Launcher.Soak(high)
	}
	if !f.changes {
		f.whyNot = finding.Words("blocked it lets less air to the barrel, not more")
	}
	if p.To == "atmosphere" && p.From != "barrel" {
		return []fault{f, st.halfBlocked(i)}
	}
	return []fault{f}
}

// wideEnough is what keeps a vent from clogging.
func wideEnough() finding.Text {
	return finding.Say("clean, drained air; a vent of %s or more", finding.Millimetre(vent.SmallestVent).In(finding.Shortest, 3))
}

// drilledOut is how much wider than stated the bore of a restrictor, or of a hose, can be found (own rule of this project, no source).
const drilledOut = 2.0

// commonPort is the bore [m] that is left where a restrictor is missing and no hose says how wide it is: a G 1/4 fitting, the thread
// of most small valves and vessels, is 8 mm inside (common practice, no source).
const commonPort = 8e-3

// boreFault is a restrictor that was drilled out, or is missing where it is not said that it cannot be: what passes then is the bore
// of its hose, or of the fitting that it sat in.
func (st *stage) boreFault(i int) []fault {
	p := &st.Launcher.Paths[i]
	if !p.Restrictor() {
		return nil
	}
	f := fault{part: p.Name, mode: BoreMissing, anyState: true, detected: finding.Words("a drill shank as a gauge"), latent: true,
		revealed: finding.ItemBore}
	twice := drilledOut * p.Flow.Value.High
	wide, what := commonPort, finding.Words("a fitting of G 1/4 without it (common practice, no source)")
	switch {
	case p.Flow.Removable == launcher.No:
		f.mode, wide = BoreDrilled, twice
	case p.Hose != nil:
		wide, what = p.Hose.Bore.High, finding.Words("the bore of its hose")
	}
	gone := wide > twice
	if !gone {
		wide, what = twice, finding.Words("twice its bore (own rule)")
	}
	f.consequence = finding.Say("%s passes as much as %s, %s", p.Name, what, finding.Millimetre(wide))
	f.apply = func(w *launcher.Launcher) { widen(&w.Paths[i].Flow, wide, gone) }
	switch {
	case p.To == "atmosphere" || p.From == "atmosphere":
		f.whyNot, f.latent, f.revealed = finding.Words("it only lets air out"), false, ""
	case !launcher.ReachOf(st.Launcher).Paths[i]:
		f.whyNot = finding.Words("it is shut before air can pass it during a shot")
	default:
		f.changes = true
		if f.mode == BoreMissing {
			f.prevented = finding.Words("a hole drilled through the part itself, or a valve's own seat, cannot be left out " +
				"(orifice_removable)")
		}
	}
	return []fault{f}
}

// widen lets the bore of a flow be as wide as bore [m] too; where its hole is gone, nothing of its edge narrows the jet.
func widen(flow *launcher.FlowSpec, bore float64, gone bool) {
	flow.Value.High = max(bore, flow.Value.High)
	if gone {
		flow.DischargeCoefficient.High = 1
	}
}

// hoseFaults are those of a hose.
func (st *stage) hoseFaults(i int) []fault {
	p := &st.Launcher.Paths[i]
	if p.Hose == nil || p.Hose.Shared {
		return nil
	}
	off := fault{part: p.Name, mode: HoseOff, anyState: true, whyNot: finding.Words("the air goes into the room"),
		detected:  finding.Words("a bang and a whipping hose"),
		prevented: finding.Say("clips every %s, a sleeve, a restraint", finding.Millimetre(0.2))}
	if high, ok := vent.StartPressures(st.Launcher); ok {
		top := 0.0
		for _, g := range high {
			top = max(top, g)
		}
		pa := st.Launcher.Ambient.Pressure.Nominal
		push := Thrust(launcher.Circle(p.Hose.Bore.High), top, pa, st.Launcher.GasModel().Gamma)
		off.consequence = finding.Say("the loose end pushes with up to %s at %s", finding.Newton(push), finding.Bar(top))
	}
	wider := fault{part: p.Name, mode: HoseWider, anyState: true, latent: true, revealed: finding.ItemBore,
		consequence: finding.Words("the hose no longer holds the flow back"),
		detected:    finding.Words("the hose's print against the parts list"), changes: launcher.ReachOf(st.Launcher).Paths[i],
		apply: func(w *launcher.Launcher) { widenHose(&w.Paths[i]) }}
	if !wider.changes {
		wider.whyNot = finding.Words("no air passes it during a shot")
	}
	return append([]fault{off, wider}, st.kinkFault(i)...)
}

// kinkFault is a hose between the firing valve and the barrel that is kinked at the
// barrel: fired, it fills, and goes off when somebody straightens it, at once and by its
// whole bore.
func (st *stage) kinkFault(i int) []fault {
	p := &st.Launcher.Paths[i]
	if p.Kind != pneumatics.Valve && p.Kind != pneumatics.HandValve || !fires(p) || p.To != "barrel" || p.Hose.Side != launcher.HoseAfter {
		return nil
	}
	return []fault{{part: p.Name, mode: HoseKinked, anyState: true, changes: true, apply: func(w *launcher.Launcher) { kink(w, i) },
		consequence: finding.Words("no shot at the command; the hose is full and goes off when it is straightened"),
		detected:    finding.Words("no shot at the command"),
		prevented:   finding.Words("a hose that keeps its shape in the tightest bend, clips; the jam drill before a hand goes near it")}}
}

// kink makes the hose after path i a vessel that has the pressure before the valve, and
// the kink a valve with the hose's bore that opens at once.
func kink(w *launcher.Launcher, i int) {
	h := *w.Paths[i].Hose
	name := w.Paths[i].Name + ".hose"
	w.Volumes = append(w.Volumes, launcher.VolumeSpec{Name: name, Volume: launcher.Band{Set: true, Key: "paths." + name,
		Low: launcher.Circle(h.Bore.Low) * h.Length.Low, Nominal: launcher.Circle(h.Bore.Nominal) * h.Length.Nominal,
		High: launcher.Circle(h.Bore.High) * h.Length.High}})
	w.Paths[i].To, w.Paths[i].Hose, w.Paths[i].Pulse = name, nil, launcher.Band{}
	w.Paths[i].OpenIn |= pneumatics.SetOf(pneumatics.Armed)
	w.Paths = append(w.Paths, launcher.PathSpec{Name: name, From: name, To: "barrel", Kind: pneumatics.Valve,
		OpenIn: pneumatics.SetOf(pneumatics.Firing), Flow: launcher.FlowSpec{Form: launcher.SeatBore, Value: h.Bore,
			DischargeCoefficient: launcher.Exact("paths."+name+".discharge_coefficient", 1)}})
}

// widenHose makes a bare hose wider, and takes away what any other hose holds back.
func widenHose(p *launcher.PathSpec) {
	h := p.Hose
	if p.Kind == pneumatics.Hose {
		h.Bore.High *= drilledOut
		return
	}
	least := 1.0
	if h.Conductance.Set {
		least = h.Conductance.Low
	}
	h.Conductance = launcher.Band{Set: true, Nominal: noHose, Low: least, High: noHose, Key: "paths." + p.Name + ".hose"}
}

// noHose is a conductance so many times a hose's that it no longer matters [-].
const noHose = 100

// behindWithout says what becomes of the air behind a projectile that jams, with a path of the barrel blocked.
func (st *stage) behindWithout(i int) finding.Text {
	w := st.Launcher.Clone()
	shut(&w.Paths[i])
	if paths, gap, through := drill.Bleeds(w); len(paths) > 0 || gap || through {
		return finding.Words("what is behind a projectile that jams goes another way")
	}
	return finding.Words("what is behind a projectile that jams stays")
}
