package checklist

import (
	"math"
	"slices"
	"strings"

	"puffproof/limits/assessment"
	"puffproof/limits/dial"
	"puffproof/limits/drill"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/limits/verdict"
	"puffproof/pneumatics"
)

// FaultItems are the tests that reveal what nobody notices, and what holds where
// a single fault could shoot.
func FaultItems(a *assessment.Assessment) []finding.Item {
	items := append(append(reliefItems(a), controlTests(a)...), fillingItems(a)...)
	items = append(items, unaskedItems(a)...)
	items = append(items, barrelItem(a), jamItem(a), loadingItem(a))
	if a.Faults.RestsOn(finding.ItemNotFrozen) {
		items = append(items, fault.NotFrozenItem())
	}
	if a.Faults.RestsOn(finding.ItemWeighed) { // its figure is that of the fault: two commands search it each in its own way
		items = append(items, fault.WeighedItem(a.Launcher))
	}
	return append(items, forceItems(a)...)
}

// reliefItems are the tests of relief valves.
func reliefItems(a *assessment.Assessment) []finding.Item {
	l := a.Launcher
	relief := reliefBands(l)
	if len(relief) == 0 {
		return nil
	}
	lifts, full := reliefFigures(l)
	return []finding.Item{
		{ID: finding.ItemReliefTest, Title: finding.Words("Lift the relief valve three times, on a bench"), Verdict: finding.EnergyFault,
			Why: finding.Words(stickingShows(l) + revealed(a, finding.ItemReliefTest)), How: reliefHow(l),
			Expect: finding.Join(relief, "; "), Figure: lifts, Asks: full,
			Source: "ASME VIII-1 UG-134, ISO 4126-1 (V2: read in a secondary text) for the tolerances"},
		{ID: finding.ItemReliefShutOff, Title: finding.Words("No shut-off between vessel and relief valve"), Verdict: finding.ReliefCapacity,
			Why: finding.Words("A shut tap makes the relief valve useless."), How: finding.Words("Trace the pipe with a finger."),
			Source: "ASME VIII-1 UG-135(d) (V2: read in a secondary text)"},
	}
}

// reliefHow is the test of a relief valve: on a bench before it is fitted, and on the launcher only where nothing bursts
// if it sticks.
func reliefHow(l *launcher.Launcher) finding.Text {
	how := finding.Words("Before any air enters the launcher: screw it to a hand pump with a gauge between, nothing else joined, pump " +
		"slowly; it hisses as expected each time. Then as fast as the pump goes: the highest the " +
		"gauge reaches is what it is full by. Then fit it.")
	if why := drill.NoBridging(l); len(why) != 0 {
		how = how.Say(" On the launcher the supply is never let run on against it: %s.", why)
	}
	return how.Say(" Lift it by hand before each use.")
}

// stickingShows says when a relief valve that sticks is noticed.
func stickingShows(l *launcher.Launcher) string {
	if l.Stops() == launcher.StopRelief {
		return "It alone ends the filling: stuck shut, the pressure goes on to what the supply can push."
	}
	return "A relief valve that sticks shows only when the switch has failed too."
}

