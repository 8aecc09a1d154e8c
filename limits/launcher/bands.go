package launcher

// Bands lists every band of the design in the order of the design file.
func (l *Launcher) Bands() []*Band {
	a := &l.Ambient
	out := []*Band{&a.Pressure, &a.Temperature, &a.Hottest, &a.Coldest}
	for i := range l.Volumes {
		v := &l.Volumes[i]
		out = append(out, &v.Volume, &v.RatedPressure, &v.InnerDiameter)
	}
	for i := range l.Paths {
		p := &l.Paths[i]
		f := &p.Flow
		out = append(out, &f.Value, &f.CriticalRatio, &f.PressureDropRatio, &f.DischargeCoefficient)
		if h := p.Hose; h != nil {
			out = append(out, &h.Bore, &h.Length, &h.Conductance)
		}
		out = append(out, &p.OpeningTime, &p.ClosingTime, &p.Pulse, &p.MinDifferential, &p.SetPressure,
			&p.FullFlowPressure, &p.ReseatPressure, &p.CrackingPressure, &p.Droop, &p.Creep)
	}
	if s := l.Supply; s != nil {
		out = append(out, &s.FreeAir, &s.DeadHead)
	}
	if s := l.Switch; s != nil {
		out = append(out, &s.CutOut, &s.CutIn, &s.Differential, &s.ReactionTime, &s.GaugeError, &s.AdjustableTo)
	}
	b, p := &l.Barrel, &l.Projectile
	return append(out, &b.Bore, &b.Travel, &b.TubeOuterDiameter, &b.TubeInnerDiameter, &b.Engagement, &b.DeadVolume,
		&b.RatedPressure, &p.Mass, &p.Diameter, &p.InsideDiameter, &p.ContactDiameter, &p.Breakaway, &p.Restart,
		&p.Sliding, &p.Clearance, &p.Drag)
}

// Assumed lists every band that the design did not state.
func (l *Launcher) Assumed() (out []Band) {
	for _, b := range l.Bands() {
		if b.Set && b.Assumed {
			out = append(out, *b)
		}
	}
	return out
}
