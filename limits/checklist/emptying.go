package checklist

import (
	"math"
	"slices"
	"strings"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/limits/verdict"
)

// ownRule and practice are the sources of items that no document asks for.
const (
	ownRule  = "own rule of this project"
	practice = "common practice, no source"
)

// VentItems are what only a person can confirm about emptying, without the answers.
func VentItems(a *assessment.Assessment) []finding.Item {
	items := []finding.Item{ventTestItem(a), staysEmptyItem(a), leakDownItem(a), openTagItem(a)}
	if valves := a.Emptying.ByHand; len(valves) > 0 {
		items = append(items, handVentItem(valves, a.Emptying.Target))
	}
	if r := a.Emptying.RunsOn; r != nil && !(r.Known && r.Empty) {
		items = append(items, supplyOffItem(a.Launcher, a.Emptying))
	}
	if len(a.Launcher.Gauges) > 0 {
		items = append(items, gaugeItem(a))
	}
	return items
}

func ventTestItem(a *assessment.Assessment) finding.Item {
	expect, figure := expectVent(a.Launcher, a.Emptying)
	heard, says := heardEmpty(a.Emptying.Unread())
	return finding.Item{ID: finding.ItemVentTest, Title: finding.Words("Time the emptying: pull the plug while armed, nothing loaded"),
		Verdict: finding.VentPowerLoss,
		Why:     finding.Words("A vent that is blocked or a valve that sticks shows nowhere else." + revealed(a, finding.ItemVentTest)),
		How: finding.Words("Charge, arm, cut the power, read the gauge by the stopwatch sheet of puffproof vent; once more by the switch. " +
			"Before each event.").And(fromFault(a.Launcher, a.Emptying)).And(heard),
		Expect: expect, Figure: figure, Asks: emptyAt(figure, a.Emptying), Says: says, Source: verdict.VentRule}
}

// heardEmpty is how the emptying of volumes that no gauge shows is tried, and what an answer says of it: their vents are heard to begin,
// and to end in time [s]. nil: a gauge shows all of them.
func heardEmpty(unread []string, slowest float64) (how finding.Text, says []string) {
	if len(unread) == 0 || math.IsInf(slowest, 1) {
		return nil, nil
	}
	return finding.Say(" No gauge shows %s as it empties: fit one on it for the test, or hear its vent hiss at once and fall silent "+
		"within %s, and write that it hissed.",
		strings.Join(unread, ", "), finding.Second(math.Ceil(slowest)).In(finding.Shortest, 4)), finding.HeardEmpty()
}

// handVentItem is the hand that opens what does not open by itself.
func handVentItem(valves []string, target float64) finding.Item {
	return finding.Item{ID: finding.ItemVentByHand,
		Title:   finding.Say("Open by hand, each time it is switched off: %s", strings.Join(valves, ", ")),
		Verdict: finding.VentShutdown, Why: finding.Words("A hand valve stays as it was left: switched off and left alone, it stays full."),
		How: finding.Words("One named person does it, from the side; a tag at the switch says so. Switch off and do it, with the one who will " +
			"do it on the day."),
		Expect: finding.Say("every gauge at %s or less in the time of the stopwatch sheet", finding.Bar(target)),
		Figure: finding.VentByHand(target).Figure, Source: ownRule}
}

// emptyAt is what every gauge shows at the end of an emptying whose time is asked; nil: none is.
func emptyAt(figure *finding.Expected, e *vent.Report) []finding.Asked {
	if figure == nil {
		return nil
	}
	return []finding.Asked{finding.EmptyAt(e.Target)}
}