// controlTests are those of the switch and of what restricts the flow.
func controlTests(a *assessment.Assessment) (items []finding.Item) {
	if s := a.Launcher.Switch; s != nil {
		helped := ""
		if a.Launcher.Resting().Ends {
			helped = " Against what is open while it fills the supply comes to rest before that: a hand pump helps it, nothing is blocked for it."
		}
		items = append(items, finding.Item{ID: finding.ItemSwitchTest,
			Title: finding.Words("Cut-out on an independent gauge, ten cycles; seal the screw"), Verdict: finding.LadderOrder,
			Why: finding.Words("Every figure starts from it." + revealed(a, finding.ItemSwitchTest)),
			How: finding.Words("Set in three cycles, from below; then ten that nobody corrects. Read the highest the pointer reaches as the " +
				"supply stops, write down every reading, seal screw and lock nut with lacquer; again after test shots at a higher pressure." + helped),
			Expect: finding.Say("every reading between %s and %s", finding.Bar(s.CutOut.Low), finding.Bar(s.CutOut.High)),
			Figure: finding.SwitchTest(s.CutOut.Low, s.CutOut.High).Figure,
			Source: practice})
	}
	if len(a.Revealed[finding.ItemExhaust]) > 0 {
		items = append(items, finding.Item{ID: finding.ItemExhaust, Title: finding.Words("Blow through each exhaust port of the firing valve"),
			Verdict: finding.VentTrapped,
			Why:     finding.Words("A silencer clogs and ices, and shows it nowhere else." + revealed(a, finding.ItemExhaust)),
			How: finding.Words("Nothing loaded, no pressure anywhere, valve at rest: what is blown into the muzzle comes out of the exhaust " +
				"freely."),
			Source: practice})
	}
	if bores := boreParts(a.Launcher); len(bores) > 0 {
		how := finding.Words("The shank of the named drill goes in, the next size does not. After each repair; a bleed of the barrel before " +
			"each event.")
		if own := ownHoles(a.Launcher); len(own) > 0 {
			how = how.Say(" Unscrew the fittings at %s: the hole is drilled through the part itself, or is the valve's own seat; nothing "+
				"comes out.", finding.Join(own, ", "))
		}
		items = append(items, finding.Item{ID: finding.ItemBore, Verdict: finding.EnergyFault,
			Title:  finding.Words("Gauge every restrictor with a drill shank; check each hose by its print"),
			Why:    finding.Words("A missing or drilled-out restrictor raises the energy without a sign." + revealed(a, finding.ItemBore)),
			How:    how,
			Expect: boresOf(bores).And(hosePrints(a.Launcher)), Figure: spanOf(bores), Parts: bores, Source: practice})
	} else if hoses := hoseParts(a.Launcher); len(hoses) > 0 && len(a.Revealed[finding.ItemBore]) > 0 {
		items = append(items, hosesByPrint(a, hoses))
	}
	return items
}

// hosesByPrint is the same item where no hole is drilled: nothing else shows a hose that is wider than the list's.
func hosesByPrint(a *assessment.Assessment, hoses []finding.NamedPart) finding.Item {
	return finding.Item{ID: finding.ItemBore, Verdict: finding.EnergyFault, Title: finding.Words("Check each hose by its print"),
		Why:    finding.Words("A wider hose raises the energy without a sign." + revealed(a, finding.ItemBore)),
		How:    finding.Words("The bore that is printed on each hose, or a drill shank in its end, against the list. After each repair."),
		Expect: boresOf(hoses), Figure: spanOf(hoses), Parts: hoses, Source: practice}
}

// hoseParts are the hoses by the names of their paths, each with its bore.
func hoseParts(l *launcher.Launcher) (out []finding.NamedPart) {
	for i := range l.Paths {
		if p := &l.Paths[i]; p.Hose != nil && !p.Hose.Shared && p.Hose.Bore.Set {
			out = append(out, finding.NamedPart{Name: p.Name, Expected: *finding.FigureBetween(finding.InMetre, p.Hose.Bore.Low,
				p.Hose.Bore.High)})
		}
	}
	return out
}

// reliefBands are the pressures of the relief valves.
func reliefBands(l *launcher.Launcher) (out []finding.Text) {
	for i := range l.Paths {
		if p := &l.Paths[i]; p.Kind == pneumatics.Relief {
			out = append(out, finding.Say("%s starts to hiss between %s and %s, full by %s",
				p.Name, bar3(p.SetPressure.Low), bar3(p.SetPressure.High), bar3(p.FullFlowHigh())))
		}
	}
	return out
}

