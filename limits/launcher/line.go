package launcher

import (
	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/line"
)

// holdsBack is the conductance up to which a hose is one [-]: a fault that takes its
// resistance away leaves air without it.
const holdsBack = 3

// isLine tells that a path has a hose that a shot's air can pass: not a vent's, and not
// one that a fault has taken away.
func (p *PathSpec) isLine() bool {
	h := p.Hose
	return h != nil && !h.Shared && p.From != "atmosphere" && p.To != "atmosphere" && h.Bore.Nominal > 0 && h.Length.Nominal > 0 &&
		!(h.Conductance.Set && h.Conductance.Nominal > holdsBack)
}

// lay makes the hose of a path a line.
func (p *PathSpec) lay(out *pneumatics.Path) {
	piece := line.Piece{Bore: p.Hose.Bore.Nominal, Length: p.Hose.Length.Nominal}
	if p.Hose.Conductance.Set {
		piece.Conductance = p.Hose.Conductance.Nominal
	}
	out.Hose, out.HoseFirst = flow.Restriction{}, false
	if p.Hose.Side == HoseAfter {
		out.After = []line.Piece{piece}
	} else {
		out.Before = []line.Piece{piece}
	}
}

// MostHoseAir is the most that the path's hose holds [m3]; 0 where it has none, or one
// whose air another way counts.
func (p *PathSpec) MostHoseAir() float64 {
	if p.Hose == nil || p.Hose.Shared {
		return 0
	}
	return Circle(p.Hose.Bore.High) * p.Hose.Length.High
}
