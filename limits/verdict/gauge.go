package verdict

import (
	"math"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// steadyShare is the share of its scale that a gauge bears as a steady load [-].
const steadyShare = 0.75

// LeastScale is the least end of a gauge's scale with which gauge.range holds [Pa gauge], for a gauge on a volume of a launcher: it shows
// what a single fault makes of the pressure, and three quarters of it bear the steady one. NaN where these are not known, or there is no
// such volume.
func LeastScale(l *launcher.Launcher, on string) float64 {
	n := l.Node(on)
	if n < 0 || int(n) >= len(l.Volumes) {
		return math.NaN()
	}
	p := l.VesselPressures()[n]
	return math.Max(p.Fault, p.Normal/steadyShare)
}

// gaugeRange judges whether each gauge can show what a single fault makes of the pressure, and bear what it is steadily
// under: the limit that is the nearer one is shown.
func gaugeRange(a *assessment.Assessment, v *finding.Verdict) {
	v.Source = "EN 837-1 and EN 837-2: steady load up to 75 % of the scale (M: from memory); own rule of this project: a gauge shows the " +
		"highest pressure at a single fault"
	v.Basis = finding.OnData
	l := a.Launcher
	if len(l.Gauges) == 0 {
		v.NotApplicable(finding.Words("no gauge in the design"))
		return
	}
	pressures, most := l.VesselPressures(), -1.0
	for i := range l.Gauges {
		g := &l.Gauges[i]
		n := l.Node(g.On)
		if !g.Range.Set {
			v.Unknown(finding.Say("missing: %s", finding.Key("gauge.range")))
			return
		}
		if n < 0 {
			continue
		}
		p := pressures[n]
		if math.IsNaN(p.Fault) || math.IsNaN(p.Normal) {
			v.Unknown(finding.Say("missing: %s", p.Why))
			return
		}
		for _, one := range [...]struct {
			value, limit float64
			why          string
		}{{p.Fault, g.Range.Low, "the highest pressure at a single fault against the end of its scale"},
			{p.Normal, steadyShare * g.Range.Low, "the steady pressure, heat included, against three quarters of its scale"}} {
			if share := one.value / one.limit; share > most {
				most = share
				v.Judge(one.value, one.limit)
				v.Why = finding.Say("the gauge on %s: %s", g.On, one.why)
			}
		}
	}
	if most < 0 {
		v.NotApplicable(finding.Words("no gauge sits on a volume of the design"))
		return
	}
	v.Mend("A gauge whose scale ends above the highest pressure at a fault, and of which the steady pressure is at most three quarters; " +
		"its class keeps what it tells from zero.")
}
