package doubt

import "puffproof/limits/launcher"

// Opening lets a valve that current moves open at once too where its stated opening time is beyond what its drive makes of it: the
// sooner it opens, the harder the shot as a rule. Some large valves are slower than the usual 40 ms of a coil that lifts the seal itself
// and 150 ms of a pilot; three times as much none is (both from memory, common practice, no source).
func Opening(p *launcher.PathSpec) {
	const slowest = 3
	if o := &p.OpeningTime; o.Set && p.Usual > 0 && o.Low > slowest*p.Usual {
		p.OpeningSaid.Keep(*o)
		o.Low = 0
	}
}
