package doubt

import "puffproof/limits/launcher"

// OtherOpening gives the opening time that the design states [s], and tells whether it is beyond what the valve's drive makes of it. Some
// large valves are slower than the usual 40 ms of a coil that lifts the seal itself and 150 ms of a pilot; three times as much none is
// (both from memory, common practice, no source).
func OtherOpening(p *launcher.PathSpec) (stated launcher.Band, other bool) {
	const slowest = 3
	stated = p.OpeningSaid.Of(p.OpeningTime)
	return stated, stated.Set && p.Usual > 0 && stated.Low > slowest*p.Usual
}

// Pulse lets a pulse that may end before its valve is open count as one in which it opens fully too: how far a coil or a hand gets in a
// part of its time is not known, and a valve that has begun to open may go on by itself.
func Pulse(p *launcher.PathSpec) {
	if p.Pulse.Set && p.OpeningTime.Set && p.Pulse.Low < p.OpeningTime.High {
		p.PulseSaid.Keep(p.Pulse)
		p.Pulse.High = max(p.Pulse.High, p.OpeningTime.High)
	}
}

// Opening lets a valve that current moves open at once too where its stated opening time is doubted: the sooner it opens, the harder the
// shot as a rule.
func Opening(p *launcher.PathSpec) {
	if stated, other := OtherOpening(p); other {
		p.OpeningSaid.Keep(stated)
		p.OpeningTime.Low = 0
	}
}
