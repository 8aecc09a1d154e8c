package checklist

import (
	"math"
	"slices"
	"strings"

	"puffproof/limits/assessment"
	"puffproof/limits/drill"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/vent"
	"puffproof/pneumatics"
)

// commissioningItems are what is due once, between a built launcher and its first use.
func commissioningItems(a *assessment.Assessment, gauges []float64) (items []finding.Item) {
	l := a.Launcher
	if l.Electric() {
		items = append(items, dryControlItem(l))
	}
	if l.Control != nil && len(l.Control.Unknown()) == 0 {
		items = append(items, contactsItem(l))
	}
	items = append(items, waterItem(l)...)
	items = append(items, lowVentItem(a.Emptying)...)
	items = append(items, inPlaceItem(l)...)
	items = append(items, faultsTriedItem(a))
	items = append(items, weakerShotsItems(a, gauges)...)
	return append(items, finding.Item{ID: finding.ItemSecondLook, Title: finding.Words("A second person looks at all of it"),
		Verdict: finding.EnergyTotal, Why: finding.Words("Who built it sees what it should be, not what it is."),
		How: finding.Words("Somebody who neither built it nor took the readings goes through the record line by line with the launcher " +
			"beside it: each reading, each seal, each label; holds name, revision and serial in the design against what is marked on the " +
			"launcher; asks for one test of their own choice to be shown again, and may say no. Signing the safety file they write the last " +
			"letters of the record beside their name, as puffproof commission shows them that day, and keep a copy: a record that is taken back " +
			"later, or made for another launcher, ends in others."),
		Expect: finding.Words("initials of somebody who was at no step before"), Source: practice})
}

// contactsItem is each contact of the wiring tried by itself: what stands in series hides one that no longer opens.
func contactsItem(l *launcher.Launcher) finding.Item {
	names := l.Control.Tried()
	return finding.Item{ID: finding.ItemContacts, Title: finding.Words("Each contact of stop, key, remote and relays by itself"),
		Verdict: finding.ControlStop,
		Why: finding.Words("Of two contacts in series one can be welded for years: everything works, and the next one that welds takes " +
			"the stop away."),
		How: finding.Words("No air, nothing loaded, the source disconnected. A meter on ohms across one contact after the other, its wire off: " +
			"move its part, of a relay give its coil current alone. Each has to close and to open."),
		Expect: finding.Words("every contact opens by itself: " + strings.Join(names, ", ")), Source: practice}
}

// dryControlItem is what stops it, tried before there is air to stop.
func dryControlItem(l *launcher.Launcher) finding.Item {
	it := finding.Item{ID: finding.ItemDryControl, Title: finding.Words("Stop, key and remote, without air"), Verdict: finding.VentPowerLoss,
		Why: finding.Words("A stop that is wired the wrong way round shows itself here, and not with a full tank."),
		How: finding.Words("Supply unplugged, every gauge at zero, nothing loaded. Switch on, then one after the other: press the stop, turn " +
			"the key off, walk out of reach with the remote, pull the plug. Listen at each valve, and feel with breath which way is open. " +
			"Switched on again, nothing moves before it is armed anew."), Source: ownRule}
	var open, shut []string
	for i := range l.Paths {
		switch p := &l.Paths[i]; {
		case p.Kind != pneumatics.Valve:
		case p.Unpowered == pneumatics.Open:
			open = append(open, p.Name)
			it.Stands = append(it.Stands, finding.Stand{Name: p.Name, Open: true})
		case p.Unpowered == pneumatics.Closed:
			shut = append(shut, p.Name)
			it.Stands = append(it.Stands, finding.Stand{Name: p.Name})
		}
	}
	it.Stands = append(it.Stands, calledSo(l)...)
	var parts []finding.Text
	if len(open) > 0 {
		parts = append(parts, finding.Words("open: "+strings.Join(open, ", ")))
	}
	if len(shut) > 0 {
		parts = append(parts, finding.Words("shut: "+strings.Join(shut, ", ")))
	}
	if it.Expect = finding.Words("nothing fires, and the supply falls silent each time"); len(parts) > 0 {
		it.Expect = finding.Say("each time %s; nothing fires, and the supply falls silent", finding.Join(parts, "; "))
	}
	return it
}

// calledSo is how valves stand by the names that people give them: vents, where every valve to the atmosphere is open without power,
// and the firing valve, where every one to the barrel is shut. A part of the design that is called so goes by its own.
func calledSo(l *launcher.Launcher) (out []finding.Stand) {
	for _, kind := range []struct {
		to    string
		open  pneumatics.Position
		named []string
	}{{"atmosphere", pneumatics.Open, []string{"vent", "vents", "dump", "dumps"}},
		{"barrel", pneumatics.Closed, []string{"firing valve", "fire valve", "firing valves"}}} {
		some, all := false, true
		for i := range l.Paths {
			if p := &l.Paths[i]; p.Kind == pneumatics.Valve && p.To == kind.to {
				some, all = true, all && p.Unpowered == kind.open
			}
		}
		for _, name := range kind.named {
			own := slices.ContainsFunc(l.Paths, func(p launcher.PathSpec) bool { return p.Name == name })
			if some && all && !own {
				out = append(out, finding.Stand{Name: name, Open: kind.open == pneumatics.Open})
			}
		}
	}
	return out
}

