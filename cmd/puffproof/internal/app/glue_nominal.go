package app

import (
	"context"
	"fmt"
	"puffproof/cmd/puffproof/internal/render"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
)

// traceLength is the number of points of a shot's curves: more than any screen
// shows.
const traceLength = 400

// shootDesign computes one shot with nominal values.
func shootDesign(ctx context.Context, l *launcher.Launcher, at *float64, m models) (render.ShotView, error) {
	s, err := worst.NominalShot(ctx, l, at, traceLength)
	if err != nil {
		return render.ShotView{}, err
	}
	run := shotRun{Circuit: *s.Circuit, Scenario: *s.Scenario, Result: s.Result, Ceiling: s.Ceiling,
		ContactArea: s.ContactArea, Highest: s.Highest}
	if s.Above > 0 {
		run.Notes = append(run.Notes, fmt.Sprintf("This start is %.2g bar above the highest pressure of normal operation.", s.Above/1e5))
	}
	view, err := run.view()
	if m == bothModels {
		view.Wave = s.CompareWave(l)
	}
	return view, err
}
