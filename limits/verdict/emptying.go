package verdict

import (
	"math"
	"slices"
	"strings"

	"puffproof/limits/assessment"
	"puffproof/limits/dial"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/pneumatics"
)

// VentRule is the source of the verdicts on emptying.
const VentRule = "own rule of this project; ISO 4414:2010, 5.2.8: stored energy vents or is isolated on shut-off (V2: read in a " +
	"secondary text)"

// timeToEmpty judges one kind of emptying by its slowest volume at the slow end
// of the tolerances, and by the harm that the air can still do: by a shot from
// what is left, or by pushing a loaded projectile out on its way.
func timeToEmpty(a *assessment.Assessment, v *finding.Verdict, kind vent.Kind) {
	v.Source = VentRule
	v.Caveat = finding.Words("slow end: coldest, narrowest, largest, with the heat from the walls that makes it slowest; a hose at its " +
		"laminar flow near the target")
	e := a.Emptying
	switch {
	case len(e.Trouble) != 0:
		v.Unknown(e.Trouble)
		return
	case math.IsNaN(e.Within):
		v.Unknown(finding.Say("missing: %s: how long may emptying take", finding.KeyAs("venting.within", "[venting] within")))
		return
	}
	worst := e.WorstOf(kind)
	v.Why = finding.Say("%s, %s from %s to %s", worst.Scenario, worst.Volume, finding.WorstBar(worst.Start), finding.Bar(e.Target))
	switch {
	case math.IsInf(worst.Slowest, 1):
		neverEmpties(v, e, worst)
	case !(worst.Slowest <= e.Within):
		v.Judge(worst.Slowest, e.Within)
		v.Advice = finding.Words("A wider vent (puffproof vent --size says which), a smaller volume or less pressure.")
	case len(e.TooHigh) != 0:
		stated, _ := vent.StatedTarget(a.Launcher)
		v.Judge(stated, e.Target)
		v.Unit, v.Basis = finding.InPascalGauge, finding.OnRule
		v.Why = v.Why.Say("; but %s", e.TooHigh)
		v.Advice = finding.Say("State a [venting] target of %s or less, and a time in which every volume gets there.", finding.Bar(e.Target))
	case e.LeftShot > e.LeftLimit:
		v.Judge(e.LeftShot, e.LeftLimit)
		v.Unit, v.Basis = finding.InJoule, finding.OnModel
		v.Why = v.Why.Say("; but a shot from the target pressure still has %s", finding.WorstJoule(e.LeftShot))
		v.Advice = finding.Words("A lower [venting] target.")
	default:
		emptiesInTime(v, a, worst, hardestPush(e, kind))
	}
}

// neverEmpties fails a verdict on a volume that does not come down to the target.
func neverEmpties(v *finding.Verdict, e *vent.Report, c *vent.Case) {
	limit, never := e.Within, -1.0
	v.Status, v.Limit, v.Margin = finding.Fail, &limit, &never
	v.Why = finding.Say("%s, %s: never down to the target of %s", c.Scenario, c.Volume, finding.Bar(e.Target))
	v.Advice = finding.Words("A wider vent.")
	if len(c.Missing) != 0 {
		v.Advice = finding.Say("What it needs: %s.", c.Missing)
	}
}

// emptiesInTime judges an emptying whose slowest volume is down in time by what it
// pushes out of the barrel on its way; p is nil where it pushes nothing out. Where
// nobody knows how far the launcher can be filled, in time is not a pass.
func emptiesInTime(v *finding.Verdict, a *assessment.Assessment, worst *vent.Case, p *vent.BarrelPush) {
	kind := worst.Kind
	if p != nil {
		limit, hands := pushLimit(a, p)
		v.Why = v.Why.Say("; %s: it vents through the barrel and pushes a loaded projectile out with %s (shot.unasked)%s",
			p.Scenario, finding.WorstJoule(p.Judged), hands)
		if p.Judged > limit {
			pushesTooHard(v, p, limit)
			return
		}
	}
	if over := a.Launcher.FaultOvercharge(); !over.Known {
		v.Unknown(finding.Say("%s; so emptying is known from %s only, in %s", over.Why, finding.WorstBar(worst.Start),
			finding.Second(worst.Slowest).In(finding.Upwards, 3)))
		return
	}
	v.Judge(worst.Slowest, a.Emptying.Within)
	if kind == vent.Shutdown && v.Status == finding.Pass { // without power the supply stands still
		emptyWithoutSupply(a, v)
		emptiedByHand(a, v)
	}
	atHands := func(p vent.BarrelPush) bool {
		return p.Kind == kind && p.From == pneumatics.Loading && !slices.ContainsFunc(a.Launcher.Paths, func(s launcher.PathSpec) bool {
			return s.Name == p.Path && (s.From == "atmosphere" || s.To == "atmosphere") // it lets air out of the barrel, and none in
		})
	}
	if a.Loading != nil && v.Holds() && slices.ContainsFunc(a.Emptying.Pushes, atHands) && restsOnAVent(a) {
		afterTheWait(a, v) // nothing is pushed out by what its vent has let go before
	}
}

