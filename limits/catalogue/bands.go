package catalogue

import "puffproof/limits/launcher"

// Machine lists every band of the machine itself in the order of the design file: the
// catalogue without gauges, people and limits.
func Machine(l *launcher.Launcher) []*launcher.Band {
	c := newCatalogue(l, 0)
	out := make([]*launcher.Band, c.machine)
	for i := range out {
		out[i] = c.list[i].Band
	}
	return out
}

// Assumed lists every band of the machine that the design did not state, each once: two
// ways of one body share its hose.
func Assumed(l *launcher.Launcher) (out []launcher.Band) {
	seen := map[string]bool{}
	for _, b := range Machine(l) {
		if b.Set && b.Assumed && !(b.Key != "" && seen[b.Key]) {
			seen[b.Key] = true
			out = append(out, *b)
		}
	}
	return out
}