func staysEmptyItem(a *assessment.Assessment) finding.Item {
	zero := toldFromZero(a)
	return finding.Item{ID: finding.ItemStaysEmpty, Asks: []finding.Asked{finding.Lasting(watched2)},
		Title:   finding.Words("Watch the gauge for two minutes after it reads zero"),
		Verdict: finding.VentTrapped,
		Why:     finding.Words("Air behind a check valve or a shut valve comes back later."),
		How:     finding.Words("All vents still open; then open the firing valve by hand, muzzle to the sky, nothing loaded."),
		Expect:  finding.Say("%s or less on every gauge, for two minutes; ", finding.Bar(zero)).And(expectRebound(a.Emptying)),
		Figure:  finding.FigureBetween(finding.InPascalGauge, math.Inf(-1), zero), Source: ownRule}
}

// toldFromZero is the least pressure that no gauge of a launcher can tell from zero, at most the target [Pa gauge].
func toldFromZero(a *assessment.Assessment) float64 {
	zero := 0.0
	for i := range a.Launcher.Gauges {
		size, _ := a.Launcher.Gauges[i].ErrorSize()
		zero = max(zero, size)
	}
	if zero == 0 {
		return a.Emptying.Target
	}
	return min(zero, a.Emptying.Target)
}

func leakDownItem(a *assessment.Assessment) finding.Item {
	fall, over := mayFall(a)
	return finding.Item{ID: finding.ItemLeakDown, Title: finding.Words("Leak-down test"), Verdict: finding.VentTrapped,
		Why: finding.Words("A valve that leaks towards the barrel moves the projectile; one that leaks out hides a fault." + revealed(a,
			finding.ItemLeakDown)),
		How: finding.Say("Charge from empty to %s, arm, supply off, barrel empty, one room, no sun: tap the gauge, "+
			"read at the times of the leak-down sheet of puffproof vent, and let vent --leak-log judge the readings.", whereFilled(a.Launcher)),
		Expect: expectLeakDown(a).And(over), Figure: fall, Source: practice}
}

// LeakTestOf is the leak-down of the gauge that it is read off; nil: none can be done, or that gauge can tell nothing in an hour.
func LeakTestOf(l *launcher.Launcher, e *vent.Report) *vent.LeakTest {
	volume := vent.LogVolume(l, vent.Log{})
	i := slices.IndexFunc(e.Leaks, func(t vent.LeakTest) bool { return t.Volume == volume })
	if i < 0 {
		return nil
	}
	if t := &e.Leaks[i]; t.Opens == "" && !math.IsNaN(t.May) && !math.IsInf(t.Needed, 1) {
		return t
	}
	return nil
}

// mayFall is how far a gauge may fall in the leak-down, and in words over what time; where that is not known as far as it may be off,
// over ten minutes.
func mayFall(a *assessment.Assessment) (fall *finding.Expected, words finding.Text) {
	if t := LeakTestOf(a.Launcher, a.Emptying); t != nil {
		fall = finding.FigureBetween(finding.InPascalGauge, 0, t.May)
		fall.Spans = t.Needed - t.Settled
		return fall, finding.Say("; from %s to %s it falls by %s at most", vent.Minutes(t.Settled), vent.Minutes(t.Needed), finding.Bar(t.May))
	}
	fall = finding.FigureBetween(finding.InPascalGauge, 0, a.Launcher.SensedGaugeError())
	fall.Spans = 600
	return fall, nil
}

func openTagItem(a *assessment.Assessment) finding.Item {
	e := a.Emptying
	return finding.Item{ID: finding.ItemOpenTag,
		Title: finding.Words("Open tag: a vent locked open while it is carried, stored or worked on"), Verdict: finding.VentTrapped,
		Why: finding.Words("What a gauge shows as zero can still shoot."), How: finding.Words("A tag on the vent; the vent stays open until " +
			"the next use."),
		Expect: finding.Say("at the target of %s all vessels together could still do at most %s", finding.Bar(e.Target),
			finding.WorstJoule(e.Left)), Source: ownRule}
}

