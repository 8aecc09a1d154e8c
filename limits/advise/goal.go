package advise

import (
	"math"

	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
)

// Aim is what a goal is stated of.
type Aim uint8

// The aims.
const (
	Lively Aim = iota // as much as holds
	Apex              // height above the muzzle [m]
	Speed             // final speed [m/s]
	Range             // where it lands [m]
)

// Goal is what is wanted.
type Goal struct {
	Aim   Aim
	Value float64 // SI; of Lively nothing
}

// reached is the goal's figure at a nominal speed [m/s], in the goal's unit.
func (g Goal) reached(l *launcher.Launcher, speed float64) float64 {
	if !(speed > 0) {
		return 0
	}
	switch g.Aim {
	case Apex:
		return apexOf(l, speed)
	case Range:
		return measure.Thrown(l, speed, measure.Halfway).Landing.X
	}
	return speed
}

// apexOf is how high a projectile rises above the muzzle [m].
func apexOf(l *launcher.Launcher, speed float64) float64 {
	f := measure.Thrown(l, speed, measure.Straight)
	return f.Apex.Y - f.Start.Y
}

// speedFor is the speed [m/s] at which the goal is reached; 0 where none is stated.
func (g Goal) speedFor(l *launcher.Launcher) float64 {
	if g.Aim == Lively {
		return 0
	}
	low, high := 0.0, 100.0
	for range 40 {
		if mid := (low + high) / 2; g.reached(l, mid) < g.Value {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}

// missed is how far a speed is from the goal, as a ratio's logarithm; of Lively it falls with
// the speed.
func (g Goal) missed(speed, wanted float64) float64 {
	if !(speed > 0) {
		return 5
	}
	if g.Aim == Lively {
		return -math.Log(speed)
	}
	return math.Abs(math.Log(speed / wanted))
}

// figure is what a way has of the goal.
func (g Goal) figure(w *Way) finding.Shown {
	return g.in(g.reached(w.Declared.Launcher(), w.Nominal.Speed))
}

// in is a figure in the goal's unit.
func (g Goal) in(v float64) finding.Shown {
	if g.Aim == Speed {
		return finding.Speed(v)
	}
	return finding.Metre(v)
}

// short is how far a launcher is from the goal, as the logarithm of the ratio of its figure to the goal's; 0 of Lively.
func (g Goal) short(l *launcher.Launcher, speed float64) float64 {
	if g.Aim == Lively {
		return 0
	}
	return math.Abs(math.Log(math.Max(g.reached(l, speed), 1e-3) / g.Value))
}
