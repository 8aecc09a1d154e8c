package limits

import (
	"fmt"
	"math"
	"strings"

	"puffproof/pneumatics"
)

// aimedOutlets are the paths to the atmosphere that do not surely point away from
// the barrel: points = "barrel", "unknown" or not stated.
func (l *Launcher) aimedOutlets() (out []int) {
	for i := range l.Paths {
		if p := &l.Paths[i]; p.To == "atmosphere" && p.From != "barrel" && p.Points != "away" {
			out = append(out, i)
		}
	}
	return out
}

// aimed runs every such outlet as if it led into the barrel behind a loaded
// projectile: none of its jet gets past. Vents blow where the launcher empties and
// on entering state loading, with hands at the muzzle; a relief valve blows while
// the supply runs on.
func (v *venter) aimed(e *VentReport) error {
	scenarios := ventScenarios()
	for _, i := range v.j.Launcher.aimedOutlets() {
		w := v.ends[fastEnd][0].Clone()
		w.Paths[i].To = "barrel"
		worst := map[bool]BarrelPush{} // with hands at the muzzle, and without
		for _, s := range scenarios {
			if s.from == pneumatics.Firing { // a shot is under way
				continue
			}
			for _, hold := range []float64{0, 1} {
				for _, one := range v.blows(w, i, s, hold) {
					p := BarrelPush{Path: w.Paths[i].Name, Points: pointsOf(&v.j.Launcher.Paths[i]), Scenario: one.name, Kind: s.kind, From: one.sc.To}
					if one.sc.To == pneumatics.Off {
						p.From = s.from
					}
					if err := v.pushes(&p, one.ventSetup); err != nil {
						return err
					}
					hands := p.From == pneumatics.Loading
					if was, known := worst[hands]; !known || p.Energy > was.Energy {
						worst[hands] = p
					}
				}
			}
		}
		for _, hands := range []bool{true, false} {
			if p, ok := worst[hands]; ok {
				e.Aimed = append(e.Aimed, p)
			}
		}
	}
	return nil
}

// blow is one occasion at which an outlet blows.
type blow struct {
	*ventSetup
	name string
}

// blows are the occasions of outlet i in a way of emptying; none where it stays
// shut.
func (v *venter) blows(w *Launcher, i int, s ventScenario, hold float64) (out []blow) {
	if w.Paths[i].Kind == pneumatics.Relief {
		if s.kind != Shutdown || s.from != pneumatics.Charging {
			return nil // it lifts while charging only
		}
		one := v.pushSetup(w, s, hold)
		one.sc.To, one.sc.SupplyRuns = pneumatics.Charging, true
		return []blow{{one, "the supply runs on"}}
	}
	if one := v.pushSetup(w, s, hold); one.c.Paths[i].OpeningAtLast(&one.sc) > 0 {
		out = append(out, blow{one, s.String()})
	}
	if s.kind == Shutdown && s.from == pneumatics.Armed {
		one := v.pushSetup(w, s, hold)
		one.sc.To = pneumatics.Loading
		if one.c.Paths[i].OpeningAtLast(&one.sc) > 0 {
			out = append(out, blow{one, "entering loading"})
		}
	}
	return out
}

func pointsOf(p *PathSpec) string {
	if p.Points == "" {
		return "unknown"
	}
	return p.Points
}

// pointsVerdict judges vent.points: whether an outlet that blows into the barrel
// pushes a loaded projectile out. Where it blows and nobody says, a failure is
// unknown: to state it may settle it.
func (j *judge) pointsVerdict() {
	v := j.newVerdict("vent.points", "Outlets that blow at the projectile", InJoule)
	v.Source, v.Basis = "own rule of this project: an outlet that points at the barrel counts as one that leads into it", OnModel
	defer func() { j.add(v) }()
	e := j.Emptying
	outlets := j.Launcher.aimedOutlets()
	switch {
	case len(outlets) == 0:
		v.notApplicable("every outlet to the atmosphere points away from the barrel, or there is none")
		return
	case e.Trouble != "":
		v.unknown(e.Trouble)
		return
	}
	stated, open := j.hardestAimed("barrel"), j.hardestAimed("unknown")
	if stated != nil && j.aimedExcess(stated) {
		j.judgeAimed(v, stated)
		return
	}
	if open != nil && j.aimedExcess(open) {
		v.unknown(fmt.Sprintf("where %s blows is not known: into the barrel it would push a loaded projectile out with %s (%s%s)",
			j.openOutlets(), joule(open.Energy*ModelFactor), open.Scenario, j.aimedWhy(open)))
		v.Advice = `Look where each outlet blows and state points = "away" or "barrel"; turn it away from the muzzle and from people.`
		return
	}
	worst := stated
	if worst == nil || open != nil && open.Energy > worst.Energy {
		worst = open
	}
	if worst == nil {
		v.judge(0, e.LeftLimit)
		v.Why = "no outlet that may point at the barrel ever opens"
		return
	}
	j.judgeAimed(v, worst)
}

// openOutlets names the outlets whose direction is not known.
func (j *judge) openOutlets() string {
	var names []string
	for _, i := range j.Launcher.aimedOutlets() {
		if p := &j.Launcher.Paths[i]; pointsOf(p) == "unknown" {
			names = append(names, "paths."+p.Name)
		}
	}
	return strings.Join(names, ", ")
}

func (j *judge) judgeAimed(v *Verdict, p *BarrelPush) {
	if p.Bound && j.aimedExcess(p) {
		v.unknown(fmt.Sprintf("paths.%s, %s: taken to lead into the barrel, what a loaded projectile does could not be settled; the air could give it up to %s",
			p.Path, p.Scenario, worstJoule(p.Energy)))
		v.Advice = "Turn the outlet away from muzzle and barrel."
		return
	}
	v.judge(p.Energy*ModelFactor, j.aimedLimit(p))
	if p.Energy <= 0 {
		v.Why = "blowing into the barrel it does not push a loaded projectile out"
		return
	}
	v.Why = fmt.Sprintf("paths.%s, %s: taken to lead into the barrel it pushes a loaded projectile out at %s m/s%s", p.Path, p.Scenario, significant(p.Speed, 2), j.aimedWhy(p))
	if v.Status == Fail {
		v.Advice = "Turn the outlet away from muzzle and barrel."
	}
}

// aimedLimit is what a push may have [J]: nothing with hands at the muzzle, or
// without a guard.
func (j *judge) aimedLimit(p *BarrelPush) float64 {
	if p.From == pneumatics.Loading || Declared(j.Launcher.Barrel.SealGuard) == "" {
		return 0
	}
	return j.Emptying.LeftLimit
}

func (j *judge) aimedExcess(p *BarrelPush) bool { return p.Energy*ModelFactor > j.aimedLimit(p) }

func (j *judge) aimedWhy(p *BarrelPush) string {
	switch {
	case p.Energy <= 0:
		return ""
	case p.From == pneumatics.Loading:
		return ", while hands are at the muzzle"
	case Declared(j.Launcher.Barrel.SealGuard) == "":
		return ", and no guard keeps faces and fingers off the muzzle"
	}
	return ""
}

// hardestAimed is the push that exceeds its limit the most, of the outlets of
// which the design says so; nil: there is none.
func (j *judge) hardestAimed(points string) *BarrelPush {
	var worst *BarrelPush
	excess := math.Inf(-1)
	for i := range j.Emptying.Aimed {
		p := &j.Emptying.Aimed[i]
		if over := p.Energy*ModelFactor - j.aimedLimit(p); p.Points == points && over > excess {
			worst, excess = p, over
		}
	}
	return worst
}
