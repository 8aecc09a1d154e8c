package limits

import (
	"puffproof/pneumatics"
)

// A question is one kind of shot whose worst case over the tolerances is
// wanted: which scenario, what is changed in it, and what is measured.
type question struct {
	name     string
	startMax float64          // start pressures run from 0 to this [Pa gauge] of the sensed volume
	to       pneumatics.State // the state commanded; its zero value is never asked
	fromAll  []pneumatics.State
	// extra names further coordinates, each running over [0, 1].
	extra []string
	// adjust changes circuit and scenario after they are filled; extra holds the
	// further coordinates.
	adjust func(c *pneumatics.Circuit, sc *pneumatics.Scenario, extra []float64)
	// measure turns a result into the figure to be maximised; NaN: undetermined.
	measure func(c *pneumatics.Circuit, r *pneumatics.Result) float64
	// fixedSeat keeps the projectile at its rearmost seat.
	fixedSeat bool
}

// box is a question on a launcher with its coordinates laid out.
type box struct {
	l      *Launcher
	q      question
	bands  []int // indices into allShotBands of the coordinates
	labels []string
	start  int // index of the coordinate; -1: none
	seat   int
	from   int
	first  int // index of the first extra coordinate
	dim    int
}

// newBox lays out the coordinates of a question: every band of the design that
// can bear on the shot, then start pressure, seat, state before, extras.
func newBox(l *Launcher, q question) *box {
	b := &box{l: l, q: q, start: -1, seat: -1, from: -1}
	for i, band := range shotBands(l) {
		if band != nil && b.spans(band) {
			b.bands = append(b.bands, i)
			b.labels = append(b.labels, band.Key)
		}
	}
	add := func(label string) int {
		b.labels = append(b.labels, label)
		return len(b.labels) - 1
	}
	if q.startMax > 0 {
		b.start = add("start pressure")
	}
	if !q.fixedSeat && !l.Barrel.FixedSeat {
		b.seat = add("seating")
	}
	if len(q.fromAll) > 1 {
		b.from = add("state before")
	}
	b.first = len(b.labels)
	for _, e := range q.extra {
		add(e)
	}
	b.dim = len(b.labels)
	return b
}

// shotBands lists every band that can bear on a shot, in a fixed order; entries
// that cannot are nil, so that the list of a clone lines up with its original's.
func shotBands(l *Launcher) []*Band {
	out := []*Band{&l.Ambient.Pressure, &l.Ambient.Temperature}
	reach := reachOf(l)
	for i := range l.Volumes {
		out = append(out, only(reach.volumes[i], &l.Volumes[i].Volume))
	}
	for i := range l.Paths {
		p := &l.Paths[i]
		on := reach.paths[i]
		out = append(out, only(on, &p.Flow.Value), only(on, &p.Flow.CriticalRatio),
			only(on, &p.Flow.PressureDropRatio), only(on, &p.Flow.DischargeCoefficient),
			only(on && reach.opens[i], &p.OpeningTime), only(on && reach.closes[i], &p.ClosingTime), only(on, &p.Pulse))
		// A regulator or a check valve on the way of the charge sets where a shot
		// starts, even where nothing flows through it during the shot.
		regulator := p.Kind == pneumatics.Regulator
		out = append(out, only(regulator, &p.SetPressure), only(regulator, &p.Creep), only(on && regulator, &p.Droop),
			only(p.Kind == pneumatics.Check, &p.CrackingPressure))
		if p.Hose != nil {
			out = append(out, only(on, &p.Hose.Bore), only(on, &p.Hose.Length), only(on, &p.Hose.Conductance))
		}
	}
	b, j := &l.Barrel, &l.Projectile
	tube := b.Fit == pneumatics.OverTube
	gap := !j.Clearance.Set // the gap follows from the two diameters
	out = append(out,
		only(!tube, &b.Bore), only(!tube, &b.Travel), &b.DeadVolume,
		only(tube && gap, &b.TubeOuterDiameter), only(tube, &b.TubeInnerDiameter), only(tube, &b.Engagement),
		&j.Mass, only(!tube && gap, &j.Diameter), only(tube, &j.InsideDiameter), &j.Clearance,
		&j.Breakaway, &j.Restart, &j.Sliding)
	if l.Supply != nil {
		out = append(out, only(reach.supply, &l.Supply.FreeAir))
	}
	return out
}

