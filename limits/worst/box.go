package worst

import (
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// Question is one kind of shot whose worst case over the tolerances is wanted: which
// scenario, what is changed in it, and what is measured.
type Question struct {
	Name     string
	StartMax float64            // start pressures run from 0 to this [Pa gauge] of the sensed volume
	to       pneumatics.State   // the state commanded; its zero value is never asked
	FromAll  []pneumatics.State // the states it may start from
	// Extra names further coordinates, each running over [0, 1].
	Extra []string
	// Adjust changes circuit and scenario after they are filled; extra holds the
	// further coordinates.
	Adjust func(c *pneumatics.Circuit, sc *pneumatics.Scenario, extra []float64)
	// Measure turns a result into the figure to be maximised; NaN: undetermined.
	Measure func(c *pneumatics.Circuit, r *pneumatics.Result) float64
	// FixedSeat keeps the projectile at its rearmost seat.
	FixedSeat bool
}

// Box is a question on a launcher with its coordinates laid out.
type Box struct {
	Launcher *launcher.Launcher
	Question Question
	Bands    []int    // indices into ShotBands of the first coordinates
	Labels   []string // of all coordinates
	Start    int      // index of the start pressure; -1: none
	Seat     int      // index of the seat; -1: none
	From     int      // index of the state before; -1: none
	first    int      // index of the first extra coordinate
	Dim      int      // how many coordinates there are
}

// NewBox lays out the coordinates of a question: every band of the design that
// can bear on the shot, then start pressure, seat, state before, extras.
func NewBox(l *launcher.Launcher, q Question) *Box {
	b := &Box{Launcher: l, Question: q, Start: -1, Seat: -1, From: -1}
	for i, band := range ShotBands(l) {
		if band != nil && b.spans(band) {
			b.Bands = append(b.Bands, i)
			b.Labels = append(b.Labels, band.Key)
		}
	}
	add := func(label string) int {
		b.Labels = append(b.Labels, label)
		return len(b.Labels) - 1
	}
	if q.StartMax > 0 {
		b.Start = add("start pressure")
	}
	if !q.FixedSeat && !l.Barrel.FixedSeat {
		b.Seat = add("seating")
	}
	if len(q.FromAll) > 1 {
		b.From = add("state before")
	}
	b.first = len(b.Labels)
	for _, e := range q.Extra {
		add(e)
	}
	b.Dim = len(b.Labels)
	return b
}

// ShotBands lists every band that can bear on a shot, in a fixed order; entries
// that cannot are nil, so that the list of a clone lines up with its original's.
func ShotBands(l *launcher.Launcher) []*launcher.Band {
	out := []*launcher.Band{&l.Ambient.Pressure, &l.Ambient.Temperature}
	reach := launcher.ReachOf(l)
	for i := range l.Volumes {
		out = append(out, where(reach.Volumes[i], &l.Volumes[i].Volume))
	}
	for i := range l.Paths {
		p := &l.Paths[i]
		on := reach.Paths[i]
		out = append(out, where(on, &p.Flow.Value), where(on, &p.Flow.CriticalRatio),
			where(on, &p.Flow.PressureDropRatio), where(on, &p.Flow.DischargeCoefficient),
			where(on && reach.Opens[i], &p.OpeningTime), where(on && reach.Closes[i], &p.ClosingTime), where(on, &p.Pulse))
		// A regulator or a check valve on the way of the charge sets where a shot
		// starts, even where nothing flows through it during the shot.
		regulator := p.Kind == pneumatics.Regulator
		out = append(out, where(regulator, &p.SetPressure), where(regulator, &p.Creep), where(on && regulator, &p.Droop),
			where(p.Kind == pneumatics.Check, &p.CrackingPressure))
		if p.Hose != nil && !p.Hose.Shared {
			out = append(out, where(on, &p.Hose.Bore), where(on, &p.Hose.Length), where(on, &p.Hose.Conductance))
		}
	}
	b, j := &l.Barrel, &l.Projectile
	tube := b.Fit == pneumatics.OverTube
	gap := !j.Clearance.Set // the gap follows from the two diameters
	out = append(out,
		where(!tube, &b.Bore), where(!tube, &b.Travel), &b.DeadVolume,
		where(tube && gap, &b.TubeOuterDiameter), where(tube, &b.TubeInnerDiameter), where(tube, &b.Engagement),
		&j.Mass, where(!tube && gap, &j.Diameter), where(tube, &j.InsideDiameter), &j.Clearance,
		&j.Breakaway, &j.Restart, &j.Sliding)
	if l.Supply != nil {
		out = append(out, where(reach.Supply, &l.Supply.FreeAir))
	}
	return out
}

// where is a band where it bears on a shot; else nil.
func where(on bool, b *launcher.Band) *launcher.Band {
	if !on {
		return nil
	}
	return b
}

// Point describes one point of the box for a reader.
func (b *Box) Point(u []float64) Point {
	all := ShotBands(b.Launcher)
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
	for k, i := range b.Bands {
		out = append(out, Coordinate{Key: all[i].Key, Value: b.Value(all[i], u[k]), Side: side(u[k])})
	}
	if b.Start >= 0 {
		out = append(out, Coordinate{Key: "start pressure", Value: u[b.Start] * b.Question.StartMax, Side: side(u[b.Start])})
	}
	if b.Seat >= 0 {
		out = append(out, Coordinate{Key: "seating", Value: u[b.Seat], Side: side(u[b.Seat])})
	}
	for i, e := range b.Question.Extra {
		out = append(out, Coordinate{Key: e, Value: u[b.first+i], Side: side(u[b.first+i])})
	}
	return out
}

// spans tells whether a band has more than one value.
func (b *Box) spans(band *launcher.Band) bool {
	return band.Set && b.Value(band, 1) > b.Value(band, 0)
}

// Value gives a band's value at u. The temperature runs up to the hottest the
// filled launcher can be.
func (b *Box) Value(band *launcher.Band, u float64) float64 {
	if band == &b.Launcher.Ambient.Temperature {
		return band.Low + u*(b.Launcher.Hottest()-band.Low)
	}
	return band.Lerp(u)
}
