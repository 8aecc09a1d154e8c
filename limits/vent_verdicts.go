package limits

import (
	"fmt"
	"math"
	"strings"

	"puffproof/pneumatics"
)

// ventVerdicts judges vent.shutdown, vent.power-loss and vent.trapped.
func (j *judge) ventVerdicts() {
	j.timeVerdict("vent.shutdown", "Switched off: time to empty", Shutdown)
	j.timeVerdict("vent.power-loss", "Power lost: time to empty", PowerLost)
	j.pointsVerdict()
	v := j.newVerdict("vent.trapped", "Volumes with no open way out", InCount)
	v.Source = ventRule
	defer func() { j.add(v) }()
	e := j.Emptying
	if e.Trouble != "" {
		v.unknown(e.Trouble)
		return
	}
	names := e.trapped()
	v.judge(float64(len(names)), 0)
	if len(names) == 0 {
		v.Why = "every volume has an open way out on shutdown and without power, from every state"
		return
	}
	v.Why = "trapped: " + strings.Join(names, ", ")
	var missing []string
	seen := map[string]bool{}
	for _, c := range e.Cases {
		if c.Missing != "" && !seen[c.Volume] {
			seen[c.Volume] = true
			missing = append(missing, c.Missing)
		}
	}
	v.Advice = "Missing: " + strings.Join(missing, "; ") + "."
}

const ventRule = "own rule of this project; ISO 4414:2010, 5.2.8: stored energy vents or is isolated on shut-off (V2: read in a secondary text)"

// timeVerdict judges one kind of emptying by its slowest volume at the slow end
// of the tolerances, and by the shot that what is left could still do.
func (j *judge) timeVerdict(id, title string, kind VentKind) {
	v := j.newVerdict(id, title, InSecond)
	v.Source = ventRule
	v.Caveat = "slow end: coldest, narrowest, largest, without the cooling of the expanding air; a hose at its laminar flow near the target"
	defer func() { j.add(v) }()
	e := j.Emptying
	switch {
	case e.Trouble != "":
		v.unknown(e.Trouble)
		return
	case math.IsNaN(e.Within):
		v.unknown("missing: [venting] within: how long may emptying take")
		return
	}
	worst := e.worstOf(kind)
	within := e.Within
	if math.IsInf(worst.Slowest, 1) {
		never := -1.0
		v.Status, v.Limit, v.Margin = Fail, &within, &never
		v.Why = fmt.Sprintf("%s, %s: never down to the target of %s", worst.Scenario, worst.Volume, bar(e.Target))
		v.Advice = "Give it a way out: " + worst.Missing + "."
		if worst.Missing == "" {
			v.Advice = "A wider vent."
		}
		return
	}
	v.judge(worst.Slowest, within)
	v.Why = fmt.Sprintf("%s, %s from %s to %s", worst.Scenario, worst.Volume, worstBar(worst.Start), bar(e.Target))
	if v.Status == Fail {
		v.Advice = "A wider vent (puffproof vent --size says which), a smaller volume or less pressure."
		return
	}
	j.harmless(v, kind)
	if over := j.Launcher.Overcharge(); v.Status == Pass && !over.Known { // it may be filled to more
		v.unknown(fmt.Sprintf("%s; so emptying is known from %s only, in %s", over.Why, worstBar(worst.Start), roundedUp(worst.Slowest, 3)+" s"))
	}
}

// harmless fails a time verdict in time whose air can still do harm: by a shot
// from what is left, or by pushing a loaded projectile out on its way.
func (j *judge) harmless(v *Verdict, kind VentKind) {
	e := j.Emptying
	if e.TooHigh != "" {
		stated, _ := j.Launcher.statedTarget()
		v.judge(stated, e.Target)
		v.Unit, v.Basis = InPascalGauge, OnRule
		v.Why += "; but " + e.TooHigh
		v.Advice = "State a [venting] target of " + bar(e.Target) + " or less, and a time in which every volume gets there."
		return
	}
	if e.LeftShot > e.LeftLimit {
		v.judge(e.LeftShot, e.LeftLimit)
		v.Unit, v.Basis = InJoule, OnModel
		v.Why += fmt.Sprintf("; but a shot from the target pressure still has %s", joule(e.LeftShot))
		v.Advice = "A lower [venting] target."
		return
	}
	p := e.hardestPush(kind)
	if p == nil {
		return
	}
	energy := p.Energy * ModelFactor
	v.Why += fmt.Sprintf("; %s: it vents through the barrel and pushes a loaded projectile out with %s (shot.unasked)", p.Scenario, joule(energy))
	limit := e.LeftLimit
	switch {
	case p.From == pneumatics.Loading:
		v.Why += ", while hands are at the muzzle"
		limit = 0 // no energy is small enough
	case kind == PowerLost:
		v.Why += ": a shot that takes no action at all"
		limit = 0 // as in shot.unasked: a pulled plug asks nobody
	case Declared(j.Launcher.Barrel.SealGuard) == "":
		v.Why += ", and no guard keeps faces and fingers off the muzzle"
		limit = 0
	}
	if energy > limit && p.Bound {
		v.unknown(fmt.Sprintf("%s: it vents through the barrel, and what a loaded projectile does then could not be settled; the air could give it up to %s", p.Scenario, worstJoule(p.Energy)))
		v.Advice = "A vent that does not lead through the barrel, with the firing valve shut when off and without power."
		return
	}
	if energy > limit {
		v.judge(energy, limit)
		v.Unit, v.Basis = InJoule, OnModel
		v.Advice = "A vent that does not lead through the barrel, with the firing valve shut when off and without power."
	}
}