// emptiedByHand makes what holds conditional on the hands that open its valves: none opens by itself.
func emptiedByHand(a *assessment.Assessment, v *finding.Verdict) {
	valves := a.Emptying.ByHand
	if len(valves) == 0 || !v.Holds() {
		return
	}
	condition := finding.Say("whoever switches it off opens %s by hand, and reads every gauge at zero%s", strings.Join(valves, ", "),
		hiddenThen(a))
	if len(v.Condition) != 0 {
		condition = v.Condition.Say("; and %s", condition)
	}
	v.HoldsWhile(condition, append(v.Items, finding.ItemVentByHand)...)
}

// emptyWithoutSupply makes an emptying conditional on the supply's standstill where one that
// runs on would keep the launcher full.
func emptyWithoutSupply(a *assessment.Assessment, v *finding.Verdict) {
	switch r := a.Emptying.RunsOn; {
	case r == nil || r.Known && r.Empty:
		return
	case r.Known:
		v.Why = v.Why.Say("; a supply that runs on (a welded relay, a stop that cuts the valves only) keeps %s at up to %s", r.Volume,
			finding.WorstBar(r.Most))
	default:
		v.Why = v.Why.Say("; a supply that runs on keeps %s filled, nobody knows how far", r.Volume)
	}
	const pulled = "whoever switches it off pulls the plug of the supply as well, and the gauges read zero"
	v.HoldsWhile(finding.Words(pulled).And(hiddenThen(a)), finding.ItemSupplyOff)
	v.Advice = finding.Words("A stop that cuts the supply itself; or vents so wide that they carry it at the target.")
}

// hiddenThen is the wait that stands in for a gauge where none shows all that empties when it is switched off; nil: one does.
func hiddenThen(a *assessment.Assessment) finding.Text {
	unseen, slowest := a.Emptying.Unseen(a.Launcher, vent.Shutdown)
	switch {
	case len(unseen) == 0:
		return nil
	case math.IsInf(slowest, 1):
		return finding.Say("; no gauge shows %s then", strings.Join(unseen, ", "))
	}
	return finding.Say("; who goes near waits %s by a clock first: no gauge shows %s then",
		finding.Second(math.Ceil(slowest)).In(finding.Shortest, 4), strings.Join(unseen, ", "))
}

// pushesTooHard fails a verdict by a push; one that was not settled is unknown.
func pushesTooHard(v *finding.Verdict, p *vent.BarrelPush, limit float64) {
	v.Advice = finding.Words("A vent that does not lead through the barrel, with the firing valve shut when off and without power.")
	if p.Bound {
		v.Unknown(finding.Say("%s: it vents through the barrel, and what a loaded projectile does then could not be settled; the air could "+
			"give it up to %s",
			p.Scenario, finding.WorstJoule(p.Energy)))
		return
	}
	v.Judge(p.Judged, limit)
	v.Unit, v.Basis = finding.InJoule, finding.OnModel
}

// pushLimit is the energy that a push may have [J], and in words why it is none.
func pushLimit(a *assessment.Assessment, p *vent.BarrelPush) (limit float64, why string) {
	switch {
	case p.From == pneumatics.Loading:
		return handsLimit(a, p)
	case p.Kind == vent.PowerLost:
		return 0, ": a shot that takes no action at all" // as in shot.unasked: a pulled plug asks nobody
	}
	return 0, ": switching it off is the shot" // likewise: no second action keeps it back
}

// handsLimit is what hands and faces near the muzzle leave of that limit [J].
func handsLimit(a *assessment.Assessment, p *vent.BarrelPush) (limit float64, why string) {
	switch {
	case p.From == pneumatics.Loading:
		return 0, ", while hands are at the muzzle" // no energy is small enough
	case finding.Proves(finding.ItemSealGuard, a.Launcher.Barrel.SealGuard) == "":
		return 0, ", and no guard keeps faces and fingers off the muzzle"
	}
	return a.Emptying.LeftLimit, ""
}

// hardestPush is the push of a kind with the most energy, one from state loading
// before all others; nil: none moves a projectile out.
func hardestPush(e *vent.Report, kind vent.Kind) *vent.BarrelPush {
	var worst *vent.BarrelPush
	for i := range e.Pushes {
		p := &e.Pushes[i]
		if p.Kind != kind || p.Speed <= 0 {
			continue
		}
		hands := p.From == pneumatics.Loading
		switch {
		case worst == nil, hands && worst.From != pneumatics.Loading:
			worst = p
		case hands == (worst.From == pneumatics.Loading) && p.Energy > worst.Energy:
			worst = p
		}
	}
	return worst
}