// A vessel is proved at so many times its rating, and at little more (common practice, from memory).
const (
	proofLow  = 1.5
	proofHigh = 1.65
)

// waterItem proves with water what is home-made or whose rating nobody gave.
func waterItem(l *launcher.Launcher) []finding.Item {
	var parts []finding.Text
	figure := finding.FigureBetween(finding.InPascalGauge, math.Inf(1), 0)
	for i := range l.Volumes {
		v := &l.Volumes[i]
		if !ToProve(v) || !v.RatedPressure.Set {
			continue
		}
		low, high := proofLow*v.RatedPressure.High, proofHigh*v.RatedPressure.High
		parts = append(parts, finding.Say("%s %s", v.Name, finding.Bar(low).To(finding.Bar(high))))
		figure.Low, figure.High = min(figure.Low, low), max(figure.High, high)
	}
	if len(parts) == 0 {
		return nil
	}
	return []finding.Item{{ID: finding.ItemWaterTest, Title: finding.Words("Prove with water what is home-made or has no papers"),
		Verdict: finding.VesselRating, Why: finding.Words("Water that is let go does nothing; air of the same pressure throws splinters."),
		How: finding.Say("Off the launcher, filled with water to the last bubble, behind a board: a hand pump raises it in five steps, %s at "+
			"the top; dry outside, measured round before and after. Never with air.", vent.Minutes(600)),
		Expect: finding.Say("no drop, no growth that stays, at %s", finding.Join(parts, ", ")), Figure: figure,
		Asks:   []finding.Asked{finding.Lasting(600)},
		Source: practice}}
}

// ToProve tells whether a vessel has to be proved with water: home-made, or its rating is a guess.
func ToProve(v *launcher.VolumeSpec) bool {
	o := v.RatedPressure.Origin
	return v.HomeMade() || o == launcher.Estimated || o == launcher.Declared
}

// lowVentItem is the first emptying of all.
func lowVentItem(e *vent.Report) []finding.Item {
	t := e.LatestLowTest()
	if t == nil || len(e.Trouble) != 0 || math.IsInf(t.Slowest, 1) {
		return nil
	}
	latest := math.Ceil(t.Slowest)
	unread, _ := e.Unread()
	heard, says := heardEmpty(unread, t.Slowest)
	it := finding.Item{ID: finding.ItemVentLow, Verdict: finding.VentPowerLoss,
		Title: finding.Say("Time the emptying from a low pressure, %s", finding.Bar(t.Start)),
		Why:   finding.Words("The first air goes in by hand, and little of it: before more comes it must be known to come out."),
		How: finding.Say("Nothing loaded, muzzle to the sky, everyone behind it. A hand pump, or the supply for a moment, to %s on %s; "+
			"arm; pull the plug and start the watch; read when every gauge is at %s. Twice, and once by the stop.", finding.Bar(t.Start), t.Volume,
			finding.Bar(e.Target)).And(heard),
		Expect: finding.Say("%s or less on every gauge after %s at the latest%s", finding.Bar(e.Target),
			finding.Second(latest).In(finding.Shortest, 4), notTimed(latest)),
		Figure: finding.FigureBetween(finding.InSecond, quickest, latest), Asks: []finding.Asked{finding.EmptyAt(e.Target)}, Says: says,
		Source: ownRule}
	return []finding.Item{it}
}

// inPlaceItem is the relief valve against the whole supply, where a valve that sticks could not burst anything.
func inPlaceItem(l *launcher.Launcher) []finding.Item {
	if len(NotInPlace(l)) != 0 {
		return nil
	}
	low, high := drill.ReliefRest(l)
	return []finding.Item{{ID: finding.ItemReliefInPlace, Title: finding.Words("The relief valve on the launcher, against the whole supply"),
		Verdict: finding.ReliefCapacity,
		Why:     finding.Words("On the bench it opened; whether it carries what the supply delivers shows only here."),
		How: finding.Say("Every fitting read and marked for more than %s. Nothing loaded, muzzle to the sky, everyone away, one adult at the "+
			"plug: switch held closed until the gauge rests. Pull the plug at once if it goes on rising beyond. The steady reading goes into "+
			"the design as [bench] relief_steady.", finding.WorstBar(l.FailedSource().Supply.DeadHead.High)),
		Expect: finding.Say("it comes to rest between %s and %s", finding.Bar(low), finding.Bar(high)),
		Figure: finding.FigureBetween(finding.InPascalGauge, low, high), Source: practice}}
}

