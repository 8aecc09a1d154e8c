package wave

import (
	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/line"
)

// hosesOf gives the lines of a circuit's path as this model's hoses: the same bore,
// length and loss factors; friction by this package's own law.
func hosesOf(lines []line.Piece) (hoses []Hose) {
	for _, l := range lines {
		share := 1.0
		if l.Conductance > 0 {
			share = 1 / (l.Conductance * l.Conductance)
		}
		hoses = append(hoses, Hose{Bore: l.Bore, Length: l.Length, Friction: PipeFriction, Wall: share, Fittings: share * l.Loss,
			Entry: line.EntryLoss})
	}
	return hoses
}

// feedLines lays the lines of the paths that do not feed the barrel. Where a spring,
// or the breech, is at one of their ends they stay what the circuit makes of a short
// line: a resistance whose air is in the node on its side.
func (r *runner) feedLines() {
	kept := r.links[:0]
	for _, l := range r.links {
		p := &r.c.Paths[l.path]
		switch {
		case len(p.Before)+len(p.After) == 0:
			kept = append(kept, l)
		case r.valves[l.path].spring || l.from == breech || l.to == breech:
			r.shorten(l)
			kept = append(kept, l)
		default:
			r.plumb(&plumbing{path: l.path, from: l.from, to: l.to, before: hosesOf(p.Before), after: hosesOf(p.After),
				whole: p.Kind == pneumatics.Hose, own: true})
		}
	}
	r.links = kept
}

// shorten makes the lines of a link a resistance, and their air that of the nodes on
// their sides.
func (r *runner) shorten(l link) {
	p := r.c.Paths[l.path]
	law := p.Hose
	if p.Kind == pneumatics.Hose {
		law = flow.Restriction{}
	}
	for _, pieces := range [][]line.Piece{p.Before, p.After} {
		for i := range pieces {
			piece := pieces[i].SteadyFlow(r.g.Gas)
			if law.IsZero() {
				law = piece
				continue
			}
			law = flow.Series(law, piece, r.g.Gas)
		}
	}
	if p.Hose = law; p.Kind == pneumatics.Hose {
		p.Flow, p.Hose = law, flow.Restriction{}
	}
	r.valves[l.path] = newValve(&r.g, &p, r.sc, l.path)
	for _, end := range []struct {
		node  int
		lines []line.Piece
	}{{l.from, p.Before}, {l.to, p.After}} {
		if end.node >= 0 {
			n := &r.nodes[end.node]
			*n = r.nodeAt(r.sc.Volumes[end.node], n.volume+volumeOf(hosesOf(end.lines)))
		}
	}
}
