package limits

import (
	"fmt"
	"math"
	"strings"

	"puffproof/pneumatics"
)

// The items that reveal latent faults; their ids are stable.
const (
	itemVentTest   = "vent.test"
	itemLeakDown   = "leak-down"
	itemReliefTest = "relief.test"
	itemBore       = "restrictor.gauge"
	itemGauge      = "gauge.compare"
	itemSwitchTest = "switch.test"
)

// ownRule and practice are the sources of items that no document asks for.
const (
	ownRule  = "own rule of this project"
	practice = "common practice, no source"
)

// ventItems are what only a person can confirm about emptying.
func (j *judge) ventItems() {
	e := j.emptying
	j.item(Item{ID: itemVentTest, Title: "Time the emptying: pull the plug while armed, nothing loaded", Verdict: "vent.power-loss",
		Why:    "A vent that is blocked or a valve that sticks shows nowhere else." + j.revealedBy(itemVentTest),
		How:    "Charge, arm, cut the power, read the gauge by the stopwatch sheet of puffproof vent; once more by the switch. Before each event.",
		Expect: j.expectVent(), Source: ventRule})
	j.item(Item{ID: "vent.stays-empty", Title: "Watch the gauge for two minutes after it reads zero", Verdict: "vent.trapped",
		Why: "Air behind a check valve or a shut valve comes back later.", How: "All vents still open; then open the firing valve by hand, muzzle to the sky, nothing loaded.",
		Expect: j.expectRebound(), Source: ownRule})
	j.item(Item{ID: itemLeakDown, Title: "Leak-down test", Verdict: "vent.trapped",
		Why:    "A valve that leaks towards the barrel moves the projectile; one that leaks out hides a fault." + j.revealedBy(itemLeakDown),
		How:    "Charge to the cut-out, supply off, vents held shut, barrel empty: read after the settling time and ten minutes later.",
		Expect: j.expectLeakDown(), Source: practice})
	j.item(Item{ID: "open.tag", Title: "Open tag: a vent locked open while it is carried, stored or worked on", Verdict: "vent.trapped",
		Why: "What a gauge shows as zero can still shoot.", How: "A tag on the vent; the vent stays open until the next use.",
		Expect: fmt.Sprintf("at the target of %s all vessels together could still do at most %s", bar(e.Target), joule(e.Left)), Source: ownRule})
	if len(j.l.Gauges) > 0 {
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
	e := j.emptying
	worst := e.latestTest()
	if worst == nil || e.Trouble != "" {
		return ""
	}
	if math.IsInf(worst.Slowest, 1) {
		return worst.Volume + " does not empty: mend that first"
	}
	return fmt.Sprintf("from the cut-out, %s or less on every gauge after %s s at the latest, with the vents still open", bar(e.Target), significant(math.Ceil(worst.Slowest), 3))
}

func (j *judge) expectRebound() string {
	most, name := 0.0, ""
	for _, c := range j.emptying.Cases {
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

// expectLeakDown says how much of a fall is only the air cooling after the fill:
// filled fast without heat to the walls, an ideal gas from ambient pressure and
// temperature ends at
//
//	T = p/(pa/Ta + (p - pa)/(gamma Ta))
//
// and falls to p Ta/T as it cools (fill from a reservoir at Ta; for instance
// Moran and Shapiro, Fundamentals of Engineering Thermodynamics, chapter 4, from
// memory; checked in pneumatics, TestAdiabaticFill).
func (j *judge) expectLeakDown() string {
	start := j.l.nominalStart()
	if start <= 0 {
		return ""
	}
	settled, seconds := j.l.settling(start)
	return fmt.Sprintf("from %s it may settle to %s in the first %s s only because the air cools; from then on no more than the gauge can show in ten minutes",
		bar(start), bar(settled), significant(seconds, 2))
}

// settling gives the gauge pressure [Pa] to which a fast filled sensed volume
// falls as its gas cools to the walls, and the time by which all but a twentieth
// of that fall has happened [s], by natural convection.
func (l *Launcher) settling(start float64) (gauge, seconds float64) {
	pa, ta := l.Ambient.Pressure.Nominal, l.Ambient.Temperature.Nominal
	p := pa + start
	gamma := l.gas().Gamma
	t := p / (pa/ta + (p-pa)/(gamma*ta))
	settled := p * ta / t
	v := l.Volumes[l.Node(l.Sensed())]
	c := &pneumatics.Circuit{Gas: l.gas(), Ambient: pneumatics.Ambient{Pressure: pa, Temperature: ta},
		Volumes: []pneumatics.Volume{{Name: v.Name, Volume: v.Volume.Nominal, InnerDiameter: v.InnerDiameter.Nominal}}}
	var sim pneumatics.Sim
	r := sim.Run(c, &pneumatics.Scenario{NoProjectile: true, Heat: pneumatics.Convection, Until: 3600, Volumes: []pneumatics.Condition{{Pressure: p, Temperature: t}}},
		pneumatics.Options{Settle: true, Tolerance: 1e-6, Watch: []pneumatics.Watch{{Pressure: settled + 0.05*(p-settled)}}})
	return settled - pa, orInf(r.WatchTimes[0])
}

func (j *judge) expectGauge() string {
	var parts []string
	for i := range j.l.Gauges {
		g := &j.l.Gauges[i]
		size, _ := g.errorSize()
		parts = append(parts, fmt.Sprintf("the gauge on %s within %s", g.On, bar(size)))
	}
	return strings.Join(parts, ", ")
}
