package pneumatics

import (
	"cmp"
	"math"

	"puffproof/pneumatics/graph"
	"puffproof/pneumatics/internal/opening"
)

// Residual gives, for every volume of a circuit and then for the barrel, the
// gauge pressure [Pa] that stays in it for good once the valves have moved as
// the scenario asks: found on the graph alone, without a run. Zero: it empties.
// +Inf: no open path leads from it to the atmosphere, its air is trapped. A
// figure between is the sum of the cracking pressures on the easiest way out.
//
// What counts as open is what passes flow at every pressure above the figure:
// orifices and hoses; valves where the scenario leaves them open; a check valve
// in its direction, from its cracking pressure on; a regulator in its direction,
// where what lies behind it empties below its set pressure; a stuck path as it
// is stuck. What a diaphragm or a shuttle holds is open once the pressure that holds it
// has gone, down to what its spring leaves. Relief valves never. The barrel is open to the atmosphere with
// nothing loaded, or with a gap around the projectile and the muzzle open.
func Residual(c *Circuit, sc *Scenario) []float64 {
	left := graph.NewPerNode(len(c.Volumes), math.Inf(1))
	left.Set(Atmosphere, 0)
	if sc.NoProjectile || (c.Barrel.LeakArea > 0 && !sc.MuzzleClosed) {
		left.Set(BarrelNode, 0)
	}
	// The walk goes the other way than the air.
	graph.Reach(c.Links(), left, cmp.Less[float64], func(i int, way graph.Way, behind float64) float64 {
		p := &c.Paths[i]
		if p.balanced() && !sc.sticks(i) {
			if way == graph.Along || p.OpeningAtLast(sc) == 0 || p.Flow.IsZero() {
				return math.Inf(1)
			}
			return p.Balance.holds(behind, left.At(p.Balance.Pilot))
		}
		return behind + p.holdsBack(sc, i, way, behind)
	})
	return left[:len(c.Volumes)+1]
}

// holdsBack gives the pressure difference that a path holds back [Pa] from what
// flows towards the start of a way over it; +Inf: it lets nothing through. behind
// is what stays where that flow goes.
func (p *Path) holdsBack(sc *Scenario, index int, way graph.Way, behind float64) float64 {
	shut := math.Inf(1)
	if p.Flow.IsZero() {
		return shut
	}
	for _, s := range sc.Stuck {
		if s.Path == index {
			return zeroOr(s.Opening > 0, shut)
		}
	}
	switch forward := way == graph.Against; p.Kind {
	case Relief:
		return shut
	case Check:
		if forward {
			return p.CrackingPressure
		}
		return shut
	case Regulator:
		return zeroOr(forward && behind < p.SetPressure, shut)
	}
	return zeroOr(p.OpeningAtLast(sc) > 0, shut)
}

// sticks tells whether the scenario overrides a path.
func (sc *Scenario) sticks(path int) bool {
	for _, s := range sc.Stuck {
		if s.Path == path {
			return true
		}
	}
	return false
}

// zeroOr is zero where a path passes, else otherwise.
func zeroOr(passes bool, otherwise float64) float64 {
	if passes {
		return 0
	}
	return otherwise
}

// OpeningAtLast is where a path's part ends up in a scenario, once every command
// has been carried out, as a fraction of fully open. Springs apart: a relief
// valve, a check valve, a regulator and a quick exhaust count as 1.
func (p *Path) OpeningAtLast(sc *Scenario) float64 {
	s := p.movement(sc)
	return s.Last()
}

// movement is the schedule of a path in a scenario: from its settled position
// in the state before time 0 to the position asked for at time 0.
func (p *Path) movement(sc *Scenario) opening.Schedule {
	switch p.Kind {
	case Valve, HandValve:
	default:
		return opening.Constant(1) // always in the circuit; springs decide
	}
	from := fraction(p.OpenIn.Has(sc.From))
	to := fraction(p.OpenIn.Has(sc.To))
	if sc.PowerLost {
		switch {
		case p.Kind == HandValve || p.Unpowered == Stays:
			to = from
		default:
			to = fraction(p.Unpowered == Open)
		}
	}
	return opening.Motion{Opening: p.OpeningTime, Closing: p.ClosingTime, Pulse: p.Pulse, Reopens: p.Reopens}.Ramp(from, to)
}

func fraction(open bool) float64 {
	if open {
		return 1
	}
	return 0
}
