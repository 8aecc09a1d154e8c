package pneumatics

import "math"

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
// is stuck. Relief valves never. The barrel is open to the atmosphere with
// nothing loaded, or with a gap around the projectile and the muzzle open.
func Residual(c *Circuit, sc *Scenario) []float64 {
	left := make([]float64, len(c.Volumes)+1)
	for i := range left {
		left[i] = math.Inf(1)
	}
	bar := len(c.Volumes)
	at := func(n Node) float64 {
		switch n {
		case Atmosphere:
			return 0
		case BarrelNode:
			return left[bar]
		}
		return left[n]
	}
	lower := func(n Node, to float64) bool {
		i := int(n)
		if n == BarrelNode {
			i = bar
		}
		if n == Atmosphere || !(to < left[i]) {
			return false
		}
		left[i] = to
		return true
	}
	if sc.NoProjectile || (c.Barrel.LeakArea > 0 && !sc.MuzzleClosed) {
		left[bar] = 0
	}
	for changed := true; changed; {
		changed = false
		for i := range c.Paths {
			p := &c.Paths[i]
			from, back := p.ways(sc, i, at(p.To))
			if !math.IsInf(from, 1) {
				changed = lower(p.From, at(p.To)+from) || changed
			}
			if !math.IsInf(back, 1) {
				changed = lower(p.To, at(p.From)+back) || changed
			}
		}
	}
	return left
}

// ways gives the pressure difference that a path holds back [Pa], for flow From
// → To and for flow To → From; +Inf: it lets nothing that way. behind is what
// stays at To.
func (p *Path) ways(sc *Scenario, index int, behind float64) (forward, backward float64) {
	shut := math.Inf(1)
	if p.Flow.IsZero() {
		return shut, shut
	}
	for _, s := range sc.Stuck {
		if s.Path != index {
			continue
		}
		if s.Opening > 0 {
			return 0, 0
		}
		return shut, shut
	}
	switch p.Kind {
	case Relief:
		return shut, shut
	case Check:
		return p.CrackingPressure, shut
	case Regulator:
		if behind < p.SetPressure {
			return 0, shut
		}
		return shut, shut
	}
	if p.OpeningAtLast(sc) > 0 {
		return 0, 0
	}
	return shut, shut
}

// OpeningAtLast is where a path's part ends up in a scenario, once every command
// has been carried out, as a fraction of fully open. Springs apart: a relief
// valve, a check valve and a regulator count as 1.
func (p *Path) OpeningAtLast(sc *Scenario) float64 {
	s := p.movement(sc)
	return s.knots[s.n-1].opening
}
