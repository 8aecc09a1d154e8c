package limits

import (
	"fmt"

	"puffproof/pneumatics"
)

// valveDifferential judges whether the firing valve opens at the lowest
// working pressure.
func valveDifferential(a *Assessment) Verdict {
	v := newVerdict(ValveDifferential, "Lowest pressure for the firing valve", InPascalGauge)
	v.Source, v.Basis = "the valve's data sheet as stated in the design", OnData
	var need Band
	for i := range a.Launcher.Paths {
		p := &a.Launcher.Paths[i]
		if p.OpenIn.Has(pneumatics.Firing) && p.MinDifferential.Set && (!need.Set || p.MinDifferential.High > need.High) {
			need = p.MinDifferential
		}
	}
	if !need.Set {
		v.notApplicable("no firing valve is declared as piloted and none states a least differential")
		return v
	}
	low := 0.0
	if a.Launcher.Switch != nil && a.Launcher.Switch.CutIn.Set {
		low = a.Launcher.Switch.CutIn.Low
	}
	v.judgeLower(low, need.High)
	if v.Status == Pass {
		return v
	}
	why := fmt.Sprintf("below %s the valve may stay shut or open slowly; the launcher can be fired from %s", bar(need.High), bar(low))
	if need.Assumed {
		v.unknown(why + "; the figure is assumed: read it off the data sheet (min_differential)")
		return v
	}
	v.Why = why
	v.Advice = "A direct-acting valve, or a higher cut-in."
	return v
}

// storedEnergy judges what a burst would let loose.
func storedEnergy(a *Assessment) Verdict {
	v := newVerdict(StoredEnergy, "Energy stored in all vessels", InJoule)
	limit, pv := BenchmarkOf(HighStoredEnergy), BenchmarkOf(SoundPracticePV)
	v.Source = joinNotes(limit.Source(), pv.Source())
	v.Caveat = "isentropic expansion (Baker); a burst can do less or, by Brode's figure, more"
	pressures := a.Launcher.vesselPressures()
	var total, product float64
	var worst string
	for i, p := range pressures {
		if p.fault != p.fault {
			v.unknown("missing: " + p.why)
			return v
		}
		volume := a.Launcher.Volumes[i].Volume.High
		total += Stored(volume, p.fault, a.Launcher.Ambient.Pressure.Low, a.Launcher.gas().Gamma).Isentropic
		if p.fault*volume > product {
			product, worst = p.fault*volume, a.Launcher.Volumes[i].Name
		}
	}
	times := fmt.Sprintf("pressure times volume is at most %s bar L (%s)", significant(product/barLitre, 2), worst)
	rule := fmt.Sprintf("sound engineering practice goes up to %s bar L = %s", significant(pv.Value/barLitre, 2), joule(pv.Value))
	if product/pv.Value > total/limit.Value { // of two limits the nearer one is shown
		v.judge(product, pv.Value)
		v.Why = times + "; " + rule + "; stored by Baker's figure: " + joule(total)
	} else {
		v.judge(total, limit.Value)
		v.Why = times + "; " + rule
	}
	if v.Status == Fail {
		v.Advice = "Beyond home practice: smaller vessels or less pressure, or a licensed engineer."
	}
	return v
}

// barLitre is one bar times one litre [J].
const barLitre = 100
