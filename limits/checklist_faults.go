package limits

import (
	"fmt"
	"math"
	"strings"

	"puffproof/pneumatics"
)

// faultItems are the tests that reveal what nobody notices, and what holds where
// a single fault could shoot.
func (j *judge) faultItems() {
	l := j.Launcher
	if relief := l.reliefBands(); len(relief) > 0 {
		j.item(Item{ID: itemReliefTest, Title: "Lift the relief valve with the supply, three times", Verdict: "energy.fault",
			Why: "A relief valve that sticks shows only when the switch has failed too." + j.revealedBy(itemReliefTest),
			How: "Switch held closed, projectile out, muzzle to the sky, one adult at a distance; also lift it by hand before each use.", Expect: strings.Join(relief, "; "), Figure: l.reliefSpan(),
			Source: "ASME VIII-1 UG-134, ISO 4126-1 (V2: read in a secondary text) for the tolerances"})
		j.item(Item{ID: "relief.no-shut-off", Title: "No shut-off between vessel and relief valve", Verdict: "relief.capacity",
			Why: "A shut tap makes the relief valve useless.", How: "Trace the pipe with a finger.", Source: "ASME VIII-1 UG-135(d) (V2: read in a secondary text)"})
	}
	if s := l.Switch; s != nil {
		j.item(Item{ID: itemSwitchTest, Title: "Cut-out on an independent gauge, ten cycles; seal the screw", Verdict: "ladder.order",
			Why:    "Every figure starts from it." + j.revealedBy(itemSwitchTest),
			How:    "Approach from below, write down every reading, seal screw and lock nut with lacquer.",
			Expect: fmt.Sprintf("every reading between %s and %s", bar(s.CutOut.Low), bar(s.CutOut.High)), Figure: figureBetween(InPascalGauge, s.CutOut.Low, s.CutOut.High), Source: practice})
	}
	if bores := l.boreList(); len(bores) > 0 {
		j.item(Item{ID: itemBore, Title: "Gauge every restrictor with a drill shank; check each hose by its print", Verdict: "energy.fault",
			Why: "A missing or drilled-out restrictor raises the energy without a sign." + j.revealedBy(itemBore), How: "The shank of the named drill goes in, the next size does not. After each repair.",
			Expect: strings.Join(bores, ", "), Source: practice})
	}
	j.unaskedItems()
	j.barrelItem()
	j.item(Item{ID: itemJamDrill, Title: "Practise the jam drill", Verdict: "barrel.stalled", Why: "A stuck projectile has pressure behind it: " + j.jamWords() + ".",
		How: "Vent, wait, look from the side, never along the barrel, push it back with a rod. Everyone who loads does it once.", Expect: j.expectJam(), Source: practice})
	j.loadingItems()
	j.forceItems()
}

func (l *Launcher) reliefBands() []string {
	var out []string
	for i := range l.Paths {
		if p := &l.Paths[i]; p.Kind == pneumatics.Relief {
			out = append(out, fmt.Sprintf("%s starts to hiss between %s and %s, full by %s", p.Name, bar(p.SetPressure.Low), bar(p.SetPressure.High), bar(p.fullFlowHigh())))
		}
	}
	return out
}

// reliefSpan is from the lowest set pressure to the highest full flow.
func (l *Launcher) reliefSpan() *Expected {
	e := figureBetween(InPascalGauge, math.Inf(1), math.Inf(-1))
	for i := range l.Paths {
		if p := &l.Paths[i]; p.Kind == pneumatics.Relief {
			e.Low, e.High = min(e.Low, p.SetPressure.Low), max(e.High, p.fullFlowHigh())
		}
	}
	return e
}

func (l *Launcher) boreList() []string {
	var out []string
	for i := range l.Paths {
		p := &l.Paths[i]
		if p.Flow.Form == OrificeBore && p.Kind != pneumatics.Relief {
			out = append(out, fmt.Sprintf("%s %s to %s", p.Name, millimetre(p.Flow.Value.Low), millimetre(p.Flow.Value.High)))
		}
	}
	return out
}

