package launcher

import (
	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
)

// A long, thin hose holds the last of the air back far more than the conductance of
// a hose says: its flow turns laminar, and then falls with the pressure difference
// and not with its root. The slow end of emptying and a relief valve's discharge take
// that in: the hose's conductance is lowered to what it passes at the least pressure
// that matters. At any higher one it passes more than that, so it is a bound.

// frictionFlow is what friction lets through a hose from p1 to p2, absolute [Pa], in [kg/s].
func (l *Launcher) frictionFlow(h *HoseSpec, p1, p2 float64) float64 {
	t := l.Ambient.Temperature.Nominal
	return flow.SmoothPipe(l.GasModel(), h.Bore.Nominal, h.Length.Nominal, t, max(t, l.Hottest()), p1, p2)
}

// LaminarShare is the share of its hose's conductance that friction leaves a path at
// a gauge pressure over it [-], at most 1. Where the path narrows elsewhere too, the
// pressure over the hose is the part at which both pass the same.
func (l *Launcher) LaminarShare(p *PathSpec, gauge float64) float64 {
	h, g, t := p.Hose, l.GasModel(), l.Ambient.Temperature.Nominal
	out := l.Ambient.Pressure.Nominal
	if !(h.Bore.Nominal > 0) || !(h.Length.Nominal > 0) || !(gauge > 0) {
		return 1
	}
	over := gauge
	if hole := p.Flow.Restriction(); p.Kind != pneumatics.Hose && !hole.IsZero() {
		low, high := 0.0, gauge
		for range 50 {
			over = 0.5 * (low + high)
			if l.frictionFlow(h, out+over, out) < hole.MassFlow(g, out+gauge, t, out+over, t) {
				low = over
			} else {
				high = over
			}
		}
	}
	stated := flow.HoseFlow(h.Bore.Nominal, h.Length.Nominal)
	if h.Conductance.Set {
		stated = stated.Scaled(h.Conductance.Nominal)
	}
	passes := stated.MassFlow(g, out+over, t, out, t)
	if !(passes > 0) {
		return 1
	}
	return min(1, l.frictionFlow(h, out+over, out)/passes)
}

// HoldBack lowers the conductance of a path's hose to its laminar share.
func (l *Launcher) HoldBack(p *PathSpec, gauge float64) {
	if p.Hose == nil {
		return
	}
	share := l.LaminarShare(p, gauge)
	if share == 1 {
		return
	}
	c := &p.Hose.Conductance
	if !c.Set {
		*c = Exact(c.Key, 1)
	}
	c.Nominal *= share
	c.Low = min(c.Low, c.Nominal)
}
