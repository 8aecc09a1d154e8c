package pneumatics

import (
	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/line"
)

// LineVolume is what the lines on the side of a node hold [m3]: the pieces before
// the part of a path from the node, and those after the part of a path to it. In a
// state where the part is shut their air goes where the node's goes.
func (c *Circuit) LineVolume(n Node) float64 {
	sum := 0.0
	for i := range c.Paths {
		p := &c.Paths[i]
		if p.From == n {
			sum += line.Volume(p.Before)
		}
		if p.To == n {
			sum += line.Volume(p.After)
		}
	}
	return sum
}

// SteadyFlow is what a fully open path passes steadily: its part with its hose and its
// lines in series.
func (p *Path) SteadyFlow(g flow.Gas) flow.Restriction {
	if p.Kind == Hose && len(p.Before)+len(p.After) > 0 {
		if p.Flow.IsZero() {
			return flow.Restriction{}
		}
		return line.InSeries(line.Steady(p.Before, &g, line.Alone), line.Steady(p.After, &g, line.Alone), g)
	}
	if p.Flow.IsZero() {
		return p.Flow
	}
	all := line.InSeries(p.Flow, p.Hose, g)
	all = line.InSeries(line.Steady(p.Before, &g, line.Before), all, g)
	return line.InSeries(all, line.Steady(p.After, &g, line.After), g)
}