// unaskedItems are due where a single fault can shoot.
func (j *judge) unaskedItems() {
	unasked := false
	for _, f := range j.Faults.Faults {
		unasked = unasked || f.Effect == FiresUnasked && f.Energy > 0
	}
	if !unasked {
		return
	}
	j.item(Item{ID: itemTwoActions, Title: "Two independent actions before a shot", Verdict: "shot.unasked",
		Why: "One short, spike or finger must not shoot.", How: "Hold the firing button without the key: nothing. Turn the key without the button: nothing. Pull each plug, cross each wire to the supply, nothing loaded.",
		Expect: "no click of the firing valve in any of them", Source: ownRule})
	j.item(Item{ID: itemGuard, Title: "A guard that keeps faces and fingers off the muzzle", Verdict: "shot.unasked",
		Why: "A shot that nobody asked for comes when somebody looks.", How: "A probe 100 mm long does not reach the bore from any side.", Source: ownRule})
}

// barrelItem is the test that no air gets behind a loaded projectile before it is
// fired.
func (j *judge) barrelItem() {
	expect := "no bubble at the muzzle"
	if hold, _ := j.Launcher.creepsOut(1); hold > 0 {
		expect += fmt.Sprintf("; %s behind a loaded projectile would move it", bar(hold))
	}
	j.item(Item{ID: "barrel.no-pressure", Title: "No air behind a loaded projectile while charged and armed", Verdict: "shot.unasked",
		Why: "A firing valve that leaks pushes the projectile out by and by, with nobody at the button.",
		How: "Nothing loaded, muzzle pointing away from everyone: charge, arm, a film of soapy water over the muzzle for two minutes. Before each event.", Expect: expect, Source: ownRule})
}

// expectJam names what the drill keeps harmless.
func (j *judge) expectJam() string {
	s := "nobody's face or hand in front of the muzzle at any time"
	for _, f := range j.Faults.Faults {
		if f.Mode == Jammed && f.Freed > 0 {
			s += "; a projectile that jams before the whole charge could get up to " + worstJoule(f.Freed)
		}
	}
	return s
}

func (j *judge) jamWords() string {
	for _, f := range j.Faults.Faults {
		if f.Mode == Jammed {
			return f.Consequence
		}
	}
	return "it may leave later"
}

func (j *judge) loadingItems() {
	air := j.loadingAir()
	expect := ""
	var figure *Expected
	if len(air.names) > 0 && !math.IsInf(air.wait, 1) {
		figure = figureBetween(InSecond, math.Ceil(air.wait), math.Inf(1))
		expect = fmt.Sprintf("at least %s s between the last charge and a hand at the muzzle", significant(math.Ceil(air.wait), 3))
	}
	j.item(Item{ID: "loading.wait", Title: "Load only in state loading, after the wait, by a rammer with a stop", Verdict: "loading.empty",
		Why: "Hands are at the muzzle.", How: "The gauge reads zero first; no hand over the bore; look in before each load.", Expect: expect, Figure: figure, Source: ownRule})
}

// forceItems give the forces on end caps, plugs and loose hoses.
func (j *judge) forceItems() {
	high, ok := j.Launcher.ventPressures()
	if !ok {
		return
	}
	var caps []string
	top := 0.0
	for i, v := range j.Launcher.Volumes {
		top = max(top, high[i])
		if d := v.InnerDiameter; d.Set {
			force := fmt.Sprintf("%s %s N", v.Name, significant(high[i]*circle(d.High), 2))
			if d.Assumed {
				force += fmt.Sprintf(" (%s inside, assumed)", millimetre(d.High))
			}
			caps = append(caps, force)
		}
	}
	if b := j.Launcher.Barrel.Bore; b.Set {
		caps = append(caps, fmt.Sprintf("a plug in the barrel %s N", significant(top*circle(b.High), 2)))
	}
	if len(caps) > 0 {
		j.item(Item{ID: "end-caps", Title: "End caps, plugs and fittings hold their force; a shield around home-made vessels", Verdict: "vessel.rating",
			Why: "A cap that lets go flies.", How: "Threads fully in, pins and clamps seated; a hydraulic proof test, never one with air (common practice, from memory: 1.5 times), of anything home-made.",
			Expect: "at a single fault: " + strings.Join(caps, ", "), Source: practice})
	}
	if hoses := j.Launcher.looseHoses(top); len(hoses) > 0 {
		j.item(Item{ID: "hose.restraint", Title: "Hoses clipped every 200 mm, sleeved and restrained", Verdict: "vessel.rating",
			Why: "A hose that comes off whips.", How: "Pull at each fitting by hand.", Expect: "a loose end pushes with " + strings.Join(hoses, ", "), Source: practice})
	}
}

