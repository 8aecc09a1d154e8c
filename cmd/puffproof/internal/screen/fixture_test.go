package screen

import (
	"math"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits"
	"puffproof/limits/benchmark"
	"puffproof/limits/budget"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
)

// The figures of these reports are invented: they test how a report looks, not
// what it says.

func f(v float64) *float64 { return &v }

func inventedID() show.DesignID {
	return show.DesignID{Name: "Whale float blowhole", Revision: "C",
		SHA256: "3fa91c2b77de000000000000000000000000000000000000000000000000abcd"}
}

func inventedEnergy() *worst.EnergyReport {
	return &worst.EnergyReport{
		NominalShot: worst.ShotFigures{Outcome: "left", MuzzleSpeed: 3.9, MuzzleEnergy: 0.038, FinalSpeed: 4.05, FinalEnergy: 0.041,
			ExitTime: 0.0321, StartGauge: 40000},
		NominalMax:  worst.ShotFigures{Outcome: "left", FinalSpeed: 4.6, FinalEnergy: 0.053, StartGauge: 40000, Seat: 0.02},
		Worst:       worst.ShotFigures{Outcome: "left", FinalSpeed: 10.41, FinalEnergy: 0.298, StartGauge: 45000, Seat: 0.013},
		WorstEnergy: 0.298,
		WorstPoint: worst.Point{
			{Key: "paths.fire.Kv", Value: 4.08, Side: "high"},
			{Key: "paths.fire.opening_time", Value: 0.0113, Side: "inside"},
			{Key: "projectile.mass", Value: 0.0055, Side: "high"},
			{Key: "ambient.temperature", Value: 291.15, Side: "nominal"},
		},
		Factor: 1.25, FactorSource: finding.Words("this project"), Model: 0.3725, Ceiling: 11.2, Judged: 0.3725, Basis: finding.OnModel,
		Limit: 0.5, ContactArea: 3.14e-4, ProjectedArea: 1.9e-3, AreaJudged: 1186, AreaLimit: 1600, StartHigh: 45000, CeilingDose: 5.1e-5,
		Runs: 4321, Maxima: 3, Gap: 0.012,
	}
}

func verdictPass() []finding.Verdict {
	return []finding.Verdict{
		{ID: "energy.total", Title: "Does the hardest shot stay under the limit?", Status: finding.Pass, Value: f(0.3725), Limit: f(0.5),
			Unit: finding.InJoule, Margin: f(0.255), Basis: finding.OnModel, Source: "EN 71-1 before 2018, 4.17.3 (V2)"},
		{ID: "energy.area", Title: "Does the tip spread the energy enough?", Status: finding.Pass, Value: f(1186), Limit: f(1600),
			Unit: finding.InJoulePerArea, Margin: f(0.2587), Basis: finding.OnModel, Source: "GB 6675-2003 (V2)"},
		{ID: "vessel.rating", Title: "Is every vessel rated for the highest pressure it can see?", Status: finding.Pass, Value: f(62000),
			Limit: f(1e6), Unit: finding.InPascalGauge, Margin: f(0.938), Basis: finding.OnCircuit, Source: "the vessel's nameplate"},
		{ID: "vent.trapped", Title: "Is any air trapped?", Status: finding.Pass, Value: f(0), Limit: f(0), Unit: finding.InCount, Margin: f(0),
			Basis: finding.OnCircuit},
		{ID: "misuse.objects", Title: "Can another object be shot?", Status: finding.NotApplicable,
			Why: finding.Words("the muzzle's grid of 6 mm lets none of the listed objects in")},
	}
}

func holdingReport() limits.Report {
	return limits.Report{
		Verdicts: verdictPass(), Holds: true, OpenItems: 2, Energy: inventedEnergy(),
		Items: []finding.Item{
			{ID: "confirm.shots", Title: finding.Words("Measure at least 5 shots.")},
			{ID: "confirm.tip", Title: finding.Words("Press test of the tip")},
			{ID: "confirm.rating", Title: finding.Words("Photograph of the nameplate"), Done: &finding.Confirmation{Item: "confirm.rating"}},
		},
		Eye: []benchmark.EyeFigure{{Injury: "corneal abrasion", Half: 1503, Ratio: 0.131}, {Injury: "globe rupture", Half: 23771, Ratio: 0.0083}},
		Assumed: []launcher.Band{
			{Set: true, Key: "paths.fire.opening_time", Low: 0, Nominal: 0.03, High: 0.06, Assumed: true,
				Reason: finding.Words("direct solenoid valve")},
			{Set: true, Key: "volumes.tank.inner_diameter", Low: 0.1, Nominal: 0.1, High: 0.1, Assumed: true,
				Reason: finding.Words("cylinder three diameters long")},
		},
		Notes: finding.AllWords([]string{"The relief valve reseats below the cut-out: after one lift the tank blows down until the compressor " +
			"catches up."}),
	}
}

// conditionalReport holds only while people keep two conditions.
func conditionalReport() limits.Report {
	r := holdingReport()
	r.Conditions = 2
	r.Verdicts = append([]finding.Verdict{
		{ID: "misuse.objects", Title: "Can another object be shot?", Status: finding.Conditional, Value: f(2.31), Limit: f(0.08),
			Unit:   finding.InJoule,
			Margin: f(-27.9), Basis: finding.OnProcedure, Source: "GB 6675-2003 (V2)", Why: finding.Words("a pebble of invented size"),
			Condition: finding.Say("an adult looks into the bore, all %s of it, before each load.", finding.Millimetre(0.3)),
			Items:     []string{"object-control.1", "muzzle.look-in"}},
		{ID: "barrel.jammed", Title: "Is a jammed projectile harmless if freed?", Status: finding.Conditional, Basis: finding.OnProcedure,
			Condition: finding.Words("nobody frees it by hand")},
	}, r.Verdicts...)
	return r
}

