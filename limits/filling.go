package limits

import (
	"slices"

	"puffproof/limits/finding"
)

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

// BeforeCharging gives the verdicts that have to be mended before anybody fills the launcher to try or to shoot it: all that fail, and
// energies that nobody knows, which no test finds. A test that is past its date is done again with air; a part that is, is not known here.
func (r *Report) BeforeCharging() (stop []finding.Verdict) {
	for _, v := range r.Verdicts {
		unknown := v.Status == finding.Unknown && slices.Contains(unknownStops[:], v.ID)
		if v.ID != finding.DatesPast && (v.Status == finding.Fail || unknown) {
			stop = append(stop, v)
		}
	}
	return stop
}

// unknownStops are the verdicts that stop it also where they are not known.
var unknownStops = [...]string{finding.EnergyTotal, finding.EnergyFault, finding.VesselRating, finding.VesselMaterial,
	finding.BarrelBlocked}
