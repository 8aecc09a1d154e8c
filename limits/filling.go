package limits

import "puffproof/limits/finding"

// beforeAir are the verdicts that stand between a launcher and any air in it: it may burst.
var beforeAir = [...]string{finding.VesselRating, finding.VesselMaterial, finding.BarrelBlocked}

// BeforeAir gives the verdicts that have to be mended before anybody fills the launcher: those of what may burst that fail or
// are not known. None: it may be filled.
func (r *Report) BeforeAir() (stop []finding.Verdict) {
	for _, id := range beforeAir {
		if v, ok := r.Verdict(id); ok && (v.Status == finding.Fail || v.Status == finding.Unknown) {
			stop = append(stop, v)
		}
	}
	return stop
}
