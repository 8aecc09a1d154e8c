package vent

import "puffproof/pneumatics"

// byHand names the hand valves that somebody has to open once it is switched off: with all of them left as they were,
// some volume is not empty in time. No hand valve opens by itself.
func (v *venter) byHand() ([]string, error) {
	var needed []string
	for _, s := range scenarios() {
		if s.Kind != Shutdown {
			continue
		}
		for _, one := range v.setups(s, SlowEnd) {
			var names []string
			for i := range one.Circuit.Paths {
				p := &one.Circuit.Paths[i]
				if p.Kind == pneumatics.HandValve && p.OpenIn.Has(pneumatics.Off) && !p.OpenIn.Has(s.From) {
					names = append(names, p.Name)
					one.scenario.Stuck = append(one.scenario.Stuck, pneumatics.Stuck{Path: i})
				}
			}
			if len(names) <= len(needed) {
				continue
			}
			late, err := v.late(one)
			if err != nil {
				return nil, err
			}
			if late {
				needed = names
			}
		}
	}
	return needed, nil
}

// late tells that some volume is not at the target in the time allowed.
func (v *venter) late(one *Setup) (bool, error) {
	for _, keeps := range one.Residual()[:len(one.Circuit.Volumes)] {
		if !(keeps < v.e.Target) {
			return true, nil
		}
	}
	times, err := v.e.Slowest(one, v.until)
	if err != nil {
		return false, err
	}
	for _, t := range times {
		if !(t <= v.within) {
			return true, nil
		}
	}
	return false, nil
}
