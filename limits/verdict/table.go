package verdict

import (
	"puffproof/limits/assessment"
	"puffproof/limits/finding"
)

// A Question is one row of the table of verdicts.
type Question struct {
	ID    string
	Stage assessment.Stages // in which its figures are computed
	// Judge is the verdict; false: the question does not arise.
	Judge func(a *assessment.Assessment) (finding.Verdict, bool)
}

// Table is the table of verdicts, in the order in which equal ones are shown.
func Table() []Question {
	always := func(judge func(*assessment.Assessment) finding.Verdict) func(*assessment.Assessment) (finding.Verdict, bool) {
		return func(a *assessment.Assessment) (finding.Verdict, bool) { return judge(a), true }
	}
	return []Question{
		{finding.EnergyTotal, assessment.EnergyStage, always(EnergyTotal)},
		{finding.EnergyArea, assessment.EnergyStage, always(EnergyArea)},
		{finding.BarrelStalled, assessment.StuckStage, always(barrelStalled)},
		{finding.VesselRating, assessment.EnergyStage, always(vesselRating)},
		{finding.VesselMaterial, assessment.EnergyStage, always(vesselMaterial)},
		{finding.BarrelBlocked, assessment.StuckStage, always(barrelBlocked)},
		{finding.MisuseOfObjects, assessment.ObjectStage, always(MisuseObjects)},
		{finding.LadderOrder, assessment.EnergyStage, always(LadderOrder)},
		{finding.ReliefCapacity, assessment.EnergyStage, always(ReliefCapacity)},
		{finding.ReliefRating, assessment.EnergyStage, always(ReliefRating)},
		{finding.SwitchBand, assessment.EnergyStage, always(SwitchBand)},
		{finding.HeatSoak, assessment.EnergyStage, always(HeatSoak)},
		{finding.SourceLimited, assessment.ObjectStage, always(sourceLimited)},
		{finding.MuzzleSealed, assessment.EnergyStage, always(muzzleSealed)},
		{finding.ProjectileChoking, assessment.EnergyStage, always(projectileChoking)},
		{finding.ValveDifferential, assessment.EnergyStage, always(valveDifferential)},
		{finding.StoredEnergy, assessment.EnergyStage, always(storedEnergy)},
		{finding.VentShutdown, assessment.EmptyingStage, always(ventShutdown)},
		{finding.VentPowerLoss, assessment.EmptyingStage, always(ventPowerLoss)},
		{finding.VentPoints, assessment.EmptyingStage, always(ventPoints)},
		{finding.VentTrapped, assessment.EmptyingStage, always(ventTrapped)},
		{finding.GaugeReadable, assessment.EmptyingStage, always(gaugeReadable)},
		{finding.EnergyFault, assessment.FaultStage, always(EnergyFault)},
		{finding.ShotUnasked, assessment.FaultStage, always(ShotUnasked)},
		{finding.LoadingEmpty, assessment.FaultStage, always(loadingEmpty)},
		{finding.DatesPast, assessment.EnergyStage, datesPast},
	}
}

// Judge gives the verdicts of stages, in the table's order.
func Judge(a *assessment.Assessment, of assessment.Stages) (out []finding.Verdict) {
	for _, q := range Table() {
		if !of.Has(q.Stage) {
			continue
		}
		if v, arises := q.Judge(a); arises {
			out = append(out, v)
		}
	}
	return out
}
