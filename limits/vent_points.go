package limits

import "puffproof/pneumatics"

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
	for _, i := range v.in.Launcher.aimedOutlets() {
		w := v.ends[fastEnd][0].Clone()
		w.Paths[i].To = "barrel"
		worst := map[bool]BarrelPush{} // with hands at the muzzle, and without
		for _, s := range ventScenarios() {
			if s.from == pneumatics.Firing { // a shot is under way
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
func (v *venter) blown(i int, s ventScenario, one blow) (BarrelPush, error) {
	outlet := &v.in.Launcher.Paths[i]
	p := BarrelPush{Path: outlet.Name, Points: pointsOf(outlet), Scenario: one.name, Kind: s.kind, From: one.sc.To}
	if one.sc.To == pneumatics.Off {
		p.From = s.from
	}
	return p, v.pushes(&p, one.ventSetup)
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
