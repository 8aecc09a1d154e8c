package verdict

import (
	"math"

	"puffproof/limits/assessment"
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// valveDifferential judges whether the firing valve opens at the lowest working
// pressure.
func valveDifferential(a *assessment.Assessment, v *finding.Verdict) {
	v.Source, v.Basis = "the valve's data sheet as stated in the design", finding.OnData
	var need launcher.Band
	for i := range a.Launcher.Paths {
		p := &a.Launcher.Paths[i]
		fires := p.OpenIn.Has(pneumatics.Firing) || p.Kind == pneumatics.QuickExhaust && p.To == "barrel"
		if fires && p.MinDifferential.Set && (!need.Set || p.MinDifferential.High > need.High) {
			need = p.MinDifferential
		}
	}
	if !need.Set {
		v.NotApplicable(finding.Words("no firing valve is declared as piloted and none states a least differential"))
		return
	}
	low := 0.0
	if a.Launcher.Switch != nil && a.Launcher.Switch.CutIn.Set {
		low = a.Launcher.Switch.CutIn.Low
	}
	v.JudgeLower(low, need.High)
	if v.Status == finding.Pass {
		return
	}
	why := finding.Say("below %s the valve may stay shut or open slowly; the launcher can be fired from %s",
		finding.Bar(need.High), finding.Bar(low))
	if need.Assumed && need.Line == 0 {
		v.Unknown(why.Say("; the figure is assumed: read it off the data sheet (min_differential)"))
		return
	}
	v.Why = why
	v.Advice = finding.Words("A direct-acting valve, or a higher cut-in.")
}

// storedEnergy judges what a burst would let loose.
func storedEnergy(a *assessment.Assessment, v *finding.Verdict) {
	limit, pv := benchmark.BenchmarkOf(benchmark.HighStoredEnergy), benchmark.BenchmarkOf(benchmark.SoundPracticePV)
	v.Source = limit.Source() + "; " + pv.Source()
	v.Caveat = finding.Words("isentropic expansion (Baker); a burst can do less or, by Brode's figure, more")
	pressures := a.Launcher.VesselPressures()
	var total, product float64
	var worst string
	for i, p := range pressures {
		if math.IsNaN(p.Fault) {
			v.Unknown(finding.Say("missing: %s", p.Why))
			return
		}
		volume := a.Launcher.Volumes[i].Volume.High
		total += benchmark.StoredEnergy(volume, p.Fault, a.Launcher.Ambient.Pressure.Low, a.Launcher.GasModel().Gamma)
		if p.Fault*volume > product {
			product, worst = p.Fault*volume, a.Launcher.Volumes[i].Name
		}
	}
	times := finding.Say("pressure times volume is at most %s (%s)", barLitres(product), worst)
	rule := finding.Say("sound engineering practice goes up to %s = %s", barLitres(pv.Value), finding.Joule(pv.Value))
	if product/pv.Value > total/limit.Value { // of two limits the nearer one is shown
		v.Judge(product, pv.Value)
		v.Why = finding.Say("%s; %s; stored by Baker's figure: %s", times, rule, finding.WorstJoule(total))
	} else {
		v.Judge(total, limit.Value)
		v.Why = finding.Say("%s; %s", times, rule)
	}
	v.Mend("Beyond home practice: smaller vessels or less pressure, or a licensed engineer.")
}

// barLitres is a pressure times a volume [J], in the unit in which pressure equipment
// law states its limit.
func barLitres(pv float64) finding.Shown {
	return finding.Shown{Value: pv, Unit: finding.BarLitres, Digits: 2}
}
