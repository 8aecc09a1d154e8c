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

// Opening lets a valve that current moves open at once too where its stated opening time is doubted: the sooner it opens, the harder the
// shot as a rule.
func Opening(p *launcher.PathSpec) {
	if stated, other := OtherOpening(p); other {
		p.OpeningSaid.Keep(stated)
		p.OpeningTime.Low = 0
	}
}
