package design

import (
	"slices"

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
		r.at("supply.pumped_to", "no gauge shows the mark", bar(s.PumpedTo.Nominal), `a [gauge] with on = "`+s.Feeds+`"`)
	}
	if s.PumpedTo.Set && s.PumpedTo.High > mostWorking*(1+1e-12) {
		r.at("supply.pumped_to", "reaches above 10 bar gauge", bar(s.PumpedTo.High), "at most 10 bar gauge, tolerance included")
	}
	regulated := slices.ContainsFunc(l.Paths, func(p launcher.PathSpec) bool { return p.Kind == pneumatics.Regulator })
	if regulated || !s.DeadHead.Set || s.DeadHead.High <= mostWorking || len(r.Problems()) > 0 {
		return
	}
	if high, ok := l.NormalHigh(); ok && high > mostWorking {
		r.at("supply.dead_head", "without a pressure switch it is the working pressure", bar(s.DeadHead.High), "at most 10 bar gauge, or "+
			"a relief valve that carries the supply", "the gas model was checked up to 10 bar gauge only")
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
			r.at("volumes."+v.Name+".filler_reaches", "belongs to a vessel that comes filled", bar(v.FillerReaches.Nominal), "filled_to beside it")
		case !v.FilledTo.Set:
		case l.Supply != nil:
			r.at(key, "a vessel that comes filled stands in a file without a supply", bar(v.FilledTo.Nominal), "no filled_to, or no [supply]",
				"what fills it here decides its pressure")
		case l.Switch != nil:
			r.at(key, "no switch fills or stops a vessel that comes filled", bar(v.FilledTo.Nominal), "no [pressure_switch]")
		case first != "":
			r.at(key, "a second vessel comes filled", bar(v.FilledTo.Nominal), "one: "+first,
				"judge two that are filled alike as one of both their volumes; of two pressures the higher counts")
		case v.FilledTo.High > mostWorking*(1+1e-12):
			r.at(key, "reaches above 10 bar gauge", bar(v.FilledTo.High), "at most 10 bar gauge, tolerance included")
		default:
			first = v.Name
		}
	}
}
