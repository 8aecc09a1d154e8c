package limits

import (
	"math"
	"strings"
)

// vesselRating judges the highest pressure against the ratings of all parts.
func vesselRating(a *Assessment) Verdict {
	rating := newVerdict(VesselRating, "Highest pressure against the ratings", InPascalGauge)
	rating.Basis = OnData
	rating.Source = "the rating stated in the design; " + BenchmarkOf(PlasticPipeGas).Source()
	var missing []string
	worst := math.Inf(-1)
	for _, p := range a.Launcher.parts() {
		switch {
		case !p.rated.Set:
			missing = append(missing, p.name+".rated_pressure")
			continue
		case math.IsNaN(p.top):
			missing = append(missing, "the highest pressure of "+p.name+" ("+p.why+")")
			continue
		}
		limit, note := a.Launcher.rating(p)
		if use := p.top / limit; use > worst || math.IsNaN(use) {
			worst = use
			rating.judge(p.top, limit)
			rating.Why = joinNotes(p.name+": "+p.why, note)
		}
	}
	switch {
	case rating.Status == Fail:
		rating.Advice = "A vessel rated for gas above this pressure, a relief valve set lower, or a supply that cannot go so high."
	case len(missing) > 0:
		rating.unknown("missing: " + strings.Join(missing, ", "))
	}
	return rating
}

// vesselMaterial counts the parts that are not made for compressed gas.
func vesselMaterial(a *Assessment) Verdict {
	v := newVerdict(VesselMaterial, "Vessels and barrel made for gas", InCount)
	v.Basis = OnRule
	v.Source = BenchmarkOf(PlasticPipeGas).Source()
	var bad, missing []string
	for _, p := range a.Launcher.parts() {
		switch {
		case isPipePlastic(p.material):
			bad = append(bad, p.name+" ("+p.material+")")
		case p.material == "":
			missing = append(missing, p.name+".material")
		case p.forGas == No:
			bad = append(bad, p.name+" (rated_for_gas = false)")
		case p.forGas == Unanswered:
			bad = append(bad, p.name+" (no answer to rated_for_gas counts as no)")
		}
	}
	v.judge(float64(len(bad)), 0)
	switch {
	case len(bad) > 0:
		v.Why = "not for compressed gas: " + strings.Join(bad, ", ")
		v.Advice = "Use vessels and tube whose maker rates them for compressed air, with the document at hand. Water pipe bursts into splinters."
	case len(missing) > 0:
		v.unknown("missing: " + strings.Join(missing, ", "))
	default:
		v.Why = "every part is declared as rated for gas; the labels are items to confirm"
	}
	return v
}

// barrelBlocked judges the pressure in a barrel whose muzzle is closed.
func barrelBlocked(a *Assessment) Verdict {
	v := newVerdict(BarrelBlocked, "Barrel pressure with muzzle plugged", InPascalGauge)
	v.Source = "the rating stated in the design"
	if a.Plugged.Unknown != "" {
		v.unknown(a.Plugged.Unknown)
		return v
	}
	v.judge(a.Plugged.Value, a.Plugged.Limit)
	v.Why = a.Plugged.Why
	if v.Status == Fail {
		v.Advice = "A barrel rated for gas above this pressure, a slower or smaller firing valve, or a lower pressure."
	}
	return v
}
