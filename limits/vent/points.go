package vent

import (
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// AimedOutlets are the paths to the atmosphere that do not surely point away from
// the barrel: points = "barrel", "unknown" or not stated.
func AimedOutlets(l *launcher.Launcher) (out []int) {
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
func (v *venter) aimed(e *Report) error {
	for _, i := range AimedOutlets(v.in.Launcher) {
		w := v.ends[FastEnd][0].Clone()
		w.Paths[i].To = "barrel"
		worst := map[bool]BarrelPush{} // with hands at the muzzle, and without
		for _, s := range scenarios() {
			if s.From == pneumatics.Firing { // a shot is under way
				continue
			}
			for _, hold := range []float64{0, 1} {
				for _, one := range v.blows(w, i, s, hold) {
					p, err := v.blown(i, s, one)
					if err != nil {
						return err
					}
					hands := p.From == pneumatics.Loading
					if was, there := worst[hands]; !there || p.Energy > was.Energy {
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

// blown is the push of one occasion at which outlet i blows.
func (v *venter) blown(i int, s Scenario, one blow) (BarrelPush, error) {
	outlet := &v.in.Launcher.Paths[i]
	p := BarrelPush{Path: outlet.Name, Points: PointsOf(outlet), Scenario: one.name, Kind: s.Kind, From: one.scenario.To,
		RunsOn: one.scenario.To == pneumatics.Charging}
	if one.scenario.To == pneumatics.Off {
		p.From = s.From
	}
	return p, v.pushes(&p, one.Setup)
}

// blow is one occasion at which an outlet blows.
type blow struct {
	*Setup
	name string
}

// blows are the occasions of outlet i in a way of emptying; none where it stays
// shut.
func (v *venter) blows(w *launcher.Launcher, i int, s Scenario, hold float64) (out []blow) {
	if w.Paths[i].Kind == pneumatics.Relief {
		if s.Kind != Shutdown || s.From != pneumatics.Charging {
			return nil // it lifts while charging only
		}
		one := v.pushSetup(w, s, hold)
		one.scenario.To, one.scenario.SupplyRuns = pneumatics.Charging, true
		return []blow{{one, "the supply runs on"}}
	}
	if one := v.pushSetup(w, s, hold); one.Circuit.Paths[i].OpeningAtLast(&one.scenario) > 0 {
		out = append(out, blow{one, s.String()})
	}
	if s.Kind == Shutdown && s.From == pneumatics.Armed {
		one := v.pushSetup(w, s, hold)
		one.scenario.To = pneumatics.Loading
		if one.Circuit.Paths[i].OpeningAtLast(&one.scenario) > 0 {
			out = append(out, blow{one, "entering loading"})
		}
	}
	return out
}

// PointsOf is where an outlet blows: as stated, or "unknown".
func PointsOf(p *launcher.PathSpec) string {
	if p.Points == "" {
		return "unknown"
	}
	return p.Points
}