// hardestPush is the push of a kind with the most energy, one from state loading
// before all others; nil: none moves a projectile out.
func (e *VentReport) hardestPush(kind VentKind) *BarrelPush {
	var worst *BarrelPush
	for i := range e.Pushes {
		p := &e.Pushes[i]
		if p.Kind != kind || p.Speed <= 0 {
			continue
		}
		loading := p.From == pneumatics.Loading
		if worst == nil || (loading && worst.From != pneumatics.Loading) || (loading == (worst.From == pneumatics.Loading) && p.Energy > worst.Energy) {
			worst = p
		}
	}
	return worst
}

// gauges judges gauge.readable: can each gauge show the target at all.
func (j *judge) gauges() {
	v := j.newVerdict("gauge.readable", "Least pressure the gauge can show", InPascalGauge)
	v.Source, v.Basis = "own rule of this project; ISO 4414:2010, 5.2.8: residual pressure is indicated (V2: read in a secondary text)", OnData
	defer func() { j.add(v) }()
	if len(j.Launcher.Gauges) == 0 {
		v.unknown("missing: [gauge]: nothing shows whether the launcher is empty")
		return
	}
	worst := -1.0
	for i := range j.Launcher.Gauges {
		g := &j.Launcher.Gauges[i]
		if !g.Range.Set {
			v.unknown("missing: gauge.range")
			return
		}
		if least, why := g.leastReading(); least > worst {
			worst = least
			v.judge(least, j.Emptying.Target)
			v.Why = "the gauge on " + g.On + ": " + why
		}
	}
	if unseen := j.unseen(); len(unseen) > 0 {
		v.Why += "; no gauge shows " + strings.Join(unseen, ", ") + " once the valves between are shut"
	}
	if v.Status == Fail {
		v.Advice = "A gauge of smaller range or better class, without a stop pin."
	}
}

// unknownClass is the class of a gauge without one [percent of range] (common
// practice, no source); stopPinShare is the part of the range that a stop pin
// hides (from memory).
const (
	unknownClass = 4.0
	stopPinShare = 0.06
)

// leastReading is the least gauge pressure that the gauge can tell from zero
// [Pa]: its error, half a division, or what its stop pin hides.
func (g *GaugeSpec) leastReading() (pressure float64, why string) {
	pressure, why = g.errorSize()
	if half := g.Graduation.Nominal / 2; g.Graduation.Set && half > pressure {
		pressure, why = half, "half a division"
	}
	if pin := stopPinShare * g.Range.High; g.StopPin != No && pin > pressure {
		pressure, why = pin, "a stop pin hides the first 6 % of the range"
		if g.StopPin == Unanswered {
			why += " (stop_pin is not answered, which counts as yes)"
		}
	}
	return pressure, why
}

// errorSize is the largest error of the gauge [Pa].
func (g *GaugeSpec) errorSize() (pressure float64, why string) {
	switch {
	case g.Error.Set:
		return math.Max(math.Abs(g.Error.High), math.Abs(g.Error.Low)), "its stated error"
	case g.Class > 0:
		return g.Class / 100 * g.Range.High, fmt.Sprintf("class %.3g of its range", g.Class)
	}
	return unknownClass / 100 * g.Range.High, "its class is not stated and counts as 4"
}

// unseen lists the volumes that no gauge reads.
func (j *judge) unseen() []string {
	var out []string
	for i := range j.Launcher.Volumes {
		read := false
		for k := range j.Launcher.Gauges {
			read = read || j.Launcher.Gauges[k].On == j.Launcher.Volumes[i].Name
		}
		if !read {
			out = append(out, j.Launcher.Volumes[i].Name)
		}
	}
	return out
}
