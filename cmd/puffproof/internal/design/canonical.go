package design

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// Designs that say the same give the same texts: in whatever order their tables stand,
// and in whatever units their figures. A search that began with another order, or with
// figures that differ by a rounding, would end at figures that differ in their last digit.

// known is how many digits of a figure are kept [-]: far more than anybody measures, and
// fewer than the roundings of a conversion of units reach.
const known = 13

// asWritten takes the roundings of a conversion of units off a figure in SI.
func asWritten(v float64) float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return v
	}
	out, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', known, 64), 64)
	if err != nil {
		return v
	}
	return out
}

// withoutRounding takes them off a quantity.
func withoutRounding(q unit.Quantity) unit.Quantity {
	q.Nominal, q.Low, q.High = asWritten(q.Nominal), asWritten(q.Low), asWritten(q.High)
	return q
}

// inOrder sorts the parts of a launcher: volumes from the supply to the barrel, then by name; paths in the same order, those into the open
// behind the others, relief valves last, each exhaust behind its valve.
func inOrder(l *launcher.Launcher) {
	far := distances(l)
	slices.SortStableFunc(l.Volumes, func(a, b launcher.VolumeSpec) int {
		return cmp.Or(cmp.Compare(far[a.Name], far[b.Name]), cmp.Compare(a.Name, b.Name))
	})
	rank := map[string]int{"barrel": len(l.Volumes), "atmosphere": len(l.Volumes) + 1}
	for i, v := range l.Volumes {
		rank[v.Name] = i
	}
	group := func(p *launcher.PathSpec) int {
		switch {
		case p.Kind == pneumatics.Relief:
			return 2
		case p.To == "atmosphere":
			return 1
		}
		return 0
	}
	valve := map[string]*launcher.PathSpec{}
	before := slices.Clone(l.Paths)
	for i := range before {
		p := &before[i]
		valve[p.Name] = p
	}
	owner := func(p *launcher.PathSpec) *launcher.PathSpec {
		if o := valve[p.Other]; p.Way.Exhausts() && o != nil {
			return o
		}
		return valve[p.Name]
	}
	slices.SortStableFunc(l.Paths, func(a, b launcher.PathSpec) int {
		x, y := owner(&a), owner(&b)
		exhausts := func(p launcher.PathSpec) int {
			if p.Way.Exhausts() {
				return 1
			}
			return 0
		}
		return cmp.Or(cmp.Compare(group(x), group(y)), cmp.Compare(rank[x.From], rank[y.From]), cmp.Compare(rank[x.To], rank[y.To]),
			cmp.Compare(x.Name, y.Name), cmp.Compare(exhausts(a), exhausts(b)))
	})
	slices.SortStableFunc(l.Gauges, func(a, b launcher.GaugeSpec) int {
		return cmp.Or(cmp.Compare(rank[a.On], rank[b.On]), cmp.Compare(a.Range.Nominal, b.Range.Nominal), cmp.Compare(a.Class, b.Class))
	})
	slices.SortStableFunc(l.Objects, func(a, b launcher.ObjectSpec) int { return cmp.Compare(a.Name, b.Name) })
	slices.SortStableFunc(l.Checklist, func(a, b finding.Confirmation) int { return cmp.Compare(a.Item, b.Item) })
}

// distances counts the paths from the volume that the supply feeds to each other one; the
// most for one that none leads to.
func distances(l *launcher.Launcher) map[string]int {
	far := map[string]int{}
	for _, v := range l.Volumes {
		far[v.Name] = math.MaxInt
	}
	if l.Supply == nil {
		return far
	}
	at := []string{l.Supply.Feeds}
	for steps := 0; len(at) > 0; steps++ {
		var next []string
		for _, name := range at {
			if d, is := far[name]; !is || d <= steps {
				continue
			}
			far[name] = steps
			for i := range l.Paths {
				if l.Paths[i].From == name {
					next = append(next, l.Paths[i].To)
				}
			}
		}
		at = next
	}
	return far
}
