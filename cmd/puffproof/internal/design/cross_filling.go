package design

import (
	"slices"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// checkFilling finds what is wrong with the filling of a launcher without a pressure switch.
func (r *reader) checkFilling(l *launcher.Launcher) {
	s := l.Supply
	if s == nil {
		return
	}
	if s.PumpedTo.Set && l.GaugeOn(s.Feeds) == nil {
		r.value("supply.pumped_to", "no gauge shows the mark", `a [gauge] with on = "`+s.Feeds+`"`)
	}
	r.reaches("supply.dead_head", &s.DeadHead, "supply.pumped_to", &s.PumpedTo, "nobody pumps to a mark that the pump cannot reach")
	if s.PumpedTo.Set && s.PumpedTo.High > mostWorking*(1+1e-12) {
		r.tooHigh("supply.pumped_to")
	}
	regulated := slices.ContainsFunc(l.Paths, func(p launcher.PathSpec) bool { return p.Kind == pneumatics.Regulator })
	if regulated || !s.DeadHead.Set || s.DeadHead.High <= mostWorking || len(r.Problems()) > 0 {
		return
	}
	if high, ok := l.NormalHigh(); ok && high > mostWorking {
		r.value("supply.dead_head", "without a pressure switch it is the working pressure",
			"at most "+highest(r.units)+", or a relief valve that carries the supply", checkedUpTo(r.units))
	}
}

// reaches refuses a stated pressure that its source ends at and that is below another one that the source fills to, tolerances
// included: whatever fills further than it can is not this source, and faults would be judged by too little.
func (r *reader) reaches(key string, ends *launcher.Band, to string, filled *launcher.Band, hint string) {
	const hair = 1 // [Pa], of rounding
	if ends.Set && ends.Line != 0 && filled.Set && ends.High < filled.Low-hair {
		r.value(key, "cannot push as far as "+to, r.atLeast(quantity.Gauge, filled.Low), hint)
	}
}

// checkPrefilled finds what is wrong with a vessel that comes filled.
func (r *reader) checkPrefilled(l *launcher.Launcher) {
	first := ""
	for i := range l.Volumes {
		v := &l.Volumes[i]
		key := "volumes." + v.Name + ".filled_to"
		switch {
		case !v.FilledTo.Set && v.FillerReaches.Set:
			r.value("volumes."+v.Name+".filler_reaches", "belongs to a vessel that comes filled", "filled_to beside it")
		case !v.FilledTo.Set:
		case l.Supply != nil:
			r.value(key, "a vessel that comes filled stands in a file without a supply", "no filled_to, or no [supply]",
				"what fills it here decides its pressure")
		case l.Switch != nil:
			r.value(key, "no switch fills or stops a vessel that comes filled", "no [pressure_switch]")
		case first != "":
			r.value(key, "a second vessel comes filled", "one: "+first,
				"judge two that are filled alike as one of both their volumes; of two pressures the higher counts")
		case v.FilledTo.High > mostWorking*(1+1e-12):
			r.tooHigh(key)
		default:
			first = v.Name
			r.reaches("volumes."+v.Name+".filler_reaches", &v.FillerReaches, "filled_to", &v.FilledTo,
				"what fills it pushes at least as far as it fills; say how far it could by mistake, or leave filler_reaches out")
		}
	}
}
