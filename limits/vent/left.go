package vent

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/search"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// leftShot asks what a shot from the target pressure could still do: all
// volumes there, the firing valve opened by hand, no supply.
func (s stage) leftShot() error {
	e, l := s.report, s.in.Launcher
	if s.detail == ForFaults {
		return nil
	}
	q := worst.EnergyQuestion(l, e.Target)
	q.Name, q.Measure = "what is left at the target", boundedEnergy(worst.MovingAt(l))
	q.Adjust = func(c *pneumatics.Circuit, sc *pneumatics.Scenario, _ []float64) {
		sc.SupplyRuns = false
		at := sc.Volumes[l.Node(l.Sensed())].Pressure
		for i := range sc.Volumes {
			sc.Volumes[i].Pressure = at
		}
	}
	o := Brief(worst.SeedsFor(l, s.in.Normal, q)...)
	if s.in.Normal == nil { // nothing to start from
		o = search.Quick()
	}
	const far = 4.0 // as much as that below the limit a sketch tells enough
	w, err := worst.SketchFirst(s.ctx, l, q, o, s.in.Normal.Tame(), func(found float64) bool {
		return far*found*worst.ModelFactor < e.LeftLimit
	})
	if err != nil {
		return err
	}
	if w.Undetermined() {
		return &worst.WithheldError{What: "the shot from the target pressure", Reason: finding.Notes(finding.Words(
			"it could not be computed over the whole tolerance box"), w.Narrow).String()}
	}
	volume := l.Barrel.DeadVolume.High
	for i := range l.Volumes {
		volume += l.Volumes[i].Volume.High
	}
	for i := range l.Paths {
		volume += l.Paths[i].MostHoseAir()
	}
	e.Left = volume / pneumatics.CeilingDose(1, e.Target, l.Ambient.Pressure.Low)
	e.LeftShot = w.Value * worst.ModelFactor
	if worst.MovingAt(l) == 0 { // the bound holds whatever the model's error
		e.LeftShot = max(w.Value, min(e.LeftShot, e.Left))
	}
	return nil
}

// boundedEnergy is worst.JudgedEnergy, but a shot whose fate was not settled counts with
// its bound: without a supply no more air comes.
func boundedEnergy(speed float64) func(*pneumatics.Circuit, *pneumatics.Result) float64 {
	judged := worst.JudgedEnergy(speed)
	return func(c *pneumatics.Circuit, r *pneumatics.Result) float64 {
		if r.Reason != "" || r.Outcome != pneumatics.TimeRanOut {
			return judged(c, r)
		}
		v := math.Sqrt(2*r.Freed/c.Barrel.Mass) + speed
		return 0.5 * c.Barrel.Mass * v * v
	}
}

// Brief is a search of some six hundred shots around a known worst case: it looks
// how far a change of one part moves it, not for a new one.
func Brief(seeds ...[]float64) search.Options {
	o := search.Light(seeds...)
	o.Budget, o.Starts, o.Climbs, o.Settle = 600, 4, 4, 30
	return o
}