func confirmedReport() limits.Report {
	r := holdingReport()
	r.Confirmed, r.OpenItems = true, 0
	r.Energy.Measured, r.Energy.Basis, r.Energy.Judged = f(0.31), finding.OnMeasured, 0.31
	r.Items = nil
	return r
}

func failingReport() limits.Report {
	r := holdingReport()
	r.Holds = false
	r.Energy.Model, r.Energy.Judged = 0.5004, 0.5004
	r.Verdicts = append([]finding.Verdict{
		{ID: "energy.total", Title: "Does the hardest shot stay under the limit?", Status: finding.Fail, Value: f(0.5004), Limit: f(0.5),
			Unit: finding.InJoule, Margin: f(-0.0008), Basis: finding.OnModel,
			Source: "EN 71-1 before 2018, 4.17.3 (V2)", Caveat: finding.Words("EN dropped it in 2018, German law did not."),
			Why:    finding.Words("The worst case is a heavy projectile seated 13 mm forward, fired at 0.45 bar."),
			Advice: finding.Words("A cut-out of 0.36 bar gives 0.44 J; 0.41 bar is the most that stays under 0.5 J.")},
		{ID: "vessel.rating", Title: "Is every vessel rated for the highest pressure it can see?", Status: finding.Fail, Value: f(4.2e5),
			Limit: f(2e5), Unit: finding.InPascalGauge, Margin: f(-1.1), Basis: finding.OnCircuit,
			Source: "the vessel's nameplate", Why: finding.Words("The supply's dead head reaches the vessel \"dose\" when the switch welds."),
			Advice: finding.Words("Fit a relief valve on the dose volume, set at or below 2 bar.")},
		{ID: "barrel.stalled", Title: "Is a stuck projectile harmless if freed?", Status: finding.Unknown, Unit: finding.InJoule,
			Value: f(math.NaN()), Basis: finding.OnModel,
			Why:    finding.Words("projectile.breakaway_force is missing."),
			Advice: finding.Words("Measure it: stand the tube upright, add coins until the ball moves.")},
	}, r.Verdicts[3:]...)
	return r
}

func dimensions(key string) (unit.Dimension, bool) {
	d, ok := map[string]unit.Dimension{
		"paths.fire.opening_time": unit.Time, "projectile.mass": unit.Mass, "volumes.tank.inner_diameter": unit.Length,
		"paths.fire.Kv": unit.Dimensionless,
	}[key]
	return d, ok
}

// inventedShot has the shape of a shot: a smooth pulse and the speed it gives.
func inventedShot() show.ShotView {
	v := show.ShotView{
		Design: inventedID(), Outcome: "left",
		Start:       []show.NodeGauge{{Name: "tank", Gauge: 40000}, {Name: "dose", Gauge: 40000}},
		MuzzleSpeed: 3.9, MuzzleEnergy: 0.038, FinalSpeed: 4.05, FinalEnergy: 0.041, ExitTime: 0.0503, ExitGauge: 1500,
		ContactArea: 3.8e-4, AreaEnergy: 107.9, PeakGauge: 37800,
		After:   []show.NodeGauge{{Name: "tank", Gauge: 39300}, {Name: "dose", Gauge: 22800}},
		Ceiling: 11.2,
		Account: []budget.Entry{{Name: "projectile", Energy: 0.038}, {Name: "friction", Energy: 0.012}, {Name: "air pushed away",
			Energy: 0.021}, {Name: "air at the muzzle", Energy: 0.0031}, {Name: "push after the muzzle", Energy: 0.003}},

		MassResidual: 3e-14, EnergyResidual: 2.1e-9, Travel: 0.06,
		Highest: &worst.ShotFigures{Outcome: "left", FinalSpeed: 4.6, FinalEnergy: 0.053, Seat: 0.02, StartGauge: 40000},
	}
	const n = 200
	speed, at, dt := 0.0, 0.0, 0.06/(n-1)
	for i := range n {
		t := dt * float64(i)
		g := 37800 * math.Pow(t/0.012, 2) * math.Exp(2-t/0.006)
		speed += g * 4.0e-3 * dt * 2
		at += speed * dt
		v.Series.Time = append(v.Series.Time, t)
		v.Series.Gauge = append(v.Series.Gauge, g)
		v.Series.Speed = append(v.Series.Speed, speed)
		v.Series.Travel = append(v.Series.Travel, at)
	}
	return v
}

func stalledShot() show.ShotView {
	v := inventedShot()
	v.Outcome, v.RestTravel, v.RestGauge, v.Freed = "stalled", 0.013, 37000, 0.61
	v.Highest = nil
	v.Notes = finding.AllWords([]string{"The breakaway force holds it."})
	return v
}

func inventedScope() []benchmark.Statement {
	return []benchmark.Statement{{Text: "Toy figures are used here as voluntary benchmarks.",
		Source: "an invented law, clause 1 (V)"}}
}

func inventedCautions() []benchmark.Statement {
	return []benchmark.Statement{
		{Text: "Local law, local codes and a licensed engineer go before this program."},
		{Text: "Passing a benchmark is not harmless.", Source: "an invented paper, 2005 (V)"},
	}
}