// supplyOffItem is the plug of a supply that would keep the launcher full.
func supplyOffItem(l *launcher.Launcher, e *vent.Report) finding.Item {
	why := finding.Say("A relay that is welded, or a stop that cuts the valves only, leaves the supply running: %s is then never empty, ",
		e.RunsOn.Volume)
	if e.RunsOn.Known {
		why = why.Say("it stands at up to %s.", finding.WorstBar(e.RunsOn.Most))
	} else {
		why = why.Say("and nobody knows how far it is filled.")
	}
	item := finding.SupplyOff(e.Target, e.Wait(l))
	var wait finding.Text
	if unseen, _ := e.Unseen(l, vent.Shutdown); len(unseen) > 0 {
		wait = finding.Say("; no gauge shows %s: %s by a clock, and its vent hissed and fell silent", strings.Join(unseen, ", "),
			finding.Second(e.Wait(l)).In(finding.Shortest, 4))
	}
	return finding.Item{ID: item.ID, Title: finding.Words("Pull the plug of the supply too, each time it is switched off"),
		Verdict: finding.VentShutdown, Why: why,
		How: finding.Words("Charge, switch off, leave the plug in: the supply falls silent and every gauge goes to zero. Then pull the plug, " +
			"within reach of whoever holds the stop, and read the gauges again. Before each hand at the muzzle."),
		Expect: finding.Say("%s or less on every gauge with the plug pulled", finding.Bar(e.Target)).And(wait),
		Figure: item.Figure, Asks: item.Asks, Source: ownRule}
}

func gaugeItem(a *assessment.Assessment) finding.Item {
	return finding.Item{ID: finding.ItemGaugeCompare, Title: finding.Words("Compare the gauge with an independent one"),
		Verdict: finding.GaugeReadable,
		Why:     finding.Words("Pressures are set and watched by it, and zero is read off it." + revealed(a, finding.ItemGaugeCompare)),
		How: finding.Say("A second gauge or a U-tube of water (%s) on the same volume, at zero and at %s. Before each event.",
			finding.MillibarsPerMetre.Of(9800, 2), whereFilled(a.Launcher)),
		Expect: expectGauge(a.Launcher), Figure: gaugeError(a.Launcher), Source: practice}
}

// quickest is the shortest time that a person stops with a watch [s] (common practice, no source): less was not timed.
const quickest = 0.2

// notTimed says below which time an emptying was not timed; nil where all of it may be over sooner.
func notTimed(latest float64) finding.Text {
	if latest <= quickest {
		return nil
	}
	return finding.Say("; less than %s is no reading of a stopwatch", finding.Second(quickest).With(1))
}

// whereFilled names the pressure of a filled launcher: the cut-out of a switch, else where the filling ends by itself.
func whereFilled(l *launcher.Launcher) string {
	if l.Stops() == launcher.StopSwitch {
		return "the cut-out"
	}
	return "where its filling ends"
}

// testedFrom says from what pressure the emptying is timed: the cut-out of a switch, else where the filling ends by itself.
func testedFrom(l *launcher.Launcher, t *vent.StopwatchTest) finding.Text {
	if l.Stops() == launcher.StopSwitch {
		return finding.Words(whereFilled(l))
	}
	return finding.Say("%s, up to %s", whereFilled(l), finding.WorstBar(t.High))
}

// fromFault tells apart the time of the test and the longer one of the verdict, which begins where only a fault brings the launcher;
// nil: they begin alike, or at a cut-out that people know.
func fromFault(l *launcher.Launcher, e *vent.Report) finding.Text {
	test, judged := e.LatestTest(), e.WorstOf(vent.PowerLost)
	if test == nil || judged == nil || l.Stops() == launcher.StopSwitch || !(judged.Start > test.High) ||
		math.IsInf(judged.Slowest, 1) {
		return nil
	}
	return finding.Say(" The %s of %s are longer: they begin at %s, where a fault or the heat brings it, which nobody sets up for a test.",
		finding.Second(judged.Slowest).In(finding.Upwards, 2), finding.VentPowerLoss, finding.WorstBar(judged.Start))
}