// reliefFigures are what the three lifts of each relief valve begin to hiss at, and what it is full by.
func reliefFigures(l *launcher.Launcher) (lifts *finding.Expected, full []finding.Asked) {
	lifts = finding.FigureBetween(finding.InPascalGauge, math.Inf(1), math.Inf(-1))
	wide := finding.FigureBetween(finding.InPascalGauge, math.Inf(1), math.Inf(-1))
	for i := range l.Paths {
		if p := &l.Paths[i]; p.Kind == pneumatics.Relief {
			lifts.Low, lifts.High, lifts.Least = min(lifts.Low, p.SetPressure.Low), max(lifts.High, p.SetPressure.High), lifts.Least+3
			wide.Low, wide.High = min(wide.Low, p.SetPressure.Low), max(wide.High, p.FullFlowHigh())
		}
	}
	return lifts, []finding.Asked{{Expected: *wide, Name: "the full flow", Behind: []string{"full by", "full at", "full flow", "full",
		"no higher than"}}}
}

// spanOf is from the smallest to the largest of what the parts may have, a figure for each.
func spanOf(parts []finding.NamedPart) *finding.Expected {
	e := finding.FigureBetween(finding.InMetre, math.Inf(1), 0)
	e.Least = len(parts)
	for _, p := range parts {
		e.Low, e.High = min(e.Low, p.Expected.Low), max(e.High, p.Expected.High)
	}
	return e
}

// ownHoles names the restrictors that are said to be no insert.
func ownHoles(l *launcher.Launcher) (out []finding.Text) {
	for i := range l.Paths {
		if p := &l.Paths[i]; p.Restrictor() && p.Flow.Removable == launcher.No {
			out = append(out, finding.Words(p.Name))
		}
	}
	return out
}

// boreParts are the restrictors, each with its own bore.
func boreParts(l *launcher.Launcher) (out []finding.NamedPart) {
	for i := range l.Paths {
		if p := &l.Paths[i]; p.Restrictor() {
			bore := finding.FigureBetween(finding.InMetre, p.Flow.Value.Low, p.Flow.Value.High)
			out = append(out, finding.NamedPart{Name: p.Name, Expected: *bore})
		}
	}
	return out
}

// hosePrints are the bores that the prints of the hoses have to say; nil: there is no hose.
func hosePrints(l *launcher.Launcher) finding.Text {
	if hoses := hoseParts(l); len(hoses) > 0 {
		return finding.Say("; inside of hoses, by their print: %s", boresOf(hoses))
	}
	return nil
}

// boresOf are the bores of parts in words.
func boresOf(parts []finding.NamedPart) finding.Text {
	var each []finding.Text
	for _, p := range parts {
		each = append(each, finding.Say("%s %s to %s", p.Name, finding.Millimetre(p.Expected.Low), finding.Millimetre(p.Expected.High)))
	}
	return finding.Join(each, ", ")
}

// unaskedItems are due where a single fault can shoot.
func unaskedItems(a *assessment.Assessment) []finding.Item {
	unasked := false
	for _, f := range a.Faults.Faults {
		unasked = unasked || f.Effect == fault.FiresUnasked && f.Energy > 0
	}
	if !unasked {
		return nil
	}
	return []finding.Item{
		{ID: finding.ItemTwoActions, Title: finding.Words("Two independent actions before a shot"), Verdict: finding.ShotUnasked,
			Why: finding.Words("One short, spike or finger must not shoot."),
			How: finding.Words("Uncharged, the pump unplugged, nothing loaded. Hold the firing button without the key: nothing. Turn the " +
				"key without the button: nothing. Pull each plug, touch each wire to the battery's plus."),
			Expect: finding.Words("no click of the firing valve in any of them"), Source: ownRule},
		{ID: finding.ItemGuard, Title: finding.Words("A guard that keeps faces and fingers off the muzzle"), Verdict: finding.ShotUnasked,
			Why:    finding.Words("A shot that nobody asked for comes when somebody looks."),
			How:    finding.Words("Uncharged, the pump unplugged: a probe as long as below, as wide as what the guard lets in, from every side."),
			Expect: guardExpects(a.Launcher), Figure: verdict.GuardItem(a.Launcher).Figure,
			Source: "ISO 13857, reach through openings (M: from memory)"},
	}
}

