package launcher

import "puffproof/pneumatics"

// shuttleSpan is what lifts the shuttle of a quick-exhaust valve all the way [Pa], and the
// least for any diaphragm: it pops (own rule of this project).
const shuttleSpan = 2e3

// Diaphragm tells that a valve that the states move opens by the balance of forces on its
// diaphragm.
func (p *PathSpec) Diaphragm() bool { return p.SeatShare.Set && p.Kind != pneumatics.QuickExhaust }

// balance is that of the path with nominal values: with the outlet at ambient pressure it
// lifts at OpensAt and is fully up at FullAt.
func (p *PathSpec) balance(l *Launcher) pneumatics.Balance {
	b := pneumatics.Balance{SeatShare: p.SeatShare.Nominal, Span: shuttleSpan, Pilot: pneumatics.Atmosphere}
	b.Spring = (1 - b.SeatShare) * p.OpensAt.Nominal
	switch {
	case p.Way == QuickOutlet:
		b.Pilot = l.Node(l.Paths[l.PathIndex(p.Other)].From)
		return b
	case p.PilotInside:
		b.Pilot = l.Node(p.To)
	}
	b.Span = max(b.Span, p.FullAt.Nominal-b.Spring)
	return b
}