// expectVent is the time that the emptying may take, in words, and as the figure that
// an answer brings, with a pressure at the target if it names one. There are none
// where no test can be done, and no time closes the item where a volume stays full.
func expectVent(l *launcher.Launcher, e *vent.Report) (words finding.Text, figure *finding.Expected) {
	worst := e.LatestTest()
	if worst == nil || len(e.Trouble) != 0 {
		return nil, nil
	}
	latest := math.Ceil(worst.Slowest)
	words = finding.Say("from %s, %s or less on every gauge after %s at the latest, with the vents still open%s", testedFrom(l, worst),
		finding.Bar(e.Target), finding.Second(latest).In(finding.Shortest, 4), notTimed(latest))
	if math.IsInf(latest, 1) {
		words, latest = finding.Say("%s does not empty: mend that first", worst.Volume), 0
	}
	figure = finding.FigureBetween(finding.InSecond, min(quickest, latest), latest)
	return words, figure
}

// expectRebound is what a gauge may come back to after the emptying: that of the stopwatch tests, after which it is watched, and as
// their sheets tell it. From other starts, such as a fault's, it is another.
func expectRebound(e *vent.Report) finding.Text {
	most, name := 0.0, ""
	for i := range e.Tests {
		if t := &e.Tests[i]; !t.Trapped && t.Rebound > most {
			most, name = t.Rebound, t.Volume
		}
	}
	expect := finding.Words("it stays at zero and nothing hisses from the barrel")
	if name != "" {
		return expect.Say("; with the vent shut too early, at the target, %s can come back to %s as its air warms up", name,
			finding.WorstBar(most))
	}
	return expect
}

// expectLeakDown is what the gauge that a leak-down is read off should show.
func expectLeakDown(a *assessment.Assessment) finding.Text {
	volume := vent.LogVolume(a.Launcher, vent.Log{})
	for _, t := range a.Emptying.Leaks {
		if t.Volume != volume {
			continue
		}
		if t.Opens != "" {
			return finding.Say("nothing to hold: in state armed paths.%s is open on %s; close it off for the test", t.Opens, t.Volume)
		}
		expect := finding.Say("%s from %s: cooling alone takes it to about %s, to %s at the lowest, and is over after %s; after that it "+
			"stands, to what the gauge can show",
			t.Volume, finding.Bar(t.Start), finding.Bar(t.Start-t.Falls), finding.Bar(t.Start-t.FallsMost), vent.Minutes(t.Settled))
		switch {
		case math.IsInf(t.Needed, 1):
			return expect.Say(", but this gauge is too coarse to tell a leak in an hour")
		case !math.IsNaN(t.Needed):
			return expect.Say(", until %s (then no leak of more than %s a minute can hide)", vent.Minutes(t.Needed), finding.Bar(t.Loses))
		}
		return expect
	}
	return nil
}

// gaugeError is by how much the best of the gauges may differ from another one.
func gaugeError(l *launcher.Launcher) *finding.Expected {
	least := math.Inf(1)
	for i := range l.Gauges {
		size, _ := l.Gauges[i].ErrorSize()
		least = min(least, size)
	}
	return finding.FigureBetween(finding.InPascalGauge, -least, least)
}

// expectGauge is how well the gauges should agree with another one.
func expectGauge(l *launcher.Launcher) finding.Text {
	var parts []finding.Text
	for i := range l.Gauges {
		g := &l.Gauges[i]
		size, _ := g.ErrorSize()
		parts = append(parts, finding.Say("the gauge on %s within %s", g.On, finding.Bar(size)))
	}
	return finding.Join(parts, ", ")
}

// revealed names the latent faults that an item reveals, as a sentence; "" none.
func revealed(a *assessment.Assessment, item string) string {
	if parts := a.Revealed[item]; len(parts) > 0 {
		return " It reveals: " + strings.Join(parts, ", ") + "."
	}
	return ""
}
