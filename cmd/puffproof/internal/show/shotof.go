package show

import (
	"puffproof/limits/budget"
	"puffproof/limits/finding"
	"puffproof/limits/worst"
)

// TraceLength is the number of points of a shot's curves: more than any screen
// shows.
const TraceLength = 400

// ShotOf turns a shot into what the screens show: pressures become gauge
// readings, and travel counts from the seat.
func ShotOf(s *worst.Nominal) ShotView {
	r, ambient := s.Result, s.Circuit.Ambient.Pressure
	v := ShotView{
		Outcome:     r.Outcome.String(),
		MuzzleSpeed: r.MuzzleSpeed, MuzzleEnergy: r.MuzzleEnergy,
		FinalSpeed: r.FinalSpeed, FinalEnergy: r.FinalEnergy,
		ExitTime: r.ExitTime, ExitGauge: r.BarrelExit - ambient,
		ContactArea: s.ContactArea, PeakGauge: r.BarrelPeak - ambient, Ceiling: s.Ceiling,
		RestTravel: r.Position, RestGauge: r.Barrel.Pressure - ambient, Freed: r.Freed,
		Account:      budget.Account(r),
		MassResidual: r.MassResidual, EnergyResidual: r.EnergyResidual,
		Highest: s.Highest, Travel: s.Circuit.Barrel.Travel - s.Scenario.Seat,
	}
	if s.ContactArea > 0 {
		v.AreaEnergy = r.FinalEnergy / s.ContactArea
	}
	if s.Above > 0 {
		v.Notes = append(v.Notes, finding.Say("This start is %s above the highest pressure of normal operation.",
			finding.Bar(s.Above).In(finding.Shortest, 2)))
	}
	for i, vol := range s.Circuit.Volumes {
		v.Start = append(v.Start, NodeGauge{Name: vol.Name, Gauge: s.Scenario.Volumes[i].Pressure - ambient})
		v.After = append(v.After, NodeGauge{Name: vol.Name, Gauge: r.Volumes[i].Pressure - ambient})
	}
	v.Series = Series{Time: r.Trace.Time, Speed: r.Trace.Speed}
	for i := range r.Trace.Time {
		v.Series.Travel = append(v.Series.Travel, r.Trace.Position[i]-s.Scenario.Seat)
		v.Series.Gauge = append(v.Series.Gauge, r.Trace.Barrel[i]-ambient)
	}
	return v
}
