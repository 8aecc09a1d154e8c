package measure

import (
	"context"
	"math"

	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/limits/worst"
)

// contradictionBudget is the search for the model's worst case at the measured
// pressure: missing a little of it errs towards a failure.
const contradictionBudget = 3000

// fewBound is the number of shots that two or three are taken for when their
// bound is held against the model: their own factors, 37 and 10.6, would reject
// every launcher (own rule).
const fewBound = 4

// contradiction looks for shots, of any group, that no valve and no friction could
// have made, and for a single shot or a bound above the worst case of the stated
// box times the model factor. A group that does not count for a verdict speaks
// here all the same: nothing that was measured may be lost on the way to a pass.
// Nil: there is none. The error is the context's.
func contradiction(ctx context.Context, l *launcher.Launcher, groups []SpeedGroup) (*Contradiction, error) {
	reached := 0.0 // what the model allows at a lower pressure it allows at a higher one
	for i := range groups {
		if groups[i].Shots == 0 {
			continue
		}
		if c, err := contradictionOf(ctx, l, &groups[i], &reached); c != nil || err != nil {
			return c, err
		}
	}
	return nil, nil
}

// contradictionOf looks at one group. reached [J] is what the model with its
// factor was found to allow at a pressure not above the group's.
func contradictionOf(ctx context.Context, l *launcher.Launcher, g *SpeedGroup, reached *float64) (*Contradiction, error) {
	top := g.Gauge + g.Spread + l.SensedGaugeError()
	ceiling, err := worst.Ceiling(ctx, l, top)
	if err != nil {
		return nil, err
	}
	at, light := finding.Bars.Of(g.Gauge, 3), l.Projectile.Mass.Low
	if g.MassLow > 0 {
		light = math.Min(light, g.MassLow)
	}
	if e := 0.5 * light * g.Fastest * g.Fastest; e > ceiling {
		return &Contradiction{finding.Say("a shot of %s at %s is above the thermodynamic ceiling of %s", finding.Joule(e), at,
			finding.Joule(ceiling)), e, ceiling}, nil
	}
	// The shot at the slow end of its error and with the lightest projectile.
	slow := math.Max(0, g.Fastest-g.Systematic) + worst.MovingAt(l)
	shot, bound := 0.5*light*slow*slow, g.contrast(worst.MovingAt(l))
	if math.Max(shot, bound) <= *reached {
		return nil, nil
	}
	nominal, err := worst.NominalWorstSeat(ctx, l, g.Gauge)
	if err != nil {
		return nil, err
	}
	if math.Max(shot, bound) <= worst.ModelFactor*nominal.FinalEnergy {
		return nil, nil // far from the worst case: no search is needed to see it
	}
	w, err := worst.Maximise(ctx, l, worst.EnergyQuestion(l, top), search.Options{Budget: contradictionBudget})
	if err != nil || w.Undetermined() {
		return nil, err
	}
	allowed := worst.ModelFactor * w.Value
	*reached = math.Max(*reached, allowed)
	switch {
	case shot > allowed:
		return &Contradiction{finding.Say("a shot of at least %s at %s is above the worst case of the model times its factor, %s",
			finding.Joule(shot), at, finding.Joule(allowed)), shot, allowed}, nil
	case bound > allowed:
		return &Contradiction{finding.Say("the measured bound at %s, %s, is above the worst case of the model times its factor, %s",
			at, finding.Joule(bound), finding.Joule(allowed)), bound, allowed}, nil
	}
	return nil, nil
}

// contrast is the bound that is held against the model, at the measured pressure
// and relative to a person standing still [J]; 0: one shot bounds nothing.
func (g *SpeedGroup) contrast(moving float64) float64 {
	if g.Shots < 2 {
		return 0
	}
	v := g.UpperSpeed
	if g.Shots < fewBound {
		v = math.Max(g.Mean+benchmark.BoundFactor(fewBound)*g.SD, g.Fastest) + g.Systematic
	}
	v += moving
	return 0.5 * g.MassHigh * v * v
}

// LargestContrast is the largest bound over all groups, the ones that do not count
// as well [J].
func (e *Findings) LargestContrast(moving float64) float64 {
	most := 0.0
	for i := range e.Groups {
		if g := &e.Groups[i]; g.Shots >= fewBound {
			most = math.Max(most, g.contrast(moving))
		}
	}
	return most
}

// disagreement says in one sentence how a model that is not credible differs from
// the shots; "" where it agrees or was not tested.
func (e *Findings) disagreement() finding.Text {
	if e.Fit == nil || e.Fit.Credible {
		return nil
	}
	worst, far := -1, 0.0
	for i, r := range e.Fit.Residuals {
		d := math.Inf(1)
		if r.Before > 0 {
			d = math.Abs(math.Log(r.Measured / r.Before))
		}
		if d > far {
			worst, far = i, d
		}
	}
	if worst < 0 {
		return finding.Words("the fit needs a value outside of what the design states")
	}
	r := e.Fit.Residuals[worst]
	shots := finding.Say("at %s the shots have %s", finding.Bars.Of(r.Gauge, 3), finding.MetresPerSecond.Of(r.Measured, 3))
	if r.Before == 0 {
		return shots.Say(", where the nominal model stalls")
	}
	side := "faster"
	if r.Measured < r.Before {
		side = "slower"
	}
	return shots.Say(", %s than the nominal model with %s, by more than tolerances and scatter explain", side,
		finding.MetresPerSecond.Of(r.Before, 3))
}

// Contradiction says in words how model and measurements contradict each other;
// "" they do not.
func (e *Findings) Contradiction() finding.Text {
	var wrong finding.Text
	if e.Wrong != nil {
		wrong = e.Wrong.Text
	}
	return firstContradiction(wrong, e.Clashes, e.disagreement())
}

func firstContradiction(wrong finding.Text, clashes []launcher.Clash, disagrees finding.Text) finding.Text {
	switch {
	case len(wrong) > 0:
		return wrong
	case len(clashes) > 0:
		return clashes[0].Says()
	}
	return disagrees
}
