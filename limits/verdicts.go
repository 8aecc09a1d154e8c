package limits

// A Question is one row of the table of verdicts.
type Question struct {
	ID    string
	Stage Stages // in which its figures are computed
	// Judge is the verdict; false: the question does not arise.
	Judge func(a *Assessment) (Verdict, bool)
}

// Questions is the table of verdicts, in the order in which equal ones are shown.
func Questions() []Question {
	always := func(judge func(*Assessment) Verdict) func(*Assessment) (Verdict, bool) {
		return func(a *Assessment) (Verdict, bool) { return judge(a), true }
	}
	return []Question{
		{EnergyTotal, EnergyStage, always(energyTotal)},
		{EnergyArea, EnergyStage, always(energyArea)},
		{BarrelStalled, StuckStage, always(barrelStalled)},
		{VesselRating, EnergyStage, always(vesselRating)},
		{VesselMaterial, EnergyStage, always(vesselMaterial)},
		{BarrelBlocked, StuckStage, always(barrelBlocked)},
		{MisuseOfObjects, ObjectStage, always(misuseObjects)},
		{LadderOrder, EnergyStage, always(ladderOrder)},
		{ReliefCapacity, EnergyStage, always(reliefCapacity)},
		{ReliefRating, EnergyStage, always(reliefRating)},
		{SwitchBand, EnergyStage, always(switchBand)},
		{HeatSoak, EnergyStage, always(heatSoak)},
		{SourceLimited, ObjectStage, always(sourceLimited)},
		{MuzzleSealed, EnergyStage, always(muzzleSealed)},
		{ProjectileChoking, EnergyStage, always(projectileChoking)},
		{ValveDifferential, EnergyStage, always(valveDifferential)},
		{StoredEnergy, EnergyStage, always(storedEnergy)},
		{VentShutdown, EmptyingStage, always(ventShutdown)},
		{VentPowerLoss, EmptyingStage, always(ventPowerLoss)},
		{VentPoints, EmptyingStage, always(ventPoints)},
		{VentTrapped, EmptyingStage, always(ventTrapped)},
		{GaugeReadable, EmptyingStage, always(gaugeReadable)},
		{EnergyFault, FaultStage, always(energyFault)},
		{ShotUnasked, FaultStage, always(shotUnasked)},
		{LoadingEmpty, FaultStage, always(loadingEmpty)},
		{DatesPast, EnergyStage, datesPast},
	}
}

// judge gives the verdicts of stages, in the table's order.
func judge(a *Assessment, of Stages) (out []Verdict) {
	for _, q := range Questions() {
		if !of.has(q.Stage) {
			continue
		}
		if v, arises := q.Judge(a); arises {
			out = append(out, v)
		}
	}
	return out
}
