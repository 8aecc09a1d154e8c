package fault

import (
	"math"

	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/lung"
	"puffproof/limits/vent"
	"puffproof/pneumatics"
)

// What age, cold and knocks do, and what people take off: faults of which no part opens or shuts.

// stillFaults are a gauge that no longer moves: its pointer at zero, or its line blocked.
func (st *stage) stillFaults(g *launcher.GaugeSpec) []fault {
	f := fault{part: "gauge on " + g.On, mode: StuckAtZero, anyState: true,
		whyNot:      finding.Words("no switch is set by it, and nobody fills by it"),
		consequence: finding.Say("it shows nothing, whatever %s holds: who looks at it takes it for empty", g.On),
		detected:    finding.Words("its pointer, which does not move while it fills"),
		prevented:   finding.Words("the pointer watched as it fills; a second gauge; the wait, whatever it shows")}
	if st.readToStop(g) {
		f.whyNot = finding.Words("a switch set by it would stop nothing at the first try")
		switch st.Launcher.Stops() {
		case launcher.StopMark, launcher.StopPrefill:
			f.whyNot, f.changes, f.overcharges = nil, true, true
			f.endsAt = ", and goes on filling: %s"
		}
	}
	blocked := f
	blocked.mode, blocked.prevented = LineBlocked, finding.Words("clean, drained air; the gauge straight on the vessel")
	blocked.consequence = finding.Say("it stays where it stood: it may show nothing while %s is full", g.On)
	if f.changes {
		blocked.endsAt = "; who fills by it goes on: %s"
	}
	return []fault{f, blocked}
}

// halfOpen is the share of its flow that a vent half blocked or iced still passes (own rule of this project).
const halfOpen = 0.5

// halfBlocked is a vent that passes half.
func (st *stage) halfBlocked(i int) fault {
	p := &st.Launcher.Paths[i]
	f := fault{part: p.Name, mode: HalfBlocked, anyState: true, whyNot: finding.Words("it lets less air out between shots, and none more " +
		"to the barrel"),
		consequence: finding.Say("%s empties through half of %s", p.From, p.Name), detected: finding.Words("the vent test"),
		prevented: wideEnough(),
		latent:    true, revealed: finding.ItemVentTest}
	from := st.Launcher.Node(p.From)
	if from < 0 {
		return f
	}
	trapped, times, err := st.keeps(vent.PowerLost, func(w *launcher.Launcher) { narrow(&w.Paths[i], halfOpen) })
	allowed := vent.TimeAllowed(st.Launcher)
	switch {
	case err != nil || times == nil:
	case len(trapped) > 0, math.IsInf(times[from], 1):
		f.consequence = f.consequence.Say(" for more than an hour")
	case times[from] > allowed:
		f.consequence = f.consequence.Say(": it takes up to %s, more than the %s that are allowed", vent.Minutes(times[from]),
			vent.Minutes(allowed))
	default:
		f.consequence = f.consequence.Say(": it takes up to %s", vent.Minutes(times[from]))
	}
	return f
}

// narrow leaves a share of a path's flow.
func narrow(p *launcher.PathSpec, share float64) {
	b := &p.Flow.Value
	switch p.Flow.Form {
	case launcher.NoFlow:
		b = &p.Hose.Conductance
	case launcher.OrificeBore, launcher.SeatBore: // as the area of its bore
		share = math.Sqrt(share)
	}
	b.Low, b.Nominal, b.High = share*b.Low, share*b.Nominal, share*b.High
}

// hardened is a soft tip that is soft no more: the shot is the same, its limit is that of a rigid one. nil: it counts as rigid
// already.
func (st *stage) hardened() []fault {
	if st.Limits.Tip != launcher.ResilientTip {
		return nil
	}
	return []fault{{part: "projectile", mode: TipHardened, anyState: true, whyNot: finding.Words("it leaves as before"),
		consequence: finding.Words("cold, wet, aged, taped or painted, the tip is hard, and what it has counts as a rigid one's"),
		detected:    finding.Words("the tip pressed, cold and wet, before each event"),
		prevented:   finding.Words("stored warm and dry; projectiles retired by date; neither tape nor paint")}}
}

// hardTip judges a tip that has hardened.
func (st *stage) hardTip(r *Result) {
	r.Energy, r.Judged = st.normalEnergy()
	limit := benchmark.BenchmarkOf(benchmark.TotalRigid).Value
	if r.Judged <= limit {
		r.Reason = finding.Say("even a rigid tip may have %s", finding.Joule(limit))
		return
	}
	item, is := launcher.TipItem(st.Launcher.Projectile, st.Launcher.Ambient)
	if !is {
		item = finding.Item{ID: finding.ItemTip}
	}
	st.heldBy(r, item)
	r.Reason = finding.Say("a rigid tip may have %s", finding.Joule(limit)).Say("; ").And(r.Reason)
}

// takenOff are guard, grid and stops of the mount that are gone.
func (st *stage) takenOff() (out []fault) {
	l := st.Launcher
	if guard := finding.Proves(finding.ItemSealGuard, l.Barrel.SealGuard); guard != "" {
		f := fault{part: "guard", mode: Missing, anyState: true, whyNot: finding.Words("the shot is the same"),
			consequence: finding.Words("lips or an ear can seal the muzzle, and fingers and faces get to it"),
			detected:    finding.Words("a look, before each use"), prevented: finding.Words("a guard that takes a tool to come off"),
			latent: true, revealed: finding.ItemSealGuard}
		if high, ok := l.SoakedHigh(); ok {
			size := benchmark.BenchmarkOf(benchmark.LungVolume).Value
			p, volume := lung.Mixed(l, l.HighStart(high), size)
			f.consequence = f.consequence.Say(": up to %s in a lung", finding.WorstBar(lung.Blown(l, p, volume+size)))
		}
		out = append(out, f)
	}
	if l.Barrel.MuzzleAdmits.Set {
		out = append(out, fault{part: "grid", mode: Missing, anyState: true, whyNot: finding.Words("the shot of the projectile is the same"),
			consequence: finding.Words("what it kept out of the muzzle gets in, stones and pens among it"),
			detected:    finding.Words("a look in, before each load"), prevented: finding.Words("a grid that is part of the muzzle"),
			latent: true, revealed: finding.ItemMuzzleAdmits})
	}
	if l.Mount.ElevationMin.Set || l.Mount.ElevationMax.Set {
		out = append(out, fault{part: "mount", mode: StopGone, anyState: true, changes: true,
			apply: func(w *launcher.Launcher) {
				w.Mount.ElevationMin = launcher.Exact(w.Mount.ElevationMin.Key, -math.Pi/2)
				w.Mount.ElevationMax = launcher.Exact(w.Mount.ElevationMax.Key, math.Pi/2)
			},
			consequence: finding.Words("it points anywhere, at faces too, and comes down where nobody reckoned"),
			detected:    finding.Words("the barrel pushed to both stops"), prevented: finding.Words("stops that are bolted or welded"),
			latent: true, revealed: finding.ItemElevation})
	}
	return out
}

// regulated names the regulator whose outlet is the volume that a relief valve protects; "" none.
func (st *stage) regulated(i int) string {
	for k := range st.Launcher.Paths {
		if p := &st.Launcher.Paths[k]; p.Kind == pneumatics.Regulator && p.To == st.Launcher.Paths[i].From {
			return p.Name
		}
	}
	return ""
}
