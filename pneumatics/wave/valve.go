package wave

import (
	"math"

	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
)

// valve is a path of the circuit with its opening over time. The schedules are
// those of pneumatics.Scenario (position.go there), which keeps them to itself.
type valve struct {
	path   *pneumatics.Path
	knots  [4]knot
	n      int
	spring bool
	full   flow.Restriction // fully open, hose included
	hose   bool             // a lumped hose in series
	lift   float64          // Relief: where it stands between its two lines
}

// knot is a time [s] and an opening [0 … 1]; between knots linear.
type knot struct{ t, opening float64 }

func newValve(g *gas, p *pneumatics.Path, sc *pneumatics.Scenario, index int) valve {
	v := valve{path: p, full: p.Flow, hose: !p.Hose.IsZero()}
	if v.hose {
		v.full = flow.Series(p.Flow, p.Hose, g.Gas)
	}
	v.knots[0], v.n = knot{0, 1}, 1
	for _, s := range sc.Stuck {
		if s.Path == index {
			v.knots[0].opening = s.Opening
			return v
		}
	}
	feeds := p.From >= 0 && p.To == pneumatics.BarrelNode || p.To >= 0 && p.From == pneumatics.BarrelNode
	switch p.Kind {
	case pneumatics.Valve, pneumatics.HandValve:
		v.schedule(sc)
		v.spring = feeds && p.Balance.SeatShare > 0 // its diaphragm is not resolved
	case pneumatics.Check, pneumatics.Relief, pneumatics.Regulator:
		v.spring = true
	case pneumatics.QuickExhaust:
		v.spring = feeds
		if !feeds { // shut it keeps the air in, which is the stricter side
			v.knots[0].opening = 0
		}
	}
	return v
}

// schedule sets the knots from the settled position in the state before time 0
// to the position asked for at time 0.
func (v *valve) schedule(sc *pneumatics.Scenario) {
	p := v.path
	one := func(open bool) float64 {
		if open {
			return 1
		}
		return 0
	}
	from, to := one(p.OpenIn.Has(sc.From)), one(p.OpenIn.Has(sc.To))
	if sc.PowerLost {
		to = one(p.Unpowered == pneumatics.Open)
		if p.Kind == pneumatics.HandValve || p.Unpowered == pneumatics.Stays {
			to = from
		}
	}
	v.n = 0
	end := 0.0
	switch {
	case to > from && p.OpeningTime > 0:
		end = p.OpeningTime
	case to < from && p.ClosingTime > 0:
		end = p.ClosingTime
	default:
		from = to
	}
	v.add(0, from)
	if end > 0 {
		v.add(end, to)
	}
	if to == 1 && p.Pulse > 0 && !(p.OpenIn.Has(sc.From)) {
		v.pulse(end)
	}
}

// pulse adds the command to close, Pulse after the command to open.
func (v *valve) pulse(end float64) {
	p := v.path
	reached := 1.0
	if p.Pulse < end {
		reached = v.at(p.Pulse)
		v.n--
	}
	v.add(p.Pulse, reached)
	v.add(p.Pulse+p.ClosingTime*reached, 0)
}

func (v *valve) add(t, opening float64) {
	v.knots[v.n] = knot{t, opening}
	v.n++
}

// at is the opening at time t [0 … 1].
func (v *valve) at(t float64) float64 {
	k := v.knots[:v.n]
	for i := len(k) - 1; i >= 0; i-- {
		if t < k[i].t {
			continue
		}
		if i == len(k)-1 {
			return k[i].opening
		}
		return k[i].opening + (k[i+1].opening-k[i].opening)*(t-k[i].t)/(k[i+1].t-k[i].t)
	}
	return k[0].opening
}

// peak is the largest opening at any time.
func (v *valve) peak() float64 {
	best := 0.0
	for _, k := range v.knots[:v.n] {
		best = max(best, k.opening)
	}
	return best
}

// law is the flow law of the path at time t.
func (v *valve) law(g *gas, t float64) flow.Restriction {
	f := v.at(t)
	switch {
	case f == 1:
		return v.full
	case f == 0:
		return flow.Restriction{}
	case v.hose:
		return flow.Series(v.path.Flow.Scaled(f), v.path.Hose, g.Gas)
	}
	return v.path.Flow.Scaled(f)
}

// between is the law of a path between two spaces at p1 and p2 [Pa]; a spring
// stands where they put it and lets nothing back.
func (v *valve) between(g *gas, t, p1, p2, pa float64) flow.Restriction {
	if !v.spring {
		return v.law(g, t)
	}
	if p2 >= p1 {
		return flow.Restriction{}
	}
	return v.full.Scaled(v.springOpening(p1, p2, pa))
}

// springOpening follows the same lines as the lumped circuit.
func (v *valve) springOpening(p1, p2, pa float64) float64 {
	s := v.path
	unit := func(x float64) float64 { return min(max(x, 0), 1) }
	switch s.Kind {
	case pneumatics.Relief:
		gauge := p1 - pa
		rise := unit((gauge - s.SetPressure) / (s.FullFlowPressure - s.SetPressure))
		fall := unit((gauge - s.ReseatPressure) / (s.SetPressure - s.ReseatPressure))
		v.lift = max(rise, min(v.lift, fall))
		return v.lift
	case pneumatics.Regulator:
		droop := s.Droop
		if droop <= 0 {
			droop = 0.05 * max(s.SetPressure, 1)
		}
		return unit((s.SetPressure - (p2 - pa)) / droop)
	}
	return unit((p1 - p2 - s.CrackingPressure) / max(0.1*s.CrackingPressure, 1000))
}

// next is the first bend of the schedule after t [s], +Inf where there is none.
func (v *valve) next(t float64) float64 {
	for _, k := range v.knots[:v.n] {
		if k.t > t {
			return k.t
		}
	}
	return math.Inf(1)
}