// guardExpects is how far a guard keeps off, by what the muzzle lets in.
func guardExpects(l *launcher.Launcher) finding.Text {
	opening := l.Admits()
	t := finding.Say("the probe does not reach the bore; through openings of %s at most it is %s long", finding.Millimetre(4e-3),
		finding.Millimetre(launcher.ReachDistance(4e-3)))
	if d := launcher.ReachDistance(opening); !math.IsInf(d, 1) && opening > 4e-3 {
		return t.Say(", through one as wide as the muzzle, %s, %s", finding.Millimetre(opening), finding.Millimetre(d))
	}
	return t
}

// watched2 is how long a gauge or a film is watched that is to show nothing [s].
const watched2 = 120

// barrelItem is the test that no air gets behind a loaded projectile before it is
// fired.
func barrelItem(a *assessment.Assessment) finding.Item {
	expect := finding.Words("no bubble at the muzzle")
	if hold, _ := vent.CreepsOut(a.Launcher, 1); hold > 0 {
		expect = expect.Say("; %s behind a loaded projectile would move it", finding.Bar(hold))
	}
	return finding.Item{ID: finding.ItemBarrelEmpty, Asks: []finding.Asked{finding.Lasting(watched2)},
		Title:   finding.Words("No air behind a loaded projectile while charged and armed"),
		Verdict: finding.ShotUnasked,
		Why:     finding.Words("A firing valve that leaks pushes the projectile out by and by, with nobody at the button."),
		How: finding.Words("Nothing loaded, muzzle pointing away from everyone: charge, arm, a film of soapy water over the muzzle for two " +
			"minutes. Before each event."),
		Expect: expect, Source: ownRule}
}

// jamItem is the drill for a projectile that does not leave.
func jamItem(a *assessment.Assessment) finding.Item {
	why, expect := finding.Words("it may leave later"), finding.Words("nobody's face or hand in line with the barrel at any time")
	for _, f := range a.Faults.Faults {
		if f.Mode == fault.Jammed {
			why = f.Consequence
		}
	}
	wait := 0.0
	if j := a.Faults.Jam; j != nil && j.AtOnce > 0 && !math.IsNaN(j.After.Wait) {
		wait = j.After.Wait
		expect = expect.Say("; nobody near for %s after it is off: freed before, it could get up to %s", finding.Second(j.After.Wait),
			finding.WorstJoule(j.AtOnce))
	}
	return finding.Item{ID: finding.ItemJamDrill, Title: finding.Words("Practise misfire and jam, with no air in it"),
		Verdict: finding.BarrelJammed, Why: finding.Say("A stuck projectile has pressure behind it: %s.", why),
		How:    finding.Say("Fired, and nothing flew, or less than all of it: %s Everyone who loads does it once.", drill.Jam(a.Launcher)),
		Expect: expect, Asks: finding.JamDrill(wait).Asks, Source: practice}
}

// loadingItem is the wait before a hand goes to the muzzle. It asks for a gauge only where one shows what empties: one on the other side
// of a shut valve shows nothing of it.
func loadingItem(a *assessment.Assessment) finding.Item {
	it := finding.Item{ID: finding.ItemLoadingWait,
		Title: finding.Words("Load only in state loading, after the wait, by a rammer with a stop"), Verdict: finding.LoadingEmpty,
		Why: finding.Words("Hands are at the muzzle."), Source: ownRule}
	air := a.Loading
	var shown []string
	for i := range a.Launcher.Volumes {
		if i >= len(air.Empty) || !air.Empty[i] {
			continue
		}
		g := dial.Showing(a.Launcher, a.Launcher.Volumes[i].Name, dial.HandsNear)
		if g != nil && !slices.Contains(shown, g.On) {
			shown = append(shown, g.On)
		}
	}
	if len(shown) > 0 {
		it.How = finding.Say("The gauge on %s reads zero first. ", strings.Join(shown, ", "))
	}
	wait := finding.Second(math.Ceil(air.Until())).In(finding.Shortest, 4)
	if unseen := strings.Join(air.Unseen(a.Launcher), ", "); unseen != "" {
		it.How = it.How.Say("No gauge shows whether %s is empty: wait %s by a clock, and hear its vent begin and end; or fit a gauge on it. ",
			unseen, wait)
	}
	it.How = it.How.And(finding.Words("No hand over the bore; look in before each load."))
	if len(air.Names) > 0 || len(air.Slow) > 0 {
		it.Figure = finding.FigureBetween(finding.InSecond, math.Ceil(air.Until()), math.Inf(1))
		it.Expect = finding.Say("at least %s between the last charge and a hand at the muzzle", wait)
	}
	return it
}

