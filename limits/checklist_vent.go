package limits

import (
	"fmt"
	"math"
	"strings"
)

// The items that reveal latent faults; their ids are stable.
const (
	itemVentTest   = "vent.test"
	itemLeakDown   = "leak-down"
	itemReliefTest = "relief.test"
	itemBore       = "restrictor.gauge"
	itemGauge      = "gauge.compare"
	itemSwitchTest = "switch.test"
	itemJamDrill   = "drill.jam"
	itemTwoActions = "unasked.two-actions"
	itemGuard      = "unasked.guard"
)

// ownRule and practice are the sources of items that no document asks for.
const (
	ownRule  = "own rule of this project"
	practice = "common practice, no source"
)

// ventItems are what only a person can confirm about emptying.
func (j *judge) ventItems() {
	e := j.Emptying
	j.item(Item{ID: itemVentTest, Title: "Time the emptying: pull the plug while armed, nothing loaded", Verdict: "vent.power-loss",
		Why:    "A vent that is blocked or a valve that sticks shows nowhere else." + j.revealedBy(itemVentTest),
		How:    "Charge, arm, cut the power, read the gauge by the stopwatch sheet of puffproof vent; once more by the switch. Before each event.",
		Expect: j.expectVent(), Figure: j.expectVentTime(), Source: ventRule})
	j.item(Item{ID: "vent.stays-empty", Title: "Watch the gauge for two minutes after it reads zero", Verdict: "vent.trapped",
		Why: "Air behind a check valve or a shut valve comes back later.", How: "All vents still open; then open the firing valve by hand, muzzle to the sky, nothing loaded.",
		Expect: j.expectRebound(), Source: ownRule})
	j.item(Item{ID: itemLeakDown, Title: "Leak-down test", Verdict: "vent.trapped",
		Why:    "A valve that leaks towards the barrel moves the projectile; one that leaks out hides a fault." + j.revealedBy(itemLeakDown),
		How:    "Charge from empty to the cut-out, arm, supply off, barrel empty, one room, no sun: tap the gauge, read at the times of the leak-down sheet of puffproof vent, and let vent --leak-log judge the readings.",
		Expect: j.expectLeakDown(), Source: practice})
	j.item(Item{ID: "open.tag", Title: "Open tag: a vent locked open while it is carried, stored or worked on", Verdict: "vent.trapped",
		Why: "What a gauge shows as zero can still shoot.", How: "A tag on the vent; the vent stays open until the next use.",
		Expect: fmt.Sprintf("at the target of %s all vessels together could still do at most %s", bar(e.Target), joule(e.Left)), Source: ownRule})
	if len(j.Launcher.Gauges) > 0 {
		j.item(Item{ID: itemGauge, Title: "Compare the gauge with an independent one", Verdict: "gauge.readable",
			Why: "Switch and relief valve are set by it, and zero is read off it." + j.revealedBy(itemGauge), How: "A second gauge or a U-tube of water (98 mbar per metre) on the same volume, at zero and at the cut-out. Before each event.",
			Expect: j.expectGauge(), Source: practice})
	}
}

// revealedBy names the latent faults that an item reveals.
func (j *judge) revealedBy(item string) string {
	if parts := j.reveals(item); len(parts) > 0 {
		return " It reveals: " + strings.Join(parts, ", ") + "."
	}
	return ""
}

func (j *judge) expectVent() string {
	e := j.Emptying
	worst := e.latestTest()
	if worst == nil || e.Trouble != "" {
		return ""
	}
	if math.IsInf(worst.Slowest, 1) {
		return worst.Volume + " does not empty: mend that first"
	}
	return fmt.Sprintf("from the cut-out, %s or less on every gauge after %s s at the latest, with the vents still open", bar(e.Target), significant(math.Ceil(worst.Slowest), 3))
}

// expectVentTime is the time that the test may show, with a pressure at the target if
// it names one.
func (j *judge) expectVentTime() *Expected {
	worst := j.Emptying.latestTest()
	if worst == nil || j.Emptying.Trouble != "" {
		return nil
	}
	latest := math.Ceil(worst.Slowest)
	if math.IsInf(latest, 1) {
		latest = 0 // it does not empty: no answer closes it
	}
	e := figureBetween(InSecond, 0, latest)
	e.Also = figureBetween(InPascalGauge, math.Inf(-1), j.Emptying.Target)
	return e
}

func (j *judge) expectRebound() string {
	most, name := 0.0, ""
	for _, c := range j.Emptying.Cases {
		if !c.Trapped && c.Rebound > most {
			most, name = c.Rebound, c.Volume
		}
	}
	s := "it stays at zero and nothing hisses from the barrel"
	if name != "" {
		s += fmt.Sprintf("; with the vent shut too early %s could come back to %s as its air warms up", name, bar(most))
	}
	return s
}

func (j *judge) expectGauge() string {
	var parts []string
	for i := range j.Launcher.Gauges {
		g := &j.Launcher.Gauges[i]
		size, _ := g.errorSize()
		parts = append(parts, fmt.Sprintf("the gauge on %s within %s", g.On, bar(size)))
	}
	return strings.Join(parts, ", ")
}
