package worst

import (
	"context"
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/progress"
	"puffproof/limits/search"
	"puffproof/pneumatics"
)

// Creep is the speed [m/s] below which a projectile that leaves the muzzle has not been
// shot: it falls out (own rule of this project).
const Creep = 1.0

// Weakest is the least that a launcher of the box does when it is filled as it should be.
type Weakest struct {
	Leaves bool      // it leaves the muzzle, faster than Creep
	Speed  float64   // final speed [m/s]; 0 where it does not leave
	Energy float64   // final energy [J]; 0 where it does not leave
	Start  float64   // the pressure that it is fired from, the lowest at which it counts as filled [Pa gauge]
	Known  bool      // false: no working pressure is known
	Point  Point     // where in the box
	At     []float64 // the same as fractions of the box of WeakestQuestion
}

// WeakestQuestion asks for the least final speed of a shot from the lowest pressure at
// which the launcher counts as filled, with the projectile pushed right in: the negative of
// it, to be maximised. What does not leave counts 0, as does what cannot be computed.
func WeakestQuestion(l *launcher.Launcher) Question { return WeakestFrom(l, l.Working().Low) }

// WeakestFrom is WeakestQuestion where the pressure from which the launcher counts as filled is known to be low [Pa gauge].
func WeakestFrom(l *launcher.Launcher, low float64) Question {
	pushes := l.SupplyPushes()
	return Question{Name: "weakest", StartMin: low, StartMax: low, Top: low, to: pneumatics.Firing,
		FromAll: []pneumatics.State{pneumatics.Armed}, FixedSeat: true,
		Adjust: func(_ *pneumatics.Circuit, sc *pneumatics.Scenario, _ []float64) {
			sc.SupplyRuns = sc.SupplyRuns && pushes
		},
		Measure: func(_ *pneumatics.Circuit, r *pneumatics.Result) float64 {
			if r.Reason != "" || r.Outcome != pneumatics.Left {
				return 0
			}
			return -r.FinalSpeed
		}, Say: func(v float64) finding.Text { return finding.Say("down to %s", finding.Speed(-v)) }}
}

// FindWeakest looks for the weakest launcher of the box. It stops at the first that does not
// leave. The error is the context's.
func FindWeakest(ctx context.Context, l *launcher.Launcher, o search.Options) (Weakest, error) {
	if l.Stops() == launcher.StopUnknown || !(l.Working().Low > 0) {
		return Weakest{}, nil
	}
	b := NewBox(l, WeakestQuestion(l))
	enough := -Creep
	o.Enough, o.Say = &enough, b.Question.Say
	ctx = progress.Looking(ctx, finding.Words("weakest shot"))
	res, err := search.Maximise(ctx, b.Dim, func() search.Objective { return b.Evaluator() }, o)
	if err != nil || !res.Found {
		return Weakest{}, err
	}
	s := b.shootWith(res.Best.Point, b.exact().Options)
	w := Weakest{Speed: math.Min(-s.value, -res.Best.Value), Start: b.Question.Top, Known: true, Point: b.Point(res.Best.Point),
		At: res.Best.Point}
	w.Leaves, w.Energy = w.Speed >= Creep, 0.5*s.circuit.Barrel.Mass*w.Speed*w.Speed
	return w, nil
}
