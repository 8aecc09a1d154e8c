package setpoint

import (
	"puffproof/limits/benchmark"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
	"puffproof/pneumatics/filling"
)

// heldFiring is how long firing is taken to be held where no pulse is stated [s]
// (common practice, no source).
const heldFiring = 1.0

// supplyAnswer computes what the supply does at the answer's settings, or at the
// design's own where no cut-out works.
func (s *solver) supplyAnswer() (*SupplyAnswer, error) {
	w := s.chain.launcher
	if s.out.CutOut == nil {
		w = s.l
	}
	return answerSupply(w)
}

func answerSupply(l *launcher.Launcher) (*SupplyAnswer, error) {
	if l.Supply == nil || l.Switch == nil || l.Supply.MostFreeAir() <= 0 || !l.Supply.DeadHead.Set || !l.Switch.CutIn.Set {
		return nil, nil
	}
	a := &SupplyAnswer{CutOut: l.Switch.CutOut.Nominal, CutIn: l.Switch.CutIn.Nominal, Firing: heldFor(l)}
	c := new(pneumatics.Circuit)
	l.Fill(c)
	full := l.StartPressures(c, a.CutOut, nil)
	start := l.StartPressures(c, a.CutIn, nil)
	empty := make([]float64, len(full))
	after, used, err := oneShot(l, c, full)
	if err != nil {
		return nil, err
	}
	sensed := l.Node(l.Sensed())
	a.AirPerShot = used / c.Gas.Density(c.Ambient.Pressure, c.Ambient.Temperature)
	a.PressureDrop = a.CutOut - after[sensed]
	for _, end := range []struct {
		share float64
		at    func(*Spread) *float64
	}{
		{1, func(s *Spread) *float64 { return &s.Nominal }},
		{l.Supply.LeastShare(), func(s *Spread) *float64 { return &s.Slow }},
		{l.Supply.CurveShare(), func(s *Spread) *float64 { return &s.Fast }},
	} {
		fill := func(from []float64) float64 { return fillTime(l, c, from, end.share) }
		*end.at(&a.FillFromZero), *end.at(&a.FillFromCutIn), *end.at(&a.BetweenShots) = fill(empty), fill(start), fill(after)
	}
	a.DutyAtOneAMin = a.BetweenShots.Nominal / 60
	a.ShotsPerFill = shotsUntil(l, c, full, a.CutIn)
	a.Relief = answerRelief(l)
	return a, nil
}

// heldFor is how long a shot holds its valve open [s].
func heldFor(l *launcher.Launcher) float64 {
	for i := range l.Paths {
		p := &l.Paths[i]
		if p.To == "barrel" && p.OpenIn.Has(pneumatics.Firing) && p.Pulse.Set {
			return p.Pulse.High + p.ClosingTime.High
		}
	}
	return heldFiring
}

// fillTime is the time [s] that the supply at a share of its delivery takes from
// the given pressures to the cut-out at the sensed volume [Pa gauge], by
// simulation at ambient temperature; NaN where it does not get there.
func fillTime(l *launcher.Launcher, c *pneumatics.Circuit, from []float64, share float64) float64 {
	w := *c
	supply := *c.Supply
	supply.FreeAir *= share
	supply.Curve = append([]pneumatics.SupplyPoint(nil), supply.Curve...)
	for i := range supply.Curve {
		supply.Curve[i].FreeAir *= share
	}
	w.Supply = &supply
	return filling.Time(&w, l.Node(l.Sensed()), from, l.Switch.CutOut.Nominal)
}

