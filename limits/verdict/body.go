package verdict

import (
	"puffproof/limits/assessment"
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// muzzleSealed judges lips or an ear on the muzzle, the charge mixed into one litre of
// lung:
//
//	p = sum(p_i V_i)/(sum V_i + V_dead + 1 L), gauge
func muzzleSealed(a *assessment.Assessment, v *finding.Verdict) {
	lung, limit := benchmark.BenchmarkOf(benchmark.LungVolume), benchmark.BenchmarkOf(benchmark.LungPressure)
	v.Source, v.Basis = limit.Source(), finding.OnRule
	v.Caveat = finding.Say("%s of water; %s", finding.Metres.Of(1, 1), limit.Caveat) // 98 mbar
	high, ok := a.Launcher.SoakedHigh()
	if !ok {
		v.Unknown(a.NoStart)
		return
	}
	p, volume := mixedIntoLung(a.Launcher, a.Launcher.HighStart(high), lung.Value)
	blown := blownInto(a.Launcher, p, volume+lung.Value)
	v.Judge(blown, limit.Value)
	v.Why = finding.Say("%s at up to %s mixed into a lung of %s", finding.Litre(volume), finding.Bar(high), finding.Litre(lung.Value))
	if blown > p {
		v.Why = v.Why.Say(", and what the supply blows in within %s", finding.Second(letsGo))
	}
	if v.Status != finding.Fail {
		return
	}
	if guard := finding.Declared(a.Launcher.Barrel.SealGuard); guard != "" {
		v.HoldsWhile(finding.Words("the guard stays on, so that no mouth or ear can seal: "+guard), finding.ItemSealGuard)
		v.Why = v.Why.Say("; above the limit, but a guard that cannot be sealed is declared: %s", guard)
		v.Advice = finding.Words("Inspect the guard before each use: no mouth or ear can seal on muzzle or tube.")
		return
	}
	v.Advice = finding.Words("A guard that lips and ears cannot seal (declare it as barrel.seal_guard and inspect it), or a smaller dose.")
}

// letsGo is how long lips stay sealed on a muzzle that blows [s] (own rule of this project).
const letsGo = 1.0

// blownInto is what a gauge pressure [Pa] in so much space [m3] rises to while lips stay sealed, where the supply has an
// open way into the barrel as it is fired; at most its dead head.
func blownInto(l *launcher.Launcher, gauge, space float64) float64 {
	if !l.SupplyFires() {
		return gauge
	}
	open := pneumatics.Reached(l.Links(), len(l.Volumes), l.Node(l.Supply.Feeds), func(i int, way pneumatics.Way) bool {
		p := &l.Paths[i]
		moved := p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve
		return p.Kind != pneumatics.Relief && (!moved || p.OpenIn.Has(pneumatics.Firing)) && (way == pneumatics.Along || !p.Kind.OneWay())
	})
	if !open.At(pneumatics.BarrelNode) { // a feed that is still shutting is not counted: it lasts milliseconds
		return gauge
	}
	rises := gauge + l.Ambient.Pressure.High*l.Supply.MostFreeAir()*letsGo/space
	if d := l.Supply.DeadHead; d.Set {
		rises = min(rises, d.High)
	}
	return max(gauge, rises)
}

// mixedIntoLung is the highest gauge pressure [Pa] that the air of all volumes which feed
// the barrel comes to in a lung of a size [m3], and how much space they have then [m3]. A
// volume that stands above the mix counts with the most that it can hold, one below it
// dilutes it: with the least, and not at all where nothing can flow back into it.
func mixedIntoLung(l *launcher.Launcher, gauge []float64, lung float64) (mix, volume float64) {
	most, least := spaces(l, 1), spaces(l, 0)
	reach := launcher.ReachOf(l)
	links := l.Links()
	takes := pneumatics.Reached(links, len(l.Volumes), pneumatics.BarrelNode, func(i int, way pneumatics.Way) bool {
		return reach.Paths[i] && (way == pneumatics.Along || !l.Paths[i].Kind.OneWay())
	}).Volumes()
	for range len(gauge) + 1 { // each round the mix is the higher one, until no volume changes sides
		charge, space := 0.0, least.Barrel.DeadVolume+lung
		volume = 0
		for i, g := range gauge {
			v := most.Volumes[i].Volume
			switch {
			case !reach.Volumes[i], g <= mix && !takes[i]:
				continue
			case g <= mix:
				v = least.Volumes[i].Volume
			}
			charge, volume = charge+g*v, volume+v
		}
		mix = max(mix, charge/(space+volume))
	}
	return mix, volume
}

// spaces is the circuit with every volume and hose at one end of its band: 0 the least
// space, 1 the most.
func spaces(l *launcher.Launcher, end float64) *pneumatics.Circuit {
	w := l.Clone()
	for i := range w.Volumes {
		v := &w.Volumes[i].Volume
		v.Nominal = v.Lerp(end)
	}
	w.Barrel.DeadVolume.Nominal = w.Barrel.DeadVolume.Lerp(end)
	for i := range w.Paths {
		if h := w.Paths[i].Hose; h != nil {
			h.Bore.Nominal, h.Length.Nominal = h.Bore.Lerp(end), h.Length.Lerp(end)
		}
	}
	c := new(pneumatics.Circuit)
	w.Fill(c)
	return c
}

// projectileChoking judges the size of the projectile against the small-ball ring and the
// small-parts cylinder. What passes them holds only while no child under three is near.
func projectileChoking(a *assessment.Assessment, v *finding.Verdict) {
	ball := a.Launcher.Barrel.Fit == pneumatics.InBore
	ring := benchmark.BenchmarkOf(benchmark.SmallPart)
	if ball {
		ring = benchmark.BenchmarkOf(benchmark.SmallBall)
	}
	v.Source, v.Caveat, v.Basis = ring.Source(), finding.Words(ring.Caveat), finding.OnData
	d := a.Launcher.Projectile.Diameter
	if !d.Set {
		v.Unknown(finding.Words("missing: projectile.diameter"))
		return
	}
	v.JudgeLower(d.Low, ring.Value)
	if v.Status == finding.Pass && d.Low > ring.Value {
		v.Why = finding.Words("it does not pass the test gauge; a bitten-off piece can")
		return
	}
	youngest := launcher.Band{}
	if a.Launcher.Event != nil {
		youngest = a.Launcher.Event.Youngest
	}
	switch age := benchmark.BenchmarkOf(benchmark.SmallPartAge); {
	case !youngest.Set:
		v.Unknown(finding.Words("it passes the test gauge and event.youngest is not stated: who is the youngest child that can reach it?"))
	case youngest.Low < age.Value:
		v.Status = finding.Fail
		v.Why = finding.Words("it passes the test gauge and children under three can reach it")
		v.Advice = finding.Words("A larger projectile, or keep it where under-threes are not.")
	default:
		v.HoldsWhile(finding.Words("no child under three comes near, and every projectile is counted in and out"), finding.ItemTugAndBite)
		v.Why = finding.Words("it passes the test gauge: a choking hazard for under-threes, none of whom may be near")
		v.Advice = finding.Words("Count the projectiles in and out; none stays on the ground.")
	}
}
