package limits

import (
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// HighestPressures are the highest of a launcher whose ladder has the rungs, single faults included [Pa gauge]: of all that holds air
// for longer, and with what a barrel takes for the moment in which it fills. Faults may be nil.
func (r *Report) HighestPressures(rungs []launcher.Rung, f *fault.Report) (vessels, anywhere float64) {
	for _, rung := range rungs {
		if rung.Limit != launcher.Yes { // which must not be reached
			vessels = max(vessels, rung.High)
		}
	}
	if f != nil {
		for i := range f.Faults {
			if one := &f.Faults[i]; one.Where != "barrel" && one.WorstGauge > vessels {
				vessels = one.WorstGauge
			}
		}
	}
	anywhere = vessels
	for _, id := range []string{finding.VesselRating, finding.BarrelBlocked} {
		if v, ok := r.Verdict(id); ok && v.Value != nil {
			anywhere = max(anywhere, *v.Value)
		}
	}
	return vessels, anywhere
}
