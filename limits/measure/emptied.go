package measure

import (
	"fmt"
	"math"

	"puffproof/limits/halving"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// bounds is what a test says of a quantity, where that is not both ends of its band.
type bounds uint8

// What a test can say.
const (
	atLeast bounds = 1 << iota // it is no smaller than read: the high end stays as it was
	atMost                     // it is no larger than read: the low end stays as it was
)

// leastEmptying is the shortest time [s] of an emptying that a hand can stop: leastDelays times as long as it may be late.
const (
	leastEmptying = leastDelays * handDelay
	leastDelays   = 10
)

// timing is how far off the time of an emptying may be in either direction, and how much later it may have been stopped than started [s].
// A recording has one error, which is both.
func (b *BenchReading) timing() (off, late float64) {
	if b.TimeError > 0 {
		return b.TimeError, b.TimeError
	}
	return handTime, handDelay
}

// emptied is the path through which a vessel was emptied, or why its reading says nothing about it.
func emptied(l *launcher.Launcher, b *BenchReading) (at int, trouble string) {
	at = l.PathIndex(b.Path)
	if at < 0 {
		return at, fmt.Sprintf("line %d: the design has no path %q", b.Line, b.Path)
	}
	switch p := &l.Paths[at]; {
	case p.From == "barrel" || p.From == "atmosphere":
		return at, fmt.Sprintf("line %d: path %q does not come from a vessel", b.Line, b.Path)
	case p.To != "barrel" && p.To != "atmosphere":
		return at, fmt.Sprintf("line %d: path %q leads into %q, not into the open: what is behind it counts, too", b.Line, b.Path, p.To)
	case l.GaugeOn(p.From) == nil:
		return at, fmt.Sprintf("line %d: no gauge with a range or an error shows %q, which path %q empties: a gauge on another vessel shows "+
			"what comes through to it. Put a gauge there for the test, and say so in the design", b.Line, p.From, b.Path)
	}
	return at, ""
}

// emptiedBounds is what the time of an emptying says of the flow of its path, where something else bears on it. A hand is late, and air
// that comes in meanwhile makes it last longer: the flow is at least what was read. Air that leaves another way makes it
// shorter: it is at most that.
func emptiedBounds(l *launcher.Launcher, b *BenchReading) bounds {
	at := l.PathIndex(b.Path)
	if b.Kind != Emptying || at < 0 {
		return 0
	}
	var out bounds
	of := &l.Paths[at]
	_, late := b.timing()
	if b.Time < leastDelays*late || l.SupplyFires() && l.Supply.Feeds == of.From && openTogether(of, firing) {
		out = atLeast
	}
	for i := range l.Paths {
		if p := &l.Paths[i]; i != at && p.Kind != pneumatics.Relief && (p.Other == "" || p.Other != of.Name) && openTogether(of, statesOf(p)) {
			out |= alsoOpen(p, of.From)
		}
	}
	return out
}

// alsoOpen is what a path that is open as well does to the time in which a volume empties.
func alsoOpen(p *launcher.PathSpec, volume string) (out bounds) {
	switch {
	case p.To == volume:
		out |= atLeast
	case p.From == volume && p.To != "atmosphere" && p.To != "barrel" && !p.Kind.OneWay():
		out |= atLeast
	}
	if p.From == volume || p.To == volume && p.From == "atmosphere" && !p.Kind.OneWay() {
		out |= atMost
	}
	return out
}

var firing = pneumatics.SetOf(pneumatics.Firing)

// statesOf are the states in which a path may be open: all of them where nothing shuts it.
func statesOf(p *launcher.PathSpec) pneumatics.StateSet {
	if p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve {
		return p.OpenIn
	}
	return pneumatics.SetOf(pneumatics.States()...)
}

// openTogether tells that a path is open in one of some states.
func openTogether(p *launcher.PathSpec, states pneumatics.StateSet) bool {
	return statesOf(p)&states != 0
}

// emptyEnd keeps of an emptying what it can tell.
func emptyEnd(was launcher.Band, now launcher.Band, of bounds) launcher.Band {
	if of&atLeast != 0 {
		now.High = math.Max(now.High, was.High)
		now.Reason = now.Reason.Say("; the flow is at least that: other air, or a hand that is late, makes it last longer")
	}
	if of&atMost != 0 {
		now.Low = math.Min(now.Low, was.Low)
		now.Reason = now.Reason.Say("; the flow is at most that: air leaves another way, too")
	}
	now.Nominal = math.Min(math.Max(now.Nominal, now.Low), now.High)
	return now
}

// emptyTest: the flow with which the model's vessel falls from one gauge reading
// to the other in the measured time, through the one path open to the air, with
// natural convection at the wall. A hand is late at either end, and the path opens meanwhile.
func emptyTest(l *launcher.Launcher, b *BenchReading) (func([]float64) float64, []errorSource, string, string) {
	at, trouble := emptied(l, b)
	if trouble != "" {
		return nil, nil, "", trouble
	}
	knob, _ := flowKnob(&l.Paths[at].Flow)
	if knob == nil || !knob.Set {
		return nil, nil, "", fmt.Sprintf("line %d: path %q has no flow figure to correct", b.Line, b.Path)
	}
	v := l.Volumes[l.Node(l.Paths[at].From)]
	err := math.Max(l.AssumedGaugeError(v.Name, b.Gauge).High/4, 200) // one gauge reads both: most of its error is common
	off, late := b.timing()
	in := []errorSource{{"time", b.Time, off, random}, {"first reading", b.Gauge, err, random},
		{"last reading", b.GaugeEnd, err, random}, {"volume", v.Volume.Nominal, v.Volume.Width() / 2, systematic},
		{"hand and opening", 0, min(late+l.Paths[at].OpeningTime.High, 0.5*b.Time), systematic}}
	ambient := pneumatics.Ambient{Pressure: l.Ambient.Pressure.Nominal, Temperature: l.Ambient.Temperature.Nominal}
	path := l.Paths[at].Path(l)
	var sim pneumatics.Sim
	return func(x []float64) float64 {
		took := x[0] + x[4]
		if took <= 0 || x[2] <= 0 || x[1] <= x[2] {
			return math.NaN()
		}
		left := func(scale float64) float64 {
			c := &pneumatics.Circuit{Gas: l.GasModel(), Ambient: ambient,
				Volumes: []pneumatics.Volume{{Name: v.Name, Volume: x[3], InnerDiameter: v.InnerDiameter.Nominal}},
				Paths: []pneumatics.Path{{Name: path.Name, From: 0, To: pneumatics.Atmosphere, Kind: pneumatics.Orifice,
					Flow: path.Flow.Scaled(scale), Hose: path.Hose}}}
			sc := &pneumatics.Scenario{Heat: pneumatics.Convection, Until: took,
				Volumes: []pneumatics.Condition{{Pressure: ambient.Pressure + x[1], Temperature: ambient.Temperature}}}
			return sim.Run(c, sc, pneumatics.Options{Settle: true}).Volumes[0].Pressure - ambient.Pressure
		}
		low, high := 1e-3, 1.0
		for left(high) > x[2] {
			if low, high = high, 2*high; high > 1e3 {
				return math.NaN()
			}
		}
		low, high = halving.OnScale(low, high, 40, func(scale float64) bool { return !(left(scale) > x[2]) })
		return knob.Nominal * math.Sqrt(low*high)
	}, in, knob.Key, ""
}
