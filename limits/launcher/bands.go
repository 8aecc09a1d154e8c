package launcher

// Bands lists every band of the machine itself in the order of the design file: the
// catalogue without gauges, people and limits.
func (l *Launcher) Bands() []*Band {
	c := l.catalogue(0)
	out := make([]*Band, c.machine)
	for i := range out {
		out[i] = c.list[i].Band
	}
	return out
}

// Assumed lists every band of the machine that the design did not state, each once: two
// ways of one body share its hose.
func (l *Launcher) Assumed() (out []Band) {
	seen := map[string]bool{}
	for _, b := range l.Bands() {
		if b.Set && b.Assumed && !(b.Key != "" && seen[b.Key]) {
			seen[b.Key] = true
			out = append(out, *b)
		}
	}
	return out
}