func (l *Launcher) looseHoses(top float64) []string {
	var out []string
	for i := range l.Paths {
		if h := l.Paths[i].Hose; h != nil {
			f := Thrust(circle(h.Bore.High), top, l.Ambient.Pressure.Nominal, l.gas().Gamma)
			out = append(out, fmt.Sprintf("%s %s N", l.Paths[i].Name, significant(f, 2)))
		}
	}
	return out
}

// practiceItems are the hazards that only people can keep away, most important
// first.
func (j *judge) practiceItems() {
	ev := j.Launcher.Event
	landing := "nobody and no wheel where a projectile can come down"
	if ev != nil && ev.Wheels.Set {
		landing += fmt.Sprintf("; the nearest wheel is %s m from the muzzle", significant(ev.Wheels.Low, 2))
	}
	for _, it := range []Item{
		{ID: "landing.clear", Title: "Landing zone clear: adults collect, the vehicle stands", Verdict: "energy.total", Why: "Children run after a ball, to the wheels and into traffic.",
			How: "Shoot three with nobody there, in the day's wind, and mark where they come down.", Expect: landing},
		{ID: "control.key-and-stop", Title: "Key switch and remote stop in the hand of the adult in charge", Verdict: "shot.unasked", Why: "One person decides.",
			How: "Press the stop while it charges and while armed: it vents each time; two launchers never on one channel."},
		{ID: "mount.elevation", Title: "Barrel fixed in elevation by stops", Verdict: "energy.total", Why: "It must not point at faces.", How: "Push the barrel to both stops."},
		{ID: "electric.fuses", Title: "Every circuit fused below its wire's rating", Verdict: "", Why: "A short must not make fire or a shot.", How: "Read each fuse against wire and load; battery strapped, pump allowed to cool."},
		{ID: "vent.outlets", Title: "Vents and relief valve blow away from faces and ears, muffled", Verdict: "vent.points", Why: "They hiss at full pressure and blow grit.", How: "Hold a ribbon at each outlet; listen where the rider sits."},
		{ID: "muzzle.look-in", Title: "Cover, drain hole and a look in before each load", Verdict: "misuse.objects", Why: "A stone, a pen, water or a second ball shoots harder.", How: "Torch along the side; water poured in runs out."},
		{ID: "projectile.tug-and-bite", Title: "Tug and bite test of the projectile; counted in and out", Verdict: "projectile.choking", Why: "A bitten-off piece chokes.", How: "Pull and squeeze hard for ten seconds: no piece comes off."},
		{ID: "cold.drain", Title: "Drained, blown out and stored warm", Verdict: "vent.power-loss", Why: "Ice holds relief valve and vents shut and makes foam hard.", How: "Open the drain until dry; lift the relief valve by hand in the cold."},
		{ID: "age.retire", Title: "Age and cracks of vessels, hoses and foam", Verdict: "vessel.rating", Why: "Sun, oil mist and knocks weaken them.", How: "Bright light, finger nail over every edge; dates in the parts list; anything past its date goes."},
		{ID: "clear.round", Title: "Clear zone all round, also behind, and from walls", Verdict: "energy.total", Why: "Ricochets and a breech that lets go.", How: "Tape on the ground; eye protection and ear defenders inside it."},
	} {
		it.Source = practice
		j.item(it)
	}
}
