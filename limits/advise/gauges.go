package advise

import (
	"math"
	"strings"

	"puffproof/limits/finding"
	"puffproof/limits/verdict"
)

// scale is the least end of a gauge's scale that shows what the launcher of the last round comes to, as gauge.range judges it, for the
// gauge that needs most of it [Pa gauge]; 0: not known.
func (a *attempt) scale() (end float64) {
	l := a.last.l
	for i := range l.Gauges {
		if least := verdict.LeastScale(l, l.Gauges[i].On); least > end {
			end = least
		}
	}
	return end
}

// reach takes new gauges where the scale of one that is there ends below what it has to show.
func (a *attempt) reach() {
	end := a.scale()
	for i := range a.base.l.Gauges {
		if a.base.l.Gauges[i].Range.Low < end && !keeps(a.base.keep, "gauge.range") {
			a.newGauge()
			return
		}
	}
}

// gauges lets the scales of the gauges that are bought reach what they have to show, as finely as
// the target asks for.
func (a *attempt) gauges() {
	least := a.scale()
	if !(least > 0) {
		return
	}
	end := atLeast(gaugeRanges, least)
	class := gaugeClasses[a.fine]
	if end > 2.5e5 {
		class = math.Min(class, 1)
	}
	for _, c := range a.laid {
		at := c.Key[:strings.LastIndexByte(c.Key, '.')+1]
		switch {
		case !strings.HasPrefix(c.Key, "gauge"):
			continue
		case strings.HasSuffix(c.Key, ".range"):
			c.To = stated(end, finding.Bars)
			a.found = merged(a.found, []Change{c})
			if a.fine > 0 {
				a.found = merged(a.found, []Change{{Key: at + "graduation", To: stated(end*class/100, finding.Bars),
					Why: "fine enough for the target"}})
			}
		case strings.HasSuffix(c.Key, ".class"):
			c.To = bare(class)
			a.found = merged(a.found, []Change{c})
		}
	}
}

// newGauge takes gauges of the class that is asked for; a gauge that was kept so far is one to be
// bought.
func (a *attempt) newGauge() bool {
	if a.fine >= len(gaugeClasses) {
		a.fine = len(gaugeClasses) - 1
		return false
	}
	var list []Change
	for i := range a.base.l.Gauges {
		g := &a.base.l.Gauges[i]
		at := "gauge."
		if len(a.base.l.Gauges) > 1 {
			at = gaugeTable(i)
		}
		const why = "tells the target from zero, and shows what a fault reaches"
		list = append(list, Change{Key: at + "range", To: number(g.Range.Nominal, finding.Bars, 0), Why: why, Sort: Bought, Part: "gauge"},
			Change{Key: at + "stop_pin", To: yes(false), Why: why, Sort: Bought})
		if class := gaugeClasses[a.fine]; !g.Error.Set && !(g.Class > 0 && g.Class <= class) {
			list = append(list, Change{Key: at + "class", To: bare(class), Why: why, Sort: Bought, Part: "gauge"})
		}
	}
	a.lay(list...)
	return len(a.base.l.Gauges) > 0
}
