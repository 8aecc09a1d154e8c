package app

import (
	"math"
	"puffproof/cmd/puffproof/internal/render"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// shotRun is one run of the nominal circuit and what it was a run of.
type shotRun struct {
	Circuit     pneumatics.Circuit
	Scenario    pneumatics.Scenario
	Result      *pneumatics.Result
	Ceiling     float64            // of this shot [J]
	ContactArea float64            // nominal [m2]; 0: not stated
	Highest     *worst.ShotFigures // over the seats; nil where the seat is fixed
	Notes       []string
}

// view turns a run into what the screens show: pressures become gauge readings.
// A run whose balances do not close is an error.
func (s shotRun) view() (render.ShotView, error) {
	r, ambient := s.Result, s.Circuit.Ambient.Pressure
	if why := r.Withheld(); why != "" {
		return render.ShotView{}, withheldError(why)
	}
	v := render.ShotView{
		Outcome:     r.Outcome.String(),
		MuzzleSpeed: r.MuzzleSpeed, MuzzleEnergy: r.MuzzleEnergy,
		FinalSpeed: r.FinalSpeed, FinalEnergy: r.FinalEnergy,
		ExitTime: r.ExitTime, ExitGauge: r.BarrelExit - ambient,
		ContactArea: s.ContactArea, PeakGauge: r.BarrelPeak - ambient, Ceiling: s.Ceiling,
		RestTravel: r.Position, RestGauge: r.Barrel.Pressure - ambient, Freed: r.Freed,
		Account:      accountLines(r),
		MassResidual: r.MassResidual, EnergyResidual: r.EnergyResidual,
		Highest: s.Highest, Travel: s.Circuit.Barrel.Travel - s.Scenario.Seat, Notes: s.Notes,
	}
	if s.ContactArea > 0 {
		v.AreaEnergy = r.FinalEnergy / s.ContactArea
	}
	for i, vol := range s.Circuit.Volumes {
		v.Start = append(v.Start, render.NodeGauge{Name: vol.Name, Gauge: s.Scenario.Volumes[i].Pressure - ambient})
		v.After = append(v.After, render.NodeGauge{Name: vol.Name, Gauge: r.Volumes[i].Pressure - ambient})
	}
	v.Series = render.Series{Time: r.Trace.Time, Speed: r.Trace.Speed}
	for i := range r.Trace.Time {
		v.Series.Travel = append(v.Series.Travel, r.Trace.Position[i]-s.Scenario.Seat)
		v.Series.Gauge = append(v.Series.Gauge, r.Trace.Barrel[i]-ambient)
	}
	return v, nil
}

// withheldError is why a result is not shown.
type withheldError string

func (e withheldError) Error() string { return string(e) }

// accountLines lists where the energy came from and went; parts that played no
// role are left out.
func accountLines(r *pneumatics.Result) []render.AccountLine {
	a := r.Account
	all := []render.AccountLine{
		{Name: "work of the barrel's air", Energy: a.GasWork},
		{Name: "work of the jet behind it", Energy: a.JetWork},
		{Name: "to the projectile", Energy: r.FinalEnergy},
		{Name: "to friction", Energy: a.Friction},
		{Name: "to the atmosphere", Energy: a.Atmosphere},
		{Name: "to motion of barrel air", Energy: a.GasMotion},
		{Name: "to motion of air ahead", Energy: a.ColumnMotion},
		{Name: "to gravity", Energy: a.Gravity},
		{Name: "to the rear stop", Energy: a.Impact},
	}
	var out []render.AccountLine
	for _, l := range all {
		if math.Abs(l.Energy) >= 1e-6 { // less is nothing to a reader
			out = append(out, l)
		}
	}
	return out
}
