package row

import (
	"math"

	"puffproof/pneumatics/line"
)

// Side is on which side of a part a row lies.
type Side uint8

// The sides of a part.
const (
	Before Side = iota // the row ends at the part
	After              // the row begins at the part
)

// End is what a part sees on one of its sides: the gas in the last cell of a row, or in a
// volume.
type End struct {
	P, T, W         float64 // as the part sees it, with the dynamic pressure of gas that comes to it; W is P/sqrt(T)
	AtRest, StaticT float64 // without [Pa], [K]
	Speed           float64 // in the direction of the row [m/s]
	node            int
	face            int   // in Faces: the gas that ends here
	cell            *Cell // nil: the part sees a volume
}

// Meet takes the state of the gas in a node at a part, a row's last cell there; row is -1 for a volume.
func (r *Rows) Meet(end *End, row, node int, side Side) {
	end.AtRest, end.StaticT = r.P[node], r.T[node]
	end.P, end.T = end.AtRest, end.StaticT
	end.Speed, end.node = 0, node
	if row < 0 {
		end.cell, end.W = nil, r.W[node]
		return
	}
	w := &r.rows[row]
	var towards float64
	if side == After {
		end.face = w.face + 1
		end.cell = &r.Cells[w.cell]
		end.Speed = r.Faces[end.face].Before
		towards = -end.Speed
	} else {
		end.face = w.face + w.n - 1
		end.cell = &r.Cells[w.cell+w.n-1]
		end.Speed = r.Faces[end.face].Behind
		towards = end.Speed
	}
	if towards > 0 {
		end.P, end.T = r.stagnation(end.P, end.T, end.Speed)
	}
	end.W = end.P / math.Sqrt(end.T)
}

// Limit is what of a flow the rows at a part let through: no row gives more than is sonic in its bore,
// and none takes more than an open end would. A law asks for the pressure behind the part in a pipe of
// the part's own size; in a narrower line the gas is faster, and with more it would
// arrive with a higher stagnation pressure than it came with (second law).
func (r *Rows) Limit(q float64, up, down *End) float64 {
	if up.cell != nil {
		sonic, limit := r.sonicTemperature(up.StaticT, up.Speed), up.AtRest*up.cell.choke
		if q*q*sonic > limit*limit {
			q = limit / math.Sqrt(sonic)
		}
	}
	ratio := down.P / up.P
	if up.cell != nil && ratio > r.still {
		q = r.turning(q, up, down.P, (1-ratio)*r.perChord)
	}
	if down.cell != nil {
		q = r.openInlet(q, down.cell, up, down.AtRest)
	}
	return q
}

// turning is a flow out of a row, or less of it where next to no pressure drives it: from nothing on, as much as would come in through the
// row's open end, and all of it where the chord to no flow ends, at share 1. In a wide part at a narrow row a flow that comes to rest
// would else stand in a corner, between the slope of the part and that of the row's inlet, and a step could not be longer than it
// takes to cross it.
func (r *Rows) turning(q float64, up *End, p, share float64) float64 {
	least := r.openInlet(q, up.cell, up, p)
	return least + (q-least)*share
}

// openInlet is a flow, or what a line takes of it through an open, sharp-edged end: from rest at p_up to
// the line's static pressure p, at least the sonic one,
//
//	p_up - p0 = EntryLoss (p0 - p)
//
// and without a loss from p0 to p.
func (r *Rows) openInlet(q float64, cell *Cell, up *End, p float64) float64 {
	p = max(p, r.inletSonic*up.P)
	past := (up.P + line.EntryLoss*p) * (1 / (1 + line.EntryLoss))
	choked := cell.choke * r.sonicShare * up.W * past // times up.P
	if r.inlet.Passes(q*up.P, choked, past, p) {
		return q
	}
	return min(q, choked/up.P*r.inlet.Phi(p/past))
}

// Enthalpy is the energy that a flow of an end's gas carries [W].
func (r *Rows) Enthalpy(q float64, gas *End) float64 {
	h := q * r.cp * gas.StaticT
	if gas.cell != nil {
		h += 0.5 * q * gas.Speed * gas.Speed
	}
	return h
}

// Leave and Arrive book a flow q with the energy h, both in the sense of the rows,
// before a part and behind it.
func (r *Rows) Leave(end *End, q, h float64, d []float64) {
	if end.cell == nil {
		r.give(d, end.node, -q, -h)
		return
	}
	u := end.Speed
	if q < 0 && u > 0 { // gas comes in against the motion: it brings no momentum
		u = 0
	}
	r.Faces[end.face].pressure -= q * u * end.cell.invArea
	// The motion's own energy: what the flow takes out or brings in of it.
	d[2*end.node] -= q
	d[2*end.node+1] -= h - q*(u*end.Speed-0.5*end.Speed*end.Speed)
}

// Arrive is Leave behind a part.
func (r *Rows) Arrive(end *End, q, h float64, d []float64) {
	if end.cell == nil {
		r.give(d, end.node, q, h)
		return
	}
	f := &r.Faces[end.face]
	u := end.Speed
	if q > 0 && u < 0 {
		u = 0
	}
	f.pressure += q * u * end.cell.invArea
	if f.kind == joint {
		f.half += q * u * end.cell.invArea
	}
	d[2*end.node] += q
	d[2*end.node+1] += h - q*(u*end.Speed-0.5*end.Speed*end.Speed)
}
