package verdict

import (
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
)

// usualFiller is what people fill a vessel with that comes filled: a track pump, a workshop's air (common practice, no source) [Pa gauge].
const usualFiller = 7e5

// holdsIfFilledSo makes a verdict on a vessel that comes filled too full by mistake hold only while what fills it pushes no further than
// stated, where that is less than what people fill with.
func holdsIfFilledSo(l *launcher.Launcher, v *finding.Verdict) {
	if l == nil || !v.Holds() || l.Stops() != launcher.StopPrefill {
		return
	}
	switch v.ID {
	case finding.EnergyFault, finding.VesselRating, finding.BarrelBlocked, finding.SourceLimited:
	default:
		return
	}
	if of := &l.Volumes[l.Prefilled()]; of.FillerReaches.Set && of.FillerReaches.High < usualFiller {
		alsoWhile(v, finding.Say("what fills %s can push no further than %s, and its gauge is read before it is used", of.Name,
			finding.Bar(of.FillerReaches.High)), []string{finding.ItemPrefill})
	}
}