// NotInPlace says why the relief valve is not tried against the whole supply; nil: it is.
func NotInPlace(l *launcher.Launcher) finding.Text {
	i := l.ReliefOnSupply()
	switch {
	case i < 0:
		return finding.Words("there is no relief valve on what the supply fills")
	case l.Supply.DeadHead.Set && l.Supply.DeadHead.High <= l.Paths[i].SetPressure.Low:
		return finding.Words("the supply cannot push so far that it lifts")
	}
	return drill.NoBridging(l)
}

// faultsTriedItem is what can be made to fail on purpose.
func faultsTriedItem(a *assessment.Assessment) finding.Item {
	expect, figure := expectVent(a.Launcher, a.Emptying)
	if len(expect) != 0 {
		expect = finding.Say("nothing fires; each time %s", expect)
	}
	how := finding.Words("One at a time, everyone behind it: plug pulled while it charges; plug pulled while armed; stop pressed while it " +
		"charges; battery of the remote taken out while armed. ")
	if len(NotInPlace(a.Launcher)) != 0 && a.Launcher.Switch != nil { // what a bridged switch would do, and its wires might
		how = how.Say("Nobody touches the switch or its wires. ")
	}
	return finding.Item{ID: finding.ItemFaultsTried, Title: finding.Words("Faults tried on purpose, nothing loaded"),
		Verdict: finding.VentShutdown, Why: finding.Words("What fails on the day has been seen to fail before."),
		How:    how.Say("Time each until every gauge is empty, and write the slowest down."),
		Expect: expect, Figure: figure, Asks: emptyAt(figure, a.Emptying), Source: ownRule}
}

// weakerShotsItems are the shots before the measured ones at full pressure, where there is room for them.
func weakerShotsItems(a *assessment.Assessment, gauges []float64) (items []finding.Item) {
	steps := len(gauges)
	for n, one := range []struct{ id, title string }{
		{finding.ItemShotsWeak, "Measure at least 5 weak shots first"},
		{finding.ItemShotsMiddle, "Measure at least 5 shots between weak and full"},
	} {
		if _, ok := measure.PlanStep(n, steps); steps > 0 && !ok {
			continue
		}
		items = append(items, finding.Item{ID: one.id, Title: finding.Words(one.title), Verdict: finding.EnergyTotal,
			Why: finding.Words("A launcher that shoots harder than computed is to show it at a lower pressure first."),
			How: finding.Words("As puffproof plan says, at its pressure: chronograph or phone video, every shot written down; nobody in front. " +
				"A shot faster than the stop figure ends the day."), Figure: speeds(a), Asks: shotPressure(gauges, n), Source: ownRule})
	}
	return items
}

// weakerByShots answers the weaker shots by the file of measured ones that answers those at full pressure: each by a group of its own,
// nearer to its pressure of the plan than to that of another step. What is shot at full pressure alone shows nothing of what came first.
func weakerByShots(items []finding.Item, a *assessment.Assessment, gauges []float64) {
	full := &items[0]
	if full.Done == nil || full.Done.Shows == nil || gauges == nil {
		return
	}
	for n, id := range []string{finding.ItemShotsWeak, finding.ItemShotsMiddle} {
		i := finding.IndexOfItem(items, id)
		if _, ok := measure.PlanStep(n, len(gauges)); !ok || i < 0 || items[i].Done != nil {
			continue
		}
		low, high := gauges[n]/2, (gauges[n]+gauges[n+1])/2
		if n > 0 {
			low = (gauges[n-1] + gauges[n]) / 2
		}
		k := slices.IndexFunc(a.Measured.Groups, func(g measure.SpeedGroup) bool {
			return g.Shots >= measure.LeastShots && !g.Doubted && g.Gauge >= low && g.Gauge < high
		})
		if k < 0 {
			items[i].OpenWhy = finding.Say("%s has no %d shots at one pressure between %s and %s", full.Done.Who, measure.LeastShots,
				finding.Bar3(low), finding.Bar3(high))
			continue
		}
		g := &a.Measured.Groups[k]
		items[i].AnswerBy(full.Done.Who, finding.Say("%d shots at %s, the fastest %s", g.Shots, finding.Bar3(g.Gauge),
			finding.Speed(g.Fastest)))
	}
}

// secondLook opens that item again where nobody looked but whoever was at another step.
func secondLook(items []finding.Item) {
	i := finding.IndexOfItem(items, finding.ItemSecondLook)
	if i < 0 || items[i].Done == nil {
		return
	}
	var there []string // at another step, who did it and who watched
	for k := range items {
		if d := items[k].Done; k != i && d != nil && len(d.Shows) == 0 {
			there = append(there, finding.Names(d.Who)...)
		}
	}
	looked := finding.Names(items[i].Done.Who)
	if !slices.ContainsFunc(looked, func(name string) bool { return !finding.Known(there, name) }) {
		items[i].Reopen(finding.Say("%s was at other steps: somebody else has to look", strings.TrimSpace(items[i].Done.Who)))
	}
}