// ventTrapped counts the volumes that have no open way out in some way of emptying.
func ventTrapped(a *assessment.Assessment, v *finding.Verdict) {
	v.Source = VentRule
	e := a.Emptying
	if v.UnknownFor(e.Trouble) {
		return
	}
	names := e.Trapped()
	v.Judge(float64(len(names)), 0)
	if len(names) == 0 {
		v.Why = finding.Words("every volume has an open way out on shutdown and without power, from every state")
		emptiedByHand(a, v)
		return
	}
	v.Why = finding.Words("trapped: " + strings.Join(names, ", "))
	var missing []finding.Text
	seen := map[string]bool{}
	for _, c := range e.Cases {
		if len(c.Missing) != 0 && !seen[c.Volume] {
			seen[c.Volume] = true
			missing = append(missing, c.Missing)
		}
	}
	v.Advice = finding.Say("Missing: %s.", finding.Join(missing, "; "))
}

// gaugeReadable judges whether each gauge can show the target at all.
func gaugeReadable(a *assessment.Assessment, v *finding.Verdict) {
	v.Source = "own rule of this project; ISO 4414:2010, 5.2.8: residual pressure is indicated (V2: read in a secondary text)"
	v.Basis = finding.OnData
	l := a.Launcher
	if len(l.Gauges) == 0 {
		v.Unknown(finding.Say("missing: %s: nothing shows whether the launcher is empty", finding.KeyAs("gauge.range", "[gauge]")))
		return
	}
	most := math.Inf(-1)
	for i := range l.Gauges {
		g := &l.Gauges[i]
		if !g.Range.Set {
			v.Unknown(finding.Say("missing: %s", finding.Key("gauge.range")))
			return
		}
		if least, why := g.LeastReading(); least > most {
			most, v.Why = least, finding.Say("the gauge on %s: %s", g.On, why)
		}
	}
	v.Judge(most, a.Emptying.Target)
	v.Mend("A gauge of smaller range or better class, without a stop pin.")
	if v.Status == finding.Pass {
		whatNoGaugeShows(a, v)
	}
}

// beforeTheBarrel are the names of the volumes that a path into the barrel leads from which is open in a shot.
func beforeTheBarrel(l *launcher.Launcher) map[string]bool {
	carries, names := launcher.ReachOf(l).Paths, map[string]bool{}
	for i := range l.Paths {
		if p := &l.Paths[i]; carries[i] && p.To == "barrel" {
			names[p.From] = true
		}
	}
	return names
}

// whatNoGaugeShows judges the volumes that no gauge shows at some moment at which people go by one: armed, and as they empty. One that no
// gauge ever shows, not even as it is filled, and that the barrel is shot from, stands at whatever pressure unseen; of another a
// clock tells.
func whatNoGaugeShows(a *assessment.Assessment, v *finding.Verdict) {
	l, e := a.Launcher, a.Emptying
	shot, never, most := beforeTheBarrel(l), []string(nil), 0.0
	hidden, wait := e.Unseen(l, vent.Shutdown)
	lost, later := e.Unseen(l, vent.PowerLost)
	for _, name := range lost {
		if !slices.Contains(hidden, name) {
			hidden = append(hidden, name)
		}
	}
	for i := range e.Cases {
		c := &e.Cases[i]
		if n := l.Node(c.Volume); n >= 0 && c.Start > e.Target {
			if !slices.Contains(hidden, c.Volume) && dial.Showing(l, c.Volume, dial.Ready) == nil {
				hidden = append(hidden, c.Volume)
			}
			if shot[c.Volume] && !dial.Ever(l, c.Volume) {
				most = max(most, c.Start)
				if !slices.Contains(never, c.Volume) {
					never = append(never, c.Volume)
				}
			}
		}
	}
	if len(e.Cases) == 0 {
		hidden, wait = dial.Unseen(l, l.VolumeNames(), dial.PlugPulled), math.Inf(1)
	}
	switch wait = max(wait, later); {
	case len(never) > 0:
		v.Judge(most, e.Target)
		v.Why = finding.Say("no gauge ever shows %s: it can stand at up to %s unseen; a gauge behind a check valve, a regulator or a shut "+
			"valve, or beside an open hole of its own, shows another pressure", strings.Join(never, ", "), finding.WorstBar(most))
		v.Advice = finding.Say("A gauge on %s ([gauge] on; [[gauge]] for several).", strings.Join(never, ", "))
	case len(hidden) > 0 && math.IsInf(wait, 1):
		v.Unknown(finding.Say("no gauge shows %s once the valves between are shut, and nobody knows how long it takes to empty",
			strings.Join(hidden, ", ")))
	case len(hidden) > 0:
		names := strings.Join(hidden, ", ")
		v.Why = v.Why.Say("; no gauge shows %s once the valves between are shut", names)
		v.Advice = finding.Say("A gauge on %s.", names)
		if wait == 0 { // only while it is armed: as it empties one shows it
			v.HoldsWhile(finding.Say("while it is armed nobody takes what a gauge shows for the pressure in %s", names), finding.ItemVentTest)
			return
		}
		v.HoldsWhile(finding.Say("nobody takes a gauge at zero for an empty %s: after %s by a clock, its vent heard to begin and to end", names,
			finding.Second(math.Ceil(wait)).In(finding.Shortest, 4)), finding.ItemVentTest)
	}
}
