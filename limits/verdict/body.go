package verdict

import (
	"slices"

	"puffproof/limits/assessment"
	"puffproof/limits/benchmark"
	"puffproof/limits/control"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/lung"
	"puffproof/pneumatics"
)

// muzzleSealed judges lips or an ear on the muzzle, the charge mixed into one litre of
// lung (lung.Mixed).
func muzzleSealed(a *assessment.Assessment, v *finding.Verdict) {
	size, limit := benchmark.BenchmarkOf(benchmark.LungVolume), benchmark.BenchmarkOf(benchmark.LungPressure)
	v.Source, v.Basis = limit.Source(), finding.OnRule
	v.Caveat = finding.Say("%s of water; %s", finding.Metres.Of(1, 1), limit.Caveat) // 98 mbar
	high, ok := a.Launcher.SoakedHigh()
	if !ok {
		v.Unknown(a.NoStart)
		return
	}
	p, volume := lung.Mixed(a.Launcher, a.Launcher.HighStart(high), size.Value)
	if p <= 0 && v.UnknownFor(a.NoStart) { // nothing that feeds the barrel is filled
		return
	}
	blown := lung.Blown(a.Launcher, p, volume+size.Value)
	v.Judge(blown, limit.Value)
	v.Why = finding.Say("%s at up to %s mixed into a lung of %s", finding.Litre(volume), finding.Bar(high), finding.Litre(size.Value))
	runs := lung.Blown(runningOn(a.Launcher), p, volume+size.Value)
	stands := v.Status != finding.Fail && runs > limit.Value
	counted := blown
	if stands {
		counted = runs
		v.Judge(runs, limit.Value)
	}
	if counted > p {
		v.Why = v.Why.Say(", and what the supply blows in for as long as lips stay sealed: it ends at %s", finding.WorstBar(counted))
	}
	if v.Status != finding.Fail {
		return
	}
	if guard := finding.Proves(finding.ItemSealGuard, a.Launcher.Barrel.SealGuard); guard != "" {
		v.HoldsWhile(finding.Words("the guard stays on, so that no mouth or ear can seal: "+guard), finding.ItemSealGuard)
		v.Why = v.Why.Say("; above the limit, but a guard that cannot be sealed is declared: %s", guard)
		v.Advice = finding.Words("Inspect the guard before each use: no mouth or ear can seal on muzzle or tube.")
		return
	}
	v.Advice = finding.Words("A guard that lips and ears cannot seal (declare it as barrel.seal_guard and inspect it), or a smaller dose.")
	if stands {
		v.HoldsWhile(finding.Words("the supply stands still for as long as it is fired and lips may be near, as supply.runs_in says"))
		v.Why = v.Why.Say("; standing still it would be %s, but nothing that the design states stops it then", finding.WorstBar(blown))
		v.Advice = finding.Words("A guard that lips and ears cannot seal (barrel.seal_guard), or a wiring that stops the supply when it is " +
			"fired ([control], with what moves \"supply\").")
	}
}

// runningOn is a launcher whose supply runs as it is fired too, whatever it is told to do: whoever pumps can do so at any time, and a motor
// that nothing switches off goes on. Where its wiring is stated, that shows in which states it has current.
func runningOn(l *launcher.Launcher) *launcher.Launcher {
	wired := l.Control != nil && slices.ContainsFunc(l.Control.Parts, func(p control.Part) bool {
		return slices.Contains(p.Moves, control.Supply)
	})
	if l.Supply == nil || l.SupplyFires() || wired && l.Supply.Kind != launcher.HandPump {
		return l
	}
	w := l.Clone()
	w.Supply.RunsIn |= pneumatics.SetOf(pneumatics.Firing)
	return w
}

// piecesChoke judges what a child bites or tears off a projectile that is itself too large for a throat: any foam can be bitten.
func piecesChoke(v *finding.Verdict, youngest launcher.Band) {
	v.Why = finding.Words("it does not pass the test gauge; a bitten-off piece can")
	pieces := benchmark.BenchmarkOf(benchmark.SmallPieces)
	if youngest.Set && youngest.Low >= pieces.Value {
		return
	}
	who := ", and children under three can reach it"
	if !youngest.Set {
		who = ", and how old the youngest is (event.youngest) is not stated"
	}
	v.Why, v.Source, v.Caveat = v.Why.Say("%s", who), pieces.Source(), finding.Words(pieces.Caveat)
	v.HoldsWhile(finding.Words("nothing comes off it in the tug and bite test"), finding.ItemTugAndBite) // a child puts it into the mouth
	v.Advice = finding.Words("Tug and bite it before each use, and count the projectiles in and out.")
	if !youngest.Set {
		alsoWhile(v, finding.Words("no child under three gets it into the mouth"), nil)
		v.Advice = finding.Words("Tug and bite it before each use, count the projectiles in and out, and keep them where under-threes are not.")
	}
}

// projectileChoking judges the size of the projectile against the small-ball ring and the
// small-parts cylinder. What passes them holds only while no child under three is near; what does not, where one may be, only while
// no piece comes off.
func projectileChoking(a *assessment.Assessment, v *finding.Verdict) {
	ball := a.Launcher.Barrel.Fit == pneumatics.InBore
	ring := benchmark.BenchmarkOf(benchmark.SmallPart)
	if ball {
		ring = benchmark.BenchmarkOf(benchmark.SmallBall)
	}
	v.Source, v.Caveat, v.Basis = ring.Source(), finding.Words(ring.Caveat), finding.OnData
	d := a.Launcher.Projectile.Diameter
	if !d.Set {
		v.Unknown(finding.Say("missing: %s", finding.Key("projectile.diameter")))
		return
	}
	v.JudgeLower(d.Low, ring.Value)
	youngest := launcher.Band{}
	if a.Launcher.Event != nil {
		youngest = a.Launcher.Event.Youngest
	}
	if v.Status == finding.Pass && d.Low > ring.Value {
		piecesChoke(v, youngest)
		return
	}
	switch age := benchmark.BenchmarkOf(benchmark.SmallPartAge); {
	case !youngest.Set:
		v.Unknown(finding.Say("it passes the test gauge and %s is not stated: who is the youngest child that can reach it?",
			finding.Key("event.youngest")))
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
