package launcher

import (
	"math"
	"slices"

	"puffproof/limits/finding"
)

// Rungs lists the pressures of a launcher that matter, in the order that they
// must have, each with its tolerance band; the limits come last. energyLimit is
// the start pressure up to which every shot holds [Pa gauge], NaN where it was not
// computed.
func (l *Launcher) Rungs(energyLimit float64) []Rung {
	var out []Rung
	add := func(name string, what finding.Text, gauge, low, high float64) {
		out = append(out, Rung{Name: name, What: what, Gauge: gauge, Low: low, High: high})
	}
	if s := l.Switch; s != nil {
		if s.CutIn.Set {
			add("cut-in", finding.Words("the switch starts the supply"), s.CutIn.Nominal, s.CutIn.Low, s.CutIn.High)
		}
		add("cut-out", finding.Words("the switch stops the supply"), s.CutOut.Nominal, s.CutOut.Low, s.CutOut.High)
	}
	works := l.Working()
	if at := l.Resting().Shown(l); at.Set && works.By != StopTimer {
		add("at rest", finding.Words("what is open while it fills lets out all that the supply delivers"), at.Nominal, at.Low, at.High)
		out[len(out)-1].Under = Yes
	}
	if w := l.stops(); w.By != StopUnknown {
		from, at, normal := w.High, w.High, w.High
		name, what := "highest in normal running", "with the gauge's error and the overshoot while the switch reacts"
		switch w.By {
		case StopSwitch:
			from = min(l.Switch.CutOut.High, normal)
		case StopMark:
			from, at, name, what = w.Low, w.Nominal, "mark", "a person stops pumping here, with the gauge's error"
		case StopTimer:
			from, at, name, what = works.Low, works.Nominal, "timer", "the timer stops the supply, the heat of the fill included"
		case StopPrefill:
			from, at, name, what = w.Low, w.Nominal, "filled to", "it comes filled"
		case StopRelief:
			what = "the relief valve carries the supply"
		default:
			from, at, name, what = w.Low, w.Nominal, "dead head", "the supply pushes no further"
		}
		add(name, finding.Words(what), at, from, normal)
		if ready, _ := l.ReadyHigh(); ready > normal {
			add("left in the heat", finding.Words("filled cold, then sealed at the hottest temperature"), ready, normal, ready)
		}
	}
	if i := l.ReliefOnSupply(); i >= 0 {
		p := &l.Paths[i]
		add("relief set", finding.Words("the relief valve starts to open"), p.SetPressure.Nominal, p.SetPressure.Low, p.SetPressure.High)
		add("relief full flow", finding.Words("the relief valve is fully open"), p.FullFlowPressure.Nominal,
			min(p.FullFlowPressure.Low, p.FullFlowPressure.Nominal), p.FullFlowHigh())
	}
	if o := l.Overcharge(); o.Known && l.Supply != nil && l.Switch != nil {
		add("highest at a fault", finding.Say("the switch welded shut: %s", o.Why), o.Pressure, o.Pressure, o.Pressure)
		out = sunk(out)
	}
	return append(out, l.limitRungs(energyLimit)...)
}

// sunk moves the last rung, where the supply ends, below those that it never reaches.
func sunk(r []Rung) []Rung {
	i := len(r) - 1
	for ; i > 0 && r[i-1].Gauge > r[i].Gauge && r[i-1].Name != "cut-out" && r[i-1].Name != "cut-in"; i-- {
		r[i-1], r[i] = r[i], r[i-1]
	}
	return r
}

// limitRungs are the pressures that must not be reached, lowest first.
func (l *Launcher) limitRungs(energyLimit float64) []Rung {
	var out []Rung
	if !math.IsNaN(energyLimit) && !math.IsInf(energyLimit, 0) {
		out = append(out, Rung{Name: "energy limit", What: finding.Words("from above it some launcher within the tolerances shoots too hard"),
			Gauge: energyLimit, Low: energyLimit, High: energyLimit, Limit: Yes})
	}
	if r := l.LowestRating(); !math.IsInf(r, 1) {
		out = append(out, Rung{Name: "lowest rating", What: finding.Words("of the vessels that are filled and of the barrel"), Gauge: r, Low: r,
			High: r, Limit: Yes})
	}
	slices.SortStableFunc(out, func(a, b Rung) int {
		if a.Gauge < b.Gauge {
			return -1
		}
		return 1
	})
	return out
}

// Rung is one pressure of the ladder with its tolerance band [Pa gauge].
type Rung struct {
	Name             string
	Gauge, Low, High float64
	What             finding.Text // in a builder's words
	Limit            Answer       // Yes: nothing may reach it
	Under            Answer       // Yes: it may reach into the next above
}

// LowestRating is the lowest rating of the supplied volumes, of the barrel and of the
// hoses [Pa gauge]; +Inf where none is stated.
func (l *Launcher) LowestRating() float64 {
	lowest := math.Inf(1)
	joined := l.JoinedTo(l.Node(l.Sensed()))
	for i, p := range l.Parts() {
		if p.Rated.Set && (i >= len(joined) || joined[i]) {
			limit, _ := l.Rating(p)
			lowest = min(lowest, limit)
		}
	}
	hoses, _ := l.HoseParts()
	for _, p := range hoses {
		limit, _ := l.Rating(p)
		lowest = min(lowest, limit)
	}
	return lowest
}