// forceItems give the forces on end caps, plugs and loose hoses.
func forceItems(a *assessment.Assessment) (items []finding.Item) {
	high, ok := vent.StartPressures(a.Launcher)
	if !ok {
		return nil
	}
	top := 0.0
	for _, p := range high {
		top = max(top, p)
	}
	if caps, forces := capForces(a.Launcher, high, top); len(caps) > 0 {
		items = append(items, finding.Item{ID: finding.ItemEndCaps, Verdict: finding.VesselRating,
			Title: finding.Words("End caps, plugs and fittings hold their force; a shield around home-made vessels"),
			Why:   finding.Words("A cap that lets go flies."),
			How: finding.Words("Threads fully in, pins and clamps seated; a hydraulic proof test, never one with air (common practice, from " +
				"memory: 1.5 times), of anything home-made."),
			Expect: finding.Say("force on each at a single fault: %s", finding.Join(caps, ", ")), Source: practice,
			May: &finding.Expected{Unit: finding.InNewton, Low: slices.Min(forces), High: math.Inf(1), Reach: slices.Max(forces)}})
	}
	if hoses := looseHoses(a.Launcher, top); len(hoses) > 0 {
		items = append(items, finding.Item{ID: finding.ItemHoseRestraint, Title: finding.Say("Hoses clipped every %s, sleeved and restrained",
			finding.Millimetre(0.2)), Verdict: finding.VesselRating,
			Why: finding.Words("A hose that comes off whips."), How: finding.Words("Pull at each fitting by hand."),
			Expect: finding.Say("a loose end pushes with up to: %s", finding.Join(hoses, ", ")), Source: practice})
	}
	return items
}

// capForces are the forces on the end caps of the volumes, at the pressure of each,
// and on a plug in the barrel, at the highest of all [Pa gauge], in words and in newtons.
func capForces(l *launcher.Launcher, high []float64, top float64) (out []finding.Text, forces []float64) {
	for i, v := range l.Volumes {
		if d := v.InnerDiameter; d.Set {
			forces = append(forces, high[i]*launcher.Circle(d.High))
			force := finding.Say("%s %s", v.Name, finding.Newton(forces[len(forces)-1]))
			if d.Assumed {
				force = force.Say(" (%s inside, assumed)", finding.Millimetre(d.High))
			}
			out = append(out, force)
		}
	}
	if b := l.Barrel.Bore; b.Set {
		forces = append(forces, top*launcher.Circle(b.High))
		out = append(out, finding.Say("a plug in the barrel %s", finding.Newton(forces[len(forces)-1])))
	}
	return out, forces
}

// looseHoses are the forces on loose ends of the hoses.
func looseHoses(l *launcher.Launcher, top float64) (out []finding.Text) {
	for i := range l.Paths {
		if h := l.Paths[i].Hose; h != nil && !h.Shared {
			f := fault.Thrust(launcher.Circle(h.Bore.High), top, l.Ambient.Pressure.Nominal, l.GasModel().Gamma)
			out = append(out, finding.Say("%s %s", l.Paths[i].Name, finding.Newton(f)))
		}
	}
	return out
}

// bar3 is a pressure [Pa gauge] that a gauge is held against: what 1.05 bar may reach is no 1.0 bar.
func bar3(p float64) finding.Shown { return finding.Shown{Value: p, Unit: finding.Bars, Digits: 3} }
