package vent

import (
	"math"

	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
	"puffproof/pneumatics/filling"
	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/graph"
)

// LeakModel is the launcher sealed in state armed after a fill: the circuit, with
// one small orifice more from the volume that is read to the atmosphere.
type LeakModel struct {
	l      *launcher.Launcher
	c      pneumatics.Circuit // the leak is its last path
	volume int
	joined []bool  // volumes that are one with it while armed
	space  float64 // their volume together [m3]
	opens  string  // a path by which it empties while armed; "" it is sealed

	start    []float64 // pressures of all volumes when the read one is at the cut-out [Pa gauge]
	hot      []float64 // temperature of each volume after a fill from empty without heat to the walls [K]
	expected []float64 // with the heat that the jet stirs up [K]
	filling  float64   // time of that fill [s]; NaN: the supply's delivery is not known
	courses  map[leakKey]*LeakCourse
	sim      pneumatics.Sim
}

// leakKey names a course that was computed.
type leakKey struct{ area, start, warmth, length float64 }

// sealedTest says that the launcher is charged, armed and left alone.
func sealedTest() pneumatics.Scenario {
	return pneumatics.Scenario{From: pneumatics.Armed, To: pneumatics.Armed, NoProjectile: true}
}

// NewLeakModel seals a launcher whose fill ends at cutOut in the sensed volume [Pa
// gauge].
func NewLeakModel(l *launcher.Launcher, volume string, cutOut float64) *LeakModel {
	m := &LeakModel{l: l, volume: int(l.Node(volume)), courses: map[leakKey]*LeakCourse{}}
	l.Fill(&m.c)
	m.c.Supply = nil
	m.join()
	m.warm(cutOut)
	m.c.Paths = append(m.c.Paths, pneumatics.Path{Name: "leak", From: pneumatics.Node(m.volume), To: pneumatics.Atmosphere,
		Kind: pneumatics.Orifice})
	return m
}

// join finds what is one with the volume that is read, and whether a way out of it
// is open.
func (m *LeakModel) join() {
	sc := sealedTest()
	passes := func(i int, way graph.Way) bool {
		p := &m.c.Paths[i]
		held := p.Kind == pneumatics.Relief || p.Kind == pneumatics.QuickExhaust // shut by the pressure itself
		return !held && !p.Flow.IsZero() && p.OpeningAtLast(&sc) > 0 && (way == graph.Along || !p.Kind.OneWay())
	}
	links := m.c.Links()
	m.joined = graph.Reached(links, len(m.c.Volumes), pneumatics.Node(m.volume), func(i int, way graph.Way) bool {
		return links[i].BetweenVolumes() && passes(i, way)
	}).Volumes()
	for i, k := range links { // the last one is named
		out := k.From >= 0 && m.joined[k.From] && passes(i, graph.Along)
		back := k.To >= 0 && m.joined[k.To] && passes(i, graph.Against)
		if !k.BetweenVolumes() && (out || back) {
			m.opens = m.c.Paths[i].Name
		}
	}
	for i, on := range m.joined {
		if on {
			m.space += m.c.Volumes[i].Volume
		}
	}
}

// warm finds the pressures and temperatures at the end of a fill from empty: with
// what the jet of the supply stirs up at the walls as expected, without any heat to
// them as the bound. Where the supply's delivery is not known the bound is that of a fill at
// once, from a source at ambient temperature Ta:
//
//	T = p/(pa/Ta + (p - pa)/(gamma Ta))
//
// (fill from a reservoir; for instance Moran and Shapiro, Fundamentals of
// Engineering Thermodynamics, chapter 4, from memory; checked in pneumatics,
// TestAdiabaticFill).
func (m *LeakModel) warm(cutOut float64) {
	full := new(pneumatics.Circuit)
	m.l.Fill(full)
	pa, ta := full.Ambient.Pressure, full.Ambient.Temperature
	m.start, m.filling = m.l.HighStart(cutOut), math.NaN()
	m.hot, m.expected = make([]float64, len(full.Volumes)), make([]float64, len(full.Volumes))
	for i, g := range m.start {
		m.hot[i] = (pa + g) / (pa/ta + g/(full.Gas.Gamma*ta))
		m.expected[i] = m.hot[i]
	}
	if full.Supply == nil || full.Supply.Delivery(cutOut) <= 0 {
		return
	}
	sensed, empty := m.l.Node(m.l.Sensed()), make([]float64, len(full.Volumes))
	fillBy := func(heat pneumatics.Heat, temperatures []float64) float64 {
		t, end := filling.To(full, sensed, empty, cutOut, heat)
		for i := range end {
			temperatures[i] = end[i].Temperature
			m.start[i] = end[i].Pressure - pa
		}
		return t
	}
	fillBy(pneumatics.Adiabatic, m.hot)
	m.filling = fillBy(pneumatics.Stirring, m.expected)
}

// LeakCourse is the reading of a sealed volume: closely at first, while the gas
// cools, then over the whole time.
type LeakCourse struct{ first, all *Curve }

// firstPart is how long the close part is at most [s].
const firstPart = 120.0

// At interpolates the reading at a time [Pa gauge].
func (c *LeakCourse) At(t float64) float64 {
	if first := c.first.T; t < first[len(first)-1] {
		return c.first.At(t)
	}
	return c.all.At(t)
}