// oneShot fires one nominal shot from the given pressures without the supply, and
// lets the paths of charging level the rest at ambient temperature. It gives the
// gauge pressures after that [Pa] and the air used [kg].
func oneShot(l *launcher.Launcher, c *pneumatics.Circuit, gauge []float64) (after []float64, used float64, err error) {
	shot := pneumatics.Scenario{From: pneumatics.Armed, To: pneumatics.Firing, Volumes: filling.GaugeConditions(c, gauge),
		Parts: l.Model.Parts, Until: heldFor(l)}
	var sim pneumatics.Sim
	r := sim.Run(c, &shot, pneumatics.Options{Settle: true})
	if why := r.Withheld(); why != "" {
		return nil, 0, &worst.WithheldError{What: "the air used by a shot", Reason: why}
	}
	ta := c.Ambient.Temperature
	rest := make([]float64, len(gauge))
	for i, v := range c.Volumes {
		level := r.Volumes[i].Pressure * ta / r.Volumes[i].Temperature // warmed up again
		rest[i] = level - c.Ambient.Pressure
		used += (c.Ambient.Pressure + gauge[i] - level) * v.Volume / (c.Gas.R * ta)
	}
	level := pneumatics.Scenario{From: pneumatics.Charging, To: pneumatics.Charging, Volumes: filling.GaugeConditions(c, rest),
		NoProjectile: true, Heat: pneumatics.Isothermal, Until: 60}
	r = sim.Run(c, &level, pneumatics.Options{Settle: true})
	if r.Reason != "" {
		return nil, 0, &worst.WithheldError{What: "the pressure after a shot", Reason: r.Reason}
	}
	after = make([]float64, len(gauge))
	for i := range after {
		after[i] = r.Volumes[i].Pressure - c.Ambient.Pressure
	}
	return after, used, nil
}

// mostShots ends the count of shots of one filling.
const mostShots = 50

// shotsUntil counts the shots from full until the sensed volume is at or below
// the cut-in [Pa gauge].
func shotsUntil(l *launcher.Launcher, c *pneumatics.Circuit, full []float64, cutIn float64) int {
	gauge := full
	for n := 1; n < mostShots; n++ {
		after, _, err := oneShot(l, c, gauge)
		if err != nil || after[l.Node(l.Sensed())] <= cutIn {
			return n
		}
		gauge = after
	}
	return mostShots
}

// answerRelief sets the circuit's balance of supply and relief flow beside the
// sizing of API 520.
func answerRelief(l *launcher.Launcher) *ReliefAnswer {
	i := l.ReliefOnSupply()
	over := l.Overcharge()
	if i < 0 || !over.Known || over.FullFlow == 0 {
		return nil
	}
	c := l.StrongSupplyWeakRelief()
	p := &l.Paths[i]
	a := &ReliefAnswer{Balance: over.Balance, FullFlow: over.FullFlow}
	a.MassFlow = c.Supply.Delivery(a.FullFlow) * c.Gas.Density(c.Ambient.Pressure, c.Ambient.Temperature)
	a.Coefficient = p.Flow.DischargeCoefficient.Low
	if p.Flow.Form == launcher.OrificeBore || p.Flow.Form == launcher.SeatBore {
		a.Area = launcher.Circle(p.Flow.Value.Low)
	}
	if a.Coefficient > 0 {
		size := benchmark.GasSizing{MassFlow: a.MassFlow, Temperature: c.Ambient.Temperature, Compressibility: 1,
			MolarMass: benchmark.GasConstant / c.Gas.R,
			Gamma:     c.Gas.Gamma, Inlet: c.Ambient.Pressure + a.FullFlow, Outlet: c.Ambient.Pressure, Coefficient: a.Coefficient}
		a.Needed, a.Critical = size.Area(), size.Critical()
	}
	a.Simulated = balanceBySimulation(c, i)
	return a
}

// balanceBySimulation lets the supply run on until nothing changes [Pa gauge].
func balanceBySimulation(c *pneumatics.Circuit, relief int) float64 {
	fed := c.Supply.Feeds
	sc := pneumatics.Scenario{From: pneumatics.Charging, To: pneumatics.Charging,
		Volumes:      filling.GaugeConditions(c, make([]float64, len(c.Volumes))),
		NoProjectile: true, SupplyRuns: true, Heat: pneumatics.Isothermal, Until: filling.Longest}
	for i := range sc.Volumes { // begin near the end: it settles from any start
		sc.Volumes[i].Pressure += c.Paths[relief].SetPressure
	}
	var sim pneumatics.Sim
	r := sim.Run(c, &sc, pneumatics.Options{Settle: true})
	return r.Volumes[fed].Pressure - c.Ambient.Pressure
}
