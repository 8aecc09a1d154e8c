package worst

import (
	"context"
	"math"

	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
)

// StartEnergy is the final energy of a shot from one start pressure.
type StartEnergy struct {
	Gauge  float64 // of the sensed volume [Pa gauge]
	Energy float64 // final [J]; 0: it does not leave; NaN: not computed
}

// NominalOverStart are shots with nominal values, the stated travel, from evenly spaced start pressures from 0 to high
// [Pa gauge]: n of them, at least 2. The launcher can be fired at any of them while it fills. A start outside the model's range,
// and a shot that failed its own checks, has the energy NaN. The error is the context's.
func NominalOverStart(ctx context.Context, l *launcher.Launcher, high float64, n int) ([]StartEnergy, error) {
	measure := FinalEnergy(0)
	return overStart(ctx, high, n, func() func(gauge float64) float64 {
		sim := new(pneumatics.Sim)
		return func(gauge float64) float64 {
			if flow.CheckRange(gauge, l.Ambient.Temperature.Nominal) != nil {
				return math.NaN()
			}
			c, sc := NominalScenario(l, gauge)
			r := sim.Run(c, sc, pneumatics.Options{NoPeak: true, OnlyLeaving: true, Stop: func() bool { return ctx.Err() != nil }})
			if r.Withheld() != "" {
				return math.NaN()
			}
			return measure(c, r)
		}
	})
}

// OverStart are the energies of the launcher at the worst point found, from evenly spaced start pressures up to the highest of
// the question: n of them, at least 2. At another pressure another launcher of the box may shoot harder, so this is no bound;
// what is judged is the worst case itself. Nil where no worst case was found, or the question has no start pressures. The error
// is the context's.
func (w *Case) OverStart(ctx context.Context, n int) ([]StartEnergy, error) {
	if w == nil || !w.Result.Found || w.Box.Start < 0 {
		return nil, nil
	}
	q := &w.Box.Question
	return overStart(ctx, q.StartMax, n, func() func(gauge float64) float64 {
		e, u := w.Box.Evaluator(), append([]float64{}, w.Result.Best.Point...)
		return func(gauge float64) float64 {
			u[w.Box.Start] = min(1, max(0, (gauge-q.StartMin)/(q.StartMax-q.StartMin)))
			return e.Value(u)
		}
	})
}

// overStart computes shots side by side, as many tasks as there are of a few pressures each.
func overStart(ctx context.Context, high float64, n int, evaluator func() func(gauge float64) float64) ([]StartEnergy, error) {
	const tasks = 4
	out := make([]StartEnergy, n)
	err := SideBySide(tasks, func(task int) error {
		energy := evaluator()
		for i := task; i < n; i += tasks {
			gauge := high * float64(i) / float64(n-1)
			if out[i] = (StartEnergy{gauge, energy(gauge)}); ctx.Err() != nil {
				return ctx.Err()
			}
		}
		return nil
	})
	return out, err
}
