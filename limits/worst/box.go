package worst

import (
	"context"

	"puffproof/limits/catalogue"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/recall"
	"puffproof/pneumatics"
)

// Question is one kind of shot whose worst case over the tolerances is wanted: which
// scenario, what is changed in it, and what is measured.
type Question struct {
	Name     string
	StartMax float64            // start pressures run from StartMin to this [Pa gauge] of the sensed volume
	StartMin float64            // 0 unless a launcher that is filled is asked about [Pa gauge]
	Top      float64            // relief valves count that shots from up to here can lift; StartMax where that is higher
	to       pneumatics.State   // the state commanded; its zero value is never asked
	FromAll  []pneumatics.State // the states it may start from
	// Extra names further coordinates, each running over [0, 1].
	Extra []string
	// Adjust changes circuit and scenario after they are filled; extra holds the
	// further coordinates.
	Adjust func(c *pneumatics.Circuit, sc *pneumatics.Scenario, extra []float64)
	// Measure turns a result into the figure to be maximised; NaN: undetermined.
	Measure func(c *pneumatics.Circuit, r *pneumatics.Result) float64
	// Say puts the figure found so far into words for somebody who waits; nil: it is
	// not shown.
	Say func(figure float64) finding.Text
	// Fine divides hoses in full in a search too: where the front of a wave is what counts.
	Fine bool
	// Unfed leaves the supply out of a search's shots; what it found is judged with it.
	Unfed bool
	// FixedSeat keeps the projectile at its rearmost seat.
	FixedSeat bool
}

// Box is a question on a launcher with its coordinates laid out.
type Box struct {
	Launcher   *launcher.Launcher
	Question   Question
	Quantities []catalogue.Quantity // the first coordinates
	Labels     []string             // of all coordinates
	Start      int                  // index of the start pressure; -1: none
	Seat       int                  // index of the seat; -1: none
	From       int                  // index of the state before; -1: none
	Turn       int                  // index of the order in which valves in series are opened; -1: there is one only
	turns      []turn               // the orders
	first      int                  // index of the first extra coordinate
	Dim        int                  // how many coordinates there are
	stop       func() bool          // of the shots of its evaluators; nil: they are not stopped
	known      *recall.Memory       // asked before a shot is computed; nil in the program itself
}

// Until lets the shots of all evaluators that the box makes from now on end with a context:
// their figures are undetermined then, and whoever asked ends with the context's error.
func (b *Box) Until(ctx context.Context) {
	b.stop, b.known = func() bool { return ctx.Err() != nil }, recall.Of(ctx)
}

// NewBox lays out the coordinates of a question: every quantity of the design that
// can bear on the shot, then start pressure, seat, state before, order of valves, extras.
func NewBox(l *launcher.Launcher, q Question) *Box {
	b := &Box{Launcher: l, Question: q, Start: -1, Seat: -1, From: -1, Turn: -1, turns: turnsOf(l),
		Quantities: catalogue.Coordinates(l, max(q.Top, q.StartMax))}
	for i := range b.Quantities {
		b.Labels = append(b.Labels, b.Quantities[i].Key)
	}
	add := func(label string) int {
		b.Labels = append(b.Labels, label)
		return len(b.Labels) - 1
	}
	if q.StartMax > q.StartMin {
		b.Start = add("start pressure")
	}
	if !q.FixedSeat && !l.Barrel.FixedSeat {
		b.Seat = add("seating")
	}
	if len(q.FromAll) > 1 {
		b.From = add("state before")
	}
	if len(b.turns) > 0 {
		b.Turn = add("valve opened last")
	}
	b.first = len(b.Labels)
	for _, e := range q.Extra {
		add(e)
	}
	b.Dim = len(b.Labels)
	return b
}

// start is the start pressure [Pa gauge] at a fraction u of those that are asked about.
func (q *Question) start(u float64) float64 { return q.StartMin + u*(q.StartMax-q.StartMin) }

// Point describes one point of the box for a reader.
func (b *Box) Point(u []float64) Point {
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
	for k := range b.Quantities {
		q := &b.Quantities[k]
		out = append(out, Coordinate{Key: q.Key, Value: q.Value(u[k]), Side: side(u[k])})
	}
	if b.Start >= 0 {
		out = append(out, Coordinate{Key: "start pressure", Value: b.Question.start(u[b.Start]), Side: side(u[b.Start])})
	}
	if b.Seat >= 0 {
		out = append(out, Coordinate{Key: "seating", Value: u[b.Seat], Side: side(u[b.Seat])})
	}
	for i, e := range b.Question.Extra {
		out = append(out, Coordinate{Key: e, Value: u[b.first+i], Side: side(u[b.first+i])})
	}
	return out
}

// Carry takes a point of another box over, coordinate by coordinate of the same label;
// what that box has not is at fresh.
func (b *Box) Carry(labels []string, u []float64, fresh float64) []float64 {
	at := map[string]float64{}
	for i, label := range labels {
		at[label] = u[i]
	}
	out := make([]float64, b.Dim)
	for i, label := range b.Labels {
		v, ok := at[label]
		if !ok {
			v = fresh
		}
		out[i] = v
	}
	return out
}