func only(on bool, b *Band) *Band {
	if !on {
		return nil
	}
	return b
}

// reach tells which parts can bear on a shot: those with a path to the barrel
// that is open while firing, or was open before and takes time to close.
type reach struct {
	volumes, paths, opens, closes []bool
	supply                        bool
}

func reachOf(l *Launcher) reach {
	n := len(l.Paths)
	r := reach{paths: make([]bool, n), opens: make([]bool, n), closes: make([]bool, n)}
	carries := make([]bool, n)
	for i := range l.Paths {
		p := &l.Paths[i]
		before := p.OpenIn.Has(pneumatics.Charging) || p.OpenIn.Has(pneumatics.Armed)
		valve := p.Kind == pneumatics.Valve || p.Kind == pneumatics.HandValve
		firing := p.OpenIn.Has(pneumatics.Firing)
		switch {
		case !valve:
			carries[i] = p.Kind != pneumatics.Relief
		case firing:
			carries[i] = true
			r.opens[i] = true
		case before:
			carries[i] = p.ClosingTime.High > 0
			r.closes[i] = true
		}
	}
	links := l.links()
	reached := pneumatics.Reached(links, len(l.Volumes), pneumatics.BarrelNode, func(i int, _ pneumatics.Way) bool { return carries[i] })
	for i, k := range links {
		r.paths[i] = carries[i] && (reached.At(k.From) || reached.At(k.To))
	}
	r.volumes = reached.Volumes()
	r.supply = l.Supply != nil && l.supplyFires() && r.volumes[l.Node(l.Supply.Feeds)]
	return r
}

// supplyFires tells whether the supply may run during a shot: yes, unless the
// design says in which states it runs and firing is not one of them.
func (l *Launcher) supplyFires() bool {
	return l.Supply != nil && (!l.Supply.RunsInStated || l.Supply.RunsIn.Has(pneumatics.Firing))
}

// statesBefore lists the states a shot may start from as far as they differ:
// armed always; charging where a valve that is shut while armed is still open.
func (l *Launcher) statesBefore() []pneumatics.State {
	reach := reachOf(l)
	for i := range l.Paths {
		p := &l.Paths[i]
		if reach.paths[i] && p.OpenIn.Has(pneumatics.Charging) != p.OpenIn.Has(pneumatics.Armed) {
			return []pneumatics.State{pneumatics.Armed, pneumatics.Charging}
		}
	}
	return []pneumatics.State{pneumatics.Armed}
}

// point describes one point of the box for a reader.
func (b *box) point(u []float64) Point {
	all := shotBands(b.l)
	var out Point
	side := func(u float64) string {
		switch {
		case u <= 1e-6:
			return "low"
		case u >= 1-1e-6:
			return "high"
		}
		return "inside"
	}
	for k, i := range b.bands {
		out = append(out, Coordinate{Key: all[i].Key, Value: b.value(all[i], u[k]), Side: side(u[k])})
	}
	if b.start >= 0 {
		out = append(out, Coordinate{Key: "start pressure", Value: u[b.start] * b.q.startMax, Side: side(u[b.start])})
	}
	if b.seat >= 0 {
		out = append(out, Coordinate{Key: "seating", Value: u[b.seat], Side: side(u[b.seat])})
	}
	for i, e := range b.q.extra {
		out = append(out, Coordinate{Key: e, Value: u[b.first+i], Side: side(u[b.first+i])})
	}
	return out
}

// spans tells whether a band has more than one value.
func (b *box) spans(band *Band) bool {
	return band.Set && b.value(band, 1) > b.value(band, 0)
}

// value gives a band's value at u. The temperature runs up to the hottest the
// filled launcher can be.
func (b *box) value(band *Band, u float64) float64 {
	if band == &b.l.Ambient.Temperature {
		return band.Low + u*(b.l.hottest()-band.Low)
	}
	return band.Lerp(u)
}
