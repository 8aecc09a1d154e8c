package verdict

import (
	"slices"
	"strings"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
)

// Question is one row of the table of verdicts.
type Question struct {
	ID    string
	Title string // what is asked, in a builder's words
	Unit  finding.Quantity
	Stage assessment.Stages                   // in which its figures are computed, each of them; 0: it is asked of a whole assessment only
	Hangs bool                                // on the pressures that are set: at others the answer may be another
	Asked func(a *assessment.Assessment) bool // whether the question arises; nil: always
	Judge func(a *assessment.Assessment, v *finding.Verdict)
}

// of is the verdict that answers the question: unknown where a stage that it reads was not
// computed, for a figure that is not there looks like a harmless nought.
func (q *Question) of(a *assessment.Assessment) finding.Verdict {
	v := finding.NewVerdict(q.ID, q.Title, q.Unit)
	if absent := q.Stage &^ a.Computed; absent != 0 {
		v.Unknown(finding.Words("not computed: " + absent.String()))
		return v
	}
	q.Judge(a, &v)
	disproved(a, &v)
	if off := switchedOff(a.Launcher); len(off) > 0 && q.Stage != 0 && v.Holds() {
		v.Unknown(finding.Words("parts of the model are switched off: " + strings.Join(off, ", ")))
		v.Advice = finding.Words("Take them out of the file: they are for comparing the model with others, and nothing is judged without them.")
		return v
	}
	if v.Status == finding.Pass && slices.Contains(onWorking[:], v.ID) {
		if condition, item := a.Launcher.Kept(); item != "" {
			v.HoldsWhile(condition, item)
		}
	}
	holdsIfDirect(a.Launcher, &v)
	holdsIfStopped(a.Launcher, &v)
	holdsIfTrue(a.Launcher, &v)
	holdsIfFilledSo(a.Launcher, &v)
	holdsIfNarrow(a.Launcher, &v)
	return v
}

// onWorking are the verdicts that rest on the working pressure of normal operation: where people keep that, they hold
// only while they do. What comes of it when they do not is judged as a single fault.
var onWorking = [...]string{finding.EnergyTotal, finding.EnergyArea, finding.BarrelStalled, finding.HeatSoak, finding.MuzzleSealed}

