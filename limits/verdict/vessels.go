package verdict

import (
	"math"
	"strings"

	"puffproof/limits/assessment"
	"puffproof/limits/benchmark"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/material"
)

// vesselRating judges the highest pressure against the ratings of all parts.
func vesselRating(a *assessment.Assessment, v *finding.Verdict) {
	v.Basis = finding.OnData
	v.Source = "the rating stated in the design; " + benchmark.BenchmarkOf(benchmark.PlasticPipeGas).Source()
	var missing []finding.Text
	worst := math.Inf(-1)
	hoses, unrated := a.Launcher.HoseParts()
	var prints []finding.Text // what the print of each hose without a rating has to say: silence is no better than a weak one
	for _, p := range unrated {
		if prints = append(prints, finding.Say("%s %s or more", p.Name, finding.WorstBar(p.Top))); math.IsNaN(p.Top) {
			missing = append(missing, finding.Say("the highest pressure of %s (%s)", p.Name, p.Why))
		}
	}
	for _, p := range append(a.Parts(), hoses...) {
		switch {
		case !p.Rated.Set:
			missing = append(missing, finding.Key(p.Name+".rated_pressure"))
			continue
		case math.IsNaN(p.Top):
			missing = append(missing, finding.Say("the highest pressure of %s (%s)", p.Name, p.Why))
			continue
		}
		limit, note := a.Launcher.Rating(p)
		if use := p.Top / limit; use > worst || math.IsNaN(use) {
			worst = use
			v.Judge(p.Top, limit)
			v.Why = finding.Notes(finding.Say("%s: %s", p.Name, p.Why), finding.Words(note))
		}
	}
	switch {
	case v.Status == finding.Fail:
		v.Advice = finding.Words("A vessel rated for gas above this pressure, a relief valve set lower, or a supply that cannot go so high.")
	case len(missing) > 0:
		v.Unknown(finding.Say("missing: %s", finding.Join(missing, ", ")))
	case len(prints) > 0:
		v.HoldsWhile(finding.Say("the print of each hose says that with its fittings it is for air of: %s", finding.Join(prints, ", ")),
			finding.ItemLabels)
		v.Advice = finding.Words("State what is printed on each hose as its rated_pressure; without it no figure of this program tells a hose " +
			"that holds from one that bursts.")
	}
}

// unlessUnrated lets a verdict that is held against the lowest of the ratings hold only while parts whose rating is not stated have no
// lower one than top [Pa gauge]: unstated it counts among none.
func unlessUnrated(a *assessment.Assessment, v *finding.Verdict, top float64) {
	if !v.Holds() {
		return
	}
	_, unrated := a.Launcher.HoseParts()
	var names []string
	for _, p := range append(a.Launcher.Parts(), unrated...) {
		if !p.Rated.Set {
			names = append(names, p.Name)
		}
	}
	if len(names) > 0 {
		alsoWhile(v, finding.Say("what is printed on those whose rating is not stated says %s or more: %s", finding.WorstBar(top),
			strings.Join(names, ", ")), []string{finding.ItemLabels})
	}
}

// vesselMaterial counts the parts that are not made for compressed gas.
func vesselMaterial(a *assessment.Assessment, v *finding.Verdict) {
	v.Basis = finding.OnRule
	v.Source = benchmark.BenchmarkOf(benchmark.PlasticPipeGas).Source()
	var bad []string
	var missing, foreign []finding.Text
	for _, p := range a.Launcher.Parts() {
		switch {
		case material.Of(p.Material).Bars():
			bad = append(bad, p.Name+" ("+p.Material+")")
		case finding.Declared(p.Material) == "" || material.Of(p.Material) == material.Unnamed:
			missing = append(missing, finding.Key(p.Name+".material"))
		case p.ForGas == launcher.No:
			bad = append(bad, p.Name+" (rated_for_gas = false)")
		case p.ForGas == launcher.Unanswered:
			bad = append(bad, p.Name+" (no answer to rated_for_gas counts as no)")
		case !material.Of(p.Material).ForGas():
			foreign = append(foreign, finding.Key(p.Name+".material").Say(" (%s)", p.Material))
		}
	}
	v.Judge(float64(len(bad)), 0)
	switch {
	case len(bad) > 0:
		v.Why = finding.Words("not for compressed gas: " + strings.Join(bad, ", "))
		v.Advice = finding.Words("Use vessels and tube whose maker rates them for compressed air, with the document at hand. " +
			"Water pipe and acrylic burst into splinters; nobody rates a part for gas that is printed layer by layer, and PLA softens in a hot car.")
	case len(missing) > 0:
		v.Unknown(finding.Say("missing: %s", finding.Join(missing, ", ")))
	case len(foreign) > 0:
		v.Unknown(finding.Say("no material that is known here: %s", finding.Join(foreign, ", ")))
		v.Advice = finding.Words("Known are " + material.Known() + ", with what is usual beside them (\"stainless steel, welded\"); and of " +
			"plastics, derated at the hottest temperature, those that makers rate for air: " + material.KnownPlastics() + ". Another part, or " +
			"what its plate says it is.")
	default:
		v.Why = finding.Words("every part is declared as rated for gas; the labels are items to confirm")
	}
}

// barrelBlocked judges the pressure in a barrel whose muzzle is closed.
func barrelBlocked(a *assessment.Assessment, v *finding.Verdict) {
	v.Source = "the rating stated in the design"
	if v.UnknownFor(a.Plugged.Unknown) {
		return
	}
	v.Judge(a.Plugged.Value, a.Plugged.Limit)
	v.Why = a.Plugged.Why
	v.Mend("A barrel rated for gas above this pressure, a slower or smaller firing valve, or a lower pressure.")
}
