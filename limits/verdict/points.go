package verdict

import (
	"math"
	"strings"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
)

// ventPoints judges whether an outlet that blows into the barrel pushes a loaded
// projectile out. Where it blows and nobody says, a failure is unknown: to state it
// may settle it.
func ventPoints(a *assessment.Assessment, v *finding.Verdict) {
	v.Source, v.Basis = "own rule of this project: an outlet that points at the barrel counts as one that leads into it", finding.OnModel
	e := a.Emptying
	switch {
	case len(vent.AimedOutlets(a.Launcher)) == 0:
		v.NotApplicable(finding.Words("every outlet to the atmosphere points away from the barrel, or there is none"))
		return
	case len(e.Trouble) != 0:
		v.Unknown(e.Trouble)
		return
	}
	stated, open := hardestAimed(a, "barrel"), hardestAimed(a, "unknown")
	worst := stated
	if worst == nil || open != nil && open.Energy > worst.Energy {
		worst = open
	}
	switch {
	case stated != nil && aimedExceeds(a, stated):
		judgeAimed(v, a, stated)
	case open != nil && aimedExceeds(a, open):
		v.Unknown(finding.Say("where %s blows is not known: into the barrel it would push a loaded projectile out with %s (%s%s)",
			openOutlets(a.Launcher), finding.WorstJoule(open.Judged), open.Scenario, aimedWhy(a, open)))
		v.Advice = finding.Words(`Look where each outlet blows and state points = "away" or "barrel"; turn it away from the muzzle ` +
			"and from people.")
	case worst == nil:
		v.Judge(0, e.LeftLimit)
		v.Why = finding.Words("no outlet that may point at the barrel ever opens")
	default:
		judgeAimed(v, a, worst)
	}
}

// openOutlets names the outlets whose direction is not known.
func openOutlets(l *launcher.Launcher) string {
	var names []string
	for _, i := range vent.AimedOutlets(l) {
		if p := &l.Paths[i]; vent.PointsOf(p) == "unknown" {
			names = append(names, "paths."+p.Name)
		}
	}
	return strings.Join(names, ", ")
}

// judgeAimed judges the push of one outlet.
func judgeAimed(v *finding.Verdict, a *assessment.Assessment, p *vent.BarrelPush) {
	if p.Bound && aimedExceeds(a, p) {
		v.Unknown(finding.Say("paths.%s, %s: taken to lead into the barrel, what a loaded projectile does could not be settled; the air could "+
			"give it up to %s",
			p.Path, p.Scenario, finding.WorstJoule(p.Energy)))
		v.Advice = finding.Words("Turn the outlet away from muzzle and barrel.")
		return
	}
	limit, _ := aimedLimit(a, p)
	v.Judge(p.Judged, limit)
	if p.Energy <= 0 {
		v.Why = finding.Words("blowing into the barrel it does not push a loaded projectile out")
		return
	}
	v.Why = finding.Say("paths.%s, %s: taken to lead into the barrel it pushes a loaded projectile out at %s%s",
		p.Path, p.Scenario, finding.Speed(p.Speed), aimedWhy(a, p))
	v.Mend("Turn the outlet away from muzzle and barrel.")
}

// aimedLimit is what the push of an outlet may have [J], and in words why it is none: of a vent as of one that leads into the barrel, which
// is none at all where switching off, or a pulled plug, is the shot; a relief valve lifts at a fault.
func aimedLimit(a *assessment.Assessment, p *vent.BarrelPush) (limit float64, why string) {
	if p.RunsOn {
		return handsLimit(a, p)
	}
	return pushLimit(a, p)
}

func aimedExceeds(a *assessment.Assessment, p *vent.BarrelPush) bool {
	limit, _ := aimedLimit(a, p)
	return p.Judged > limit
}

// aimedWhy says why a push may have no energy at all.
func aimedWhy(a *assessment.Assessment, p *vent.BarrelPush) string {
	if p.Energy <= 0 {
		return ""
	}
	_, why := aimedLimit(a, p)
	return why
}

// hardestAimed is the push that exceeds its limit the most, of the outlets of
// which the design says so; nil: there is none.
func hardestAimed(a *assessment.Assessment, points string) *vent.BarrelPush {
	var worst *vent.BarrelPush
	excess := math.Inf(-1)
	for i := range a.Emptying.Aimed {
		p := &a.Emptying.Aimed[i]
		limit, _ := aimedLimit(a, p)
		if over := p.Judged - limit; p.Points == points && over > excess {
			worst, excess = p, over
		}
	}
	return worst
}