// Course is the reading of the sealed volume from start on [Pa gauge] with a leak
// of an effective area [m2]. warmth is 0 where the gas is as cold as the walls, 1
// after a fill without heat to them, and negative where it is colder than the
// walls, as after letting air out.
func (m *LeakModel) Course(area, start, warmth, length float64) (*LeakCourse, error) {
	key := leakKey{area, start, warmth, length}
	if c := m.courses[key]; c != nil {
		return c, nil
	}
	part := func(until float64) (*Curve, error) {
		r, pa, err := m.run(area, start, warmth, pneumatics.Options{Samples: 61}, until)
		if err != nil {
			return nil, err
		}
		c := &Curve{T: r.Trace.Time}
		for _, p := range r.Trace.Volumes[m.volume] {
			c.P = append(c.P, p-pa)
		}
		return c, nil
	}
	c := new(LeakCourse)
	var err error
	if c.first, err = part(min(length, firstPart)); err != nil {
		return nil, err
	}
	if c.all, err = part(length); err != nil {
		return nil, err
	}
	m.courses[key] = c
	return c, nil
}

// run seals the launcher for so long.
func (m *LeakModel) run(area, start, warmth float64, o pneumatics.Options, length float64) (*pneumatics.Result, float64, error) {
	sc := sealedTest()
	pa, ta := m.c.Ambient.Pressure, m.c.Ambient.Temperature
	sc.Heat, sc.Until = pneumatics.Convection, length
	if m.l.Model.Parts.NoWallHeat {
		sc.Heat = pneumatics.Isothermal // gas that never cools would hide a leak
	}
	share := 1.0
	if m.start[m.volume] > 0 {
		share = start / m.start[m.volume]
	}
	for i := range m.c.Volumes {
		g, t := m.start[i]*share, ta+max(warmth, 0)*(m.hot[i]-ta)+min(warmth, 0)*chilled*(m.hot[i]-ta)
		if m.joined[i] {
			g = start
		}
		sc.Volumes = append(sc.Volumes, pneumatics.Condition{Pressure: pa + g, Temperature: t})
	}
	m.c.Paths[len(m.c.Paths)-1].Flow = flow.Nozzle(area, 1)
	o.Settle, o.Tolerance = true, 1e-6
	r := m.sim.Run(&m.c, &sc, o).Clone()
	if r.Reason != "" {
		return nil, 0, &worst.WithheldError{What: "the leak-down", Reason: r.Reason}
	}
	if r.Time < length*(1-1e-9) {
		return nil, 0, &worst.WithheldError{What: "the leak-down", Reason: "it did not come to its end"}
	}
	return r, pa, nil
}

// chilled is how far below the walls the gas can be at the start, as a share of
// how far above them a fill can bring it (own rule of this project): air was let
// out before the test.
const chilled = 0.5

// warming is the rise of the reading from start on as the coldest gas warms up to
// the walls [Pa].
func (m *LeakModel) warming(start float64) float64 {
	ta := m.c.Ambient.Temperature
	return (m.c.Ambient.Pressure + start) * (ta/(ta-chilled*(m.hot[m.volume]-ta)) - 1)
}

// size describes a leak by its area at a start pressure [Pa gauge].
func (m *LeakModel) size(area, start float64) (LeakSize, error) {
	if math.IsInf(area, 1) {
		return LeakSize{area, start, math.Inf(1)}, nil
	}
	pa, ta := m.c.Ambient.Pressure, m.c.Ambient.Temperature
	s := LeakSize{Area: area, Air: flow.Nozzle(area, 1).MassFlow(m.c.Gas, pa+start, ta, pa, ta) * m.c.Gas.R * ta / pa}
	r, _, err := m.run(area, start, 0, pneumatics.Options{}, 60)
	if err != nil {
		return s, err
	}
	s.Minute = start - (r.Volumes[m.volume].Pressure - pa)
	return s, nil
}

// areaOf is the effective area that loses a share of the reading in a minute, at
// the rate of the start [m2].
func (m *LeakModel) areaOf(share, start float64) float64 {
	pa, ta := m.c.Ambient.Pressure, m.c.Ambient.Temperature
	perArea := flow.Nozzle(1, 1).MassFlow(m.c.Gas, pa+start, ta, pa, ta)
	return share / 60 * start * m.space / (m.c.Gas.R * ta) / perArea
}

// cooling is the time [s] from which the reading of a tight launcher falls by no
// more than rest [Pa], counted from the hottest fill with walls that take up heat
// as slowly as is possible, and the fall until then [Pa].
func (m *LeakModel) cooling(start, rest float64) (seconds, fall float64, err error) {
	end, pa, err := m.run(0, start, 1, pneumatics.Options{}, longestRead)
	if err != nil {
		return 0, 0, err
	}
	last := end.Volumes[m.volume].Pressure
	watch := []pneumatics.Watch{{Volume: m.volume, Pressure: last + rest}}
	r, _, err := m.run(0, start, 1, pneumatics.Options{Watch: watch}, longestRead)
	if err != nil {
		return 0, 0, err
	}
	seconds = OrInf(r.WatchTimes[0])
	if pa+start <= last+rest {
		seconds = 0 // it has settled before it begins
	}
	return seconds / slowestHeat, pa + start - last, nil
}

// expectedWarmth is how warm the gas is after the fill, as a share of the hottest.
func (m *LeakModel) expectedWarmth() float64 {
	ta := m.c.Ambient.Temperature
	if m.hot[m.volume]-ta < 1e-6 {
		return 0
	}
	return (m.expected[m.volume] - ta) / (m.hot[m.volume] - ta)
}