// Table is the table of verdicts, in the order in which equal ones are shown.
func Table() []Question {
	const (
		energies, stuck, objects  = assessment.EnergyStage, assessment.StuckStage, assessment.ObjectStage
		emptying, faults          = assessment.EmptyingStage, assessment.FaultStage
		flights, heard            = assessment.FlightStage, assessment.SoundStage
		joule, area, gauge, count = finding.InJoule, finding.InJoulePerArea, finding.InPascalGauge, finding.InCount
		onPressure, apart         = true, false
		emptied                   = emptying | stuck // what a stuck projectile keeps behind it empties too
	)
	empties := func(kind vent.Kind) func(*assessment.Assessment, *finding.Verdict) {
		return func(a *assessment.Assessment, v *finding.Verdict) { timeToEmpty(a, v, kind) }
	}
	return []Question{
		{finding.EnergyTotal, "Energy of the projectile, worst case", joule, energies, onPressure, nil, energyTotal},
		{finding.EnergyArea, "Energy per contact area, worst case", area, energies, onPressure, nil, energyArea},
		{finding.BarrelStalled, "Stuck projectile, freed by hand", joule, energies | stuck, onPressure, nil, barrelStalled},
		{finding.BarrelJammed, "Projectile that never moved, freed", joule, faults, apart, nil, barrelJammed},
		{finding.VesselRating, "Highest pressure against the ratings", gauge, energies | stuck, onPressure, nil, vesselRating},
		{finding.VesselMaterial, "Vessels and barrel made for gas", count, energies, apart, nil, vesselMaterial},
		{finding.BarrelBlocked, "Barrel pressure with muzzle plugged", gauge, energies | stuck, onPressure, nil, barrelBlocked},
		{finding.MisuseOfObjects, "Other objects in the barrel, as rigid", joule, energies | objects, onPressure, nil, misuseObjects},
		{finding.LadderOrder, "The ladder of pressures is in order", gauge, energies, onPressure, nil, ladderOrder},
		{finding.ReliefCapacity, "The relief valve carries the supply", gauge, energies, onPressure, nil, reliefCapacity},
		{finding.ReliefRating, "The relief valve protects its vessels", gauge, energies, onPressure, nil, reliefRating},
		{finding.SwitchBand, "Room between cut-in and cut-out", gauge, energies, onPressure, nil, switchBand},
		{finding.HeatSoak, "Filled and left in the heat", gauge, energies, onPressure, nil, heatSoak},
		{finding.SourceLimited, "The supply cannot exceed the limit", joule, energies | objects, apart, nil, sourceLimited},
		{finding.MuzzleSealed, "Lung pressure, mouth on the muzzle", gauge, energies, onPressure, nil, muzzleSealed},
		{finding.ProjectileChoking, "Choking: size and youngest child", finding.InMetre, energies, apart, nil, projectileChoking},
		{finding.ValveDifferential, "Lowest pressure for the firing valve", gauge, energies, onPressure, nil, valveDifferential},
		{finding.StoredEnergy, "Energy stored in all vessels", joule, energies, onPressure, nil, storedEnergy},
		{finding.VentShutdown, "Switched off: time to empty", finding.InSecond, emptied, onPressure, nil, empties(vent.Shutdown)},
		{finding.VentPowerLoss, "Power lost: time to empty", finding.InSecond, emptied, onPressure, nil, empties(vent.PowerLost)},
		{finding.VentPoints, "Outlets that blow at the projectile", joule, emptying, onPressure, nil, ventPoints},
		{finding.VentTrapped, "Volumes with no open way out", count, emptied, apart, nil, ventTrapped},
		{finding.GaugeReadable, "Least pressure the gauge can show", gauge, emptying, apart, nil, gaugeReadable},
		{finding.GaugeRange, "Gauge range against the pressures", gauge, energies, onPressure, nil, gaugeRange},
		{finding.EnergyFault, "Energy at any single fault", joule, faults, onPressure, nil, energyFault},
		{finding.ShotUnasked, "Fires unasked at a single fault", joule, faults, onPressure, nil, shotUnasked},
		{finding.LoadingEmpty, "Barriers while loading", count, faults, apart, nil, loadingEmpty},
		{finding.ControlStop, "Loads that the stop does not cut", count, 0, apart, anyControl, controlStop},
		{finding.ControlRestart, "Loads that start again by themselves", count, 0, apart, anyControl, controlRestart},
		{finding.ControlFuses, "Circuits without the right fuse", count, 0, apart, anyControl, controlFuses},
		{finding.PeopleLanding, "People where it can come down", finding.InMetre, energies | flights, onPressure, nil, peopleLanding},
		{finding.PeopleWheels, "Own wheels where it can come down", finding.InMetre, flights, onPressure, nil, peopleWheels},
		{finding.SoundAtPeak, "Peak sound level at the worse ear", finding.InDecibel, energies | heard, onPressure, nil, soundPeak},
		{finding.DatesPast, "Parts and tests past their date", count, 0, apart, anyDate, datesPast},
		{finding.DesignTemplate, "Figures that are still the template's", count, 0, apart, anyTemplate, ofTemplate},
		{finding.MeasuredEmptying, "The measured emptying agrees", finding.NoQuantity, 0, apart, emptyingRead, measuredEmptying},
		{finding.MeasuredLeak, "The measured leak-down is tight", finding.NoQuantity, 0, apart, leakRead, measuredLeak},
	}
}

// switchedOff lists the parts of the model that the design switches off.
func switchedOff(l *launcher.Launcher) []string {
	if l == nil {
		return nil
	}
	return l.Model.Off
}

// Judge gives the verdicts of stages, in the table's order; 0: all of them.
func Judge(a *assessment.Assessment, of assessment.Stages) (out []finding.Verdict) {
	for _, q := range Table() {
		if of.Has(q.Stage) && (q.Asked == nil || q.Asked(a)) {
			out = append(out, q.of(a))
		}
	}
	return out
}

// OfPressures gives the verdicts that hang on the pressures that are set, of those that
// need no more than some stages, in the table's order.
func OfPressures(a *assessment.Assessment, computed assessment.Stages) (out []finding.Verdict) {
	for _, q := range Table() {
		if q.Hangs && q.Stage&^computed == 0 {
			out = append(out, q.of(a))
		}
	}
	return out
}

// Of gives the verdict of an identifier, unknown where its stage is not computed. It has no ID
// where the question does not arise.
func Of(a *assessment.Assessment, id string) finding.Verdict {
	for _, q := range Table() {
		if q.ID == id && (q.Asked == nil || q.Asked(a)) {
			return q.of(a)
		}
	}
	return finding.Verdict{}
}
