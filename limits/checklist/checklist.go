package checklist

import (
	"math"
	"slices"
	"strings"

	"puffproof/limits/assessment"
	"puffproof/limits/benchmark"
	"puffproof/limits/doubt"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/verdict"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// Of lists what only a person can confirm for this launcher, with the answers
// that its own [checklist], measured shots and logs give by the day of the question.
func Of(a *assessment.Assessment) []finding.Item { return InTurn(Answered(a)) }

// Answered is the same, each answer by itself, whatever stands before it in the order of doing.
func Answered(a *assessment.Assessment) []finding.Item {
	gauges := measure.PlanGauges(a.Launcher) // a dozen shots: once for all that asks
	items := []finding.Item{shotsItem(a, gauges)}
	if it, ok := launcher.TipItem(a.Launcher.Projectile, a.Launcher.Ambient); ok {
		if len(a.EnergyUnknown()) == 0 { // the work of a spring, F s/2
			it.Expect = it.Expect.Say(" Half of force times flattening comes to %s or more, the judged energy of a shot, before anything hard is "+
				"felt.",
				finding.WorstJoule(a.Energy.Judged))
			it.Figure.Work = a.Energy.Judged
		}
		items = append(items, it)
	}
	items = append(items, radiusItems(a.Limits.Tip)...)
	items = append(items, labelItem(a))
	if _, _, other := doubt.OtherPrint(a.Launcher); a.Launcher.Projectile.ContactDiameter.Set && !other {
		items = append(items, doubt.PrintItem(a.Launcher))
	}
	items = append(items, controlItems(a.Launcher)...)
	items = append(items, doubt.Items(a.Launcher)...)
	items = append(items, VentItems(a)...)
	items = append(items, FaultItems(a)...)
	items = append(items, practiceItems(a)...)
	items = append(items, hearingItems(a)...)
	items = append(items, commissioningItems(a, gauges)...)
	items = launcher.Answered(items, a.Launcher, a.Day)
	answeredBySeries(items, a.Launcher, a.Day)
	verdict.AnsweredByShots(&items[0], a.Measured)
	weakerByShots(items, a, gauges)
	answeredByLogs(items, a)
	secondLook(items)
	return alteredRecord(reopenedByDates(items, a.Stated, a.Day), a.Stated)
}

// shotsItem asks for measured shots; gauges are the pressures of the plan.
func shotsItem(a *assessment.Assessment, gauges []float64) finding.Item {
	var expect finding.Text
	if e := a.Energy; e != nil && len(a.NoStart) == 0 {
		// A chronograph at the muzzle reads what it leaves with, one further away what the air behind it has added.
		low, high := finding.Speed(e.NominalMax.MuzzleSpeed), finding.Speed(e.NominalMax.FinalSpeed)
		speed := low.To(high)
		if low.String() == high.String() {
			speed = finding.Say("%s", low)
		}
		about := finding.Say("about %s from %s", speed, whereFilled(a.Launcher))
		if math.IsNaN(e.NominalMax.FinalSpeed) {
			about = finding.Words("the nominal shot does not leave the barrel")
		}
		expect = finding.Say("%s; every shot below %s", about, finding.WorstJoule(e.Model))
	}
	return finding.Item{ID: finding.ItemShots, Title: finding.Words("Measure at least 5 shots at a known pressure"),
		Verdict: finding.EnergyTotal,
		Why:     finding.Words("A verdict on the model alone is not a measurement of this launcher."),
		How:     finding.Words("Chronograph or phone video, one pressure, at least two projectiles, every shot written down; nobody in front."),
		Expect:  expect, Figure: speeds(a), Asks: shotPressure(gauges, 2), Source: ownRule}
}

// speeds are what measured shots are told by: no shot is as hard as the worst of the model, by the lightest projectile. commission knows
// more of them, by its plan.
func speeds(a *assessment.Assessment) *finding.Expected {
	e := &finding.Expected{Unit: finding.InMetrePerSecond, Low: slowestShot, High: math.Inf(1), Least: 2, Times: measure.LeastShots}
	if m := a.Launcher.Projectile.Mass; a.Energy != nil && a.Energy.Model > 0 && m.Low > 0 {
		e.High = math.Sqrt(2 * a.Energy.Model / m.Low)
		if nominal := a.Energy.NominalMax.FinalSpeed; nominal > 0 { // which no search has to find
			e.High = max(e.High, nominal*math.Sqrt(worst.ModelFactor))
		}
	}
	return e
}

// slowestShot is what counts as a shot at all [m/s] (own rule of this project, no source): what falls out is none.
const slowestShot = 0.1

// shotPressure asks at what pressure shots were fired: near the n-th of the plan; nil: none is known.
func shotPressure(gauges []float64, n int) []finding.Asked {
	if at, ok := measure.PlanStep(n, len(gauges)); ok {
		return ShotPressure(gauges[at])
	}
	return nil
}

// ShotPressure asks whether shots were fired near a pressure of the plan [Pa gauge].
func ShotPressure(gauge float64) []finding.Asked {
	const near = 0.05 // of it (own rule of this project, no source)
	return []finding.Asked{{Expected: *finding.FigureBetween(finding.InPascalGauge, (1-near)*gauge, (1+near)*gauge),
		Name: "at what pressure they were fired"}}
}

// labelItem asks for the proof of ratings: each at least what the design states, with which all is computed, and what the part has to hold.
func labelItem(a *assessment.Assessment) finding.Item {
	var parts []finding.Text
	var named []finding.NamedPart
	var rated *finding.Expected // at least the lowest pressure that is asked of a part
	hoses, unrated := a.Launcher.HoseParts()
	for i, p := range slices.Concat(unrated, a.Parts(), hoses) {
		if !p.Rated.Set && i >= len(unrated) || math.IsNaN(p.Top) && i < len(unrated) {
			continue
		}
		least, stated := p.Top, finding.Stated{}
		if p.Rated.Set {
			stated = finding.Stated{Key: p.Name + ".rated_pressure", Value: p.Rated.Low}
			if !(least > stated.Value) { // nor a number: then the verdict on it is unknown
				least = stated.Value
			}
		}
		parts = append(parts, finding.Say("%s at least %s for air", p.Name, finding.Bar(least)))
		asked := finding.FigureBetween(finding.InPascalGauge, least, math.Inf(1))
		named = append(named, finding.NamedPart{Name: strings.TrimPrefix(p.Name, "volumes."), Expected: *asked, Stated: stated})
		if rated == nil {
			rated = finding.FigureBetween(finding.InPascalGauge, least, math.Inf(1))
		}
		rated.Low = min(rated.Low, least)
	}
	title := "Photograph the rating label of every vessel and of the barrel"
	if len(unrated) > 0 {
		title += ", and the print of every hose"
	}
	return finding.Item{ID: finding.ItemLabels, Title: finding.Words(title),
		Verdict: finding.VesselRating,
		Why:     finding.Words("rated_pressure and rated_for_gas are declarations until a label or a document shows them."),
		How:     finding.Words("Pressure, medium and temperature must be readable."), Expect: finding.Join(parts, ", "), Figure: rated,
		Parts:  named,
		Source: practice}
}

// radiusItems ask for a tip without a point, where it counts as rigid.
func radiusItems(tip launcher.Tip) []finding.Item {
	if tip == launcher.ResilientTip {
		return nil
	}
	b := benchmark.BenchmarkOf(benchmark.TipRadius)
	return []finding.Item{{ID: finding.ItemTipRadius, Title: finding.Words("Radius of the tip, which counts as rigid"),
		Verdict: finding.EnergyArea,
		Why: finding.Words("A point or an edge cuts and sticks at any energy: a nail, a pencil or a skewer as a core is one, also where " +
			"it stands behind foam."),
		How: finding.Words("Radius gauges on every edge and end that can meet somebody first, the foam pushed back by hand; or a coin of that " +
			"radius beside a photograph."),
		Expect: finding.Say("%s or more everywhere", finding.Millimetre(b.Value)),
		Figure: finding.FigureBetween(finding.InMetre, b.Value, math.Inf(1)), Source: b.Source()}}
}

// slotsExpected is how large the openings of a guard against sealed lips have to be.
func slotsExpected(l *launcher.Launcher) finding.Text {
	area, needed := l.SlotArea()
	if !needed {
		return nil
	}
	return finding.Say("openings of %s or more in all, of which no mouth and no hand covers all at once: at %s they pass what the firing "+
		"valve lets in", finding.SquareMillimetre(area), finding.Bar(benchmark.BenchmarkOf(benchmark.LungPressure).Value))
}

// slotsFigure is the area of the openings that a guard has to have; nil: none is needed.
func slotsFigure(l *launcher.Launcher) *finding.Expected {
	area, needed := l.SlotArea()
	if !needed {
		return nil
	}
	return finding.FigureBetween(finding.InSquareMetre, area, math.Inf(1))
}

// controlItems are what keeps other things than one projectile out of the barrel.
func controlItems(l *launcher.Launcher) (items []finding.Item) {
	add := func(it finding.Item) {
		it.Source = ownRule
		items = append(items, it)
	}
	b := &l.Barrel
	if !l.AnythingEnters() {
		add(finding.Item{ID: finding.ItemOneProjectile, Title: finding.Words("One projectile at a time, dry and not frozen"),
			Verdict: finding.MisuseOfObjects,
			Why:     finding.Words("Nothing else gets in, but two projectiles, a soaked or a frozen one may hit harder than a rigid one may."),
			How:     finding.Words("Look in before each load; squeeze each projectile; none that is wet, icy or hard.")})
	}
	if len(l.IntoBarrel()) > 1 {
		add(finding.Item{ID: finding.ItemOneBarrel, Title: finding.Words("Every valve into the barrel leads into this one barrel"),
			Verdict: finding.EnergyTotal,
			Why:     finding.Words("Several valves are judged as those of one barrel with one projectile; a second barrel needs a file of its own."),
			How:     finding.Words("Trace each hose with a finger from its valve to the breech.")})
	}
	for i, c := range b.ObjectControl {
		add(finding.Item{ID: finding.ObjectControlItem(i), Title: finding.Words("Keep up: " + c), Verdict: finding.MisuseOfObjects,
			Why: finding.Words("Without it anything in the barrel flies with more than the rigid limit."),
			How: finding.Words("Name the adult; try it on the day with the people who will do it.")})
	}
	if finding.Proves(finding.ItemSealGuard, b.SealGuard) != "" {
		add(finding.Item{ID: finding.ItemSealGuard, Title: finding.Words("Inspect the guard: " + b.SealGuard), Verdict: finding.MuzzleSealed,
			Why:    finding.Words("Sealed lips or an ear on the muzzle would take the whole charge."),
			How:    finding.Words("Uncharged, the pump unplugged: press a wet hand on it, blow in from the breech: air must still get past."),
			Expect: slotsExpected(l), Figure: slotsFigure(l)})
	}
	if b.MuzzleAdmits.Set {
		add(finding.Item{ID: finding.ItemMuzzleAdmits, Title: finding.Words("Inspect what the muzzle lets in"), Verdict: finding.MisuseOfObjects,
			Why: finding.Words("The list of objects was cut to those that pass the declared opening."), How: finding.Words("Try a drill shank of " +
				"the next size."),
			Expect: finding.Say("nothing above %s goes in", finding.Millimetre(b.MuzzleAdmits.High)),
			Figure: finding.FigureBetween(finding.InMetre, 0, b.MuzzleAdmits.High)})
	}
	if it := seatItem(b); it.ID != "" {
		add(it)
	}
	return items
}

// seatItem asks how deep the projectile sits: over a tube, where a hand can push it further on than any mark, and in a bore where a stop
// is to keep it from that. No ID: every seat is judged.
func seatItem(b *launcher.BarrelSpec) finding.Item {
	deepest, it := b.Travel, finding.Item{ID: finding.ItemSeatStop, Verdict: finding.EnergyTotal}
	switch {
	case b.Fit == pneumatics.OverTube:
		deepest = b.Engagement
		it.Title = finding.Words("How far the rocket goes over the tube, pushed right on")
		it.Why = finding.Words("No more than the stated engagement was judged, and a mark on the tube stops no hand: the end of the hollow or " +
			"a stop has to.")
		it.How = finding.Words("Push it on as hard as it goes, ten times, by two people, and measure how much of the tube is in it.")
	case b.FixedSeat:
		it.Title, it.Why = finding.Words("Inspect the stop that fixes the seating"), finding.Words("Only the stated travel was judged.")
		it.How = finding.Words("Load ten times by two people, push as hard as it goes, and measure the travel from there to the muzzle.")
	default:
		return finding.Item{}
	}
	it.Expect = finding.Say("%s at most", finding.Millimetre(deepest.High))
	it.Figure = &finding.Expected{Unit: finding.InMetre, Low: 0, High: deepest.High, Least: 2, Times: 10}
	return it
}
