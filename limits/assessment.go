package limits

import "fmt"

// Assessment is all that is computed of a launcher before anything is judged:
// plain data, each stage computed once. Verdicts, checklist, reports and papers
// are functions of it.
type Assessment struct {
	Day      string       // of the question, an ISO date; "" none: no date is judged
	Stated   *Launcher    // as the design states it
	Launcher *Launcher    // with the bands that measurements narrowed
	Limits   EnergyLimits // that the energies are held against
	NoStart  string       // why the highest start pressure is unknown; "" known

	Energy   *EnergyReport
	Normal   *worst // the worst case of normal operation; nil: not computed
	Eye      []EyeFigure
	Measured *MeasuredReport // nil: no measurements
	Wave     *WaveComparison // nil: not asked for

	Stuck    Stuck
	Plugged  Plugged
	Misuse   []MisuseCase
	DeadHead float64 // judged energy of shots from up to the supply's dead head [J]; NaN: not asked or not known
	Emptying *VentReport
	Loading  *loadingAir // what state loading leaves in the volumes; nil: not asked yet
	Faults   *FaultReport
	Logs     Logs // of tests of the real launcher
}

// ventInput is what the emptying is computed from.
func (a *Assessment) ventInput() VentInput {
	return VentInput{Launcher: a.Launcher, Limits: a.Limits, Normal: a.Normal, Stuck: a.Stuck, Loading: a.Loading}
}

// Logs are the readings of a gauge on the real launcher, judged; nil where none was read.
type Logs struct {
	Vent *LogAnswer  // of an emptying
	Leak *LeakAnswer // of a leak-down
}

// energyUnknown says why the energies cannot be judged; "" where they can.
func (a *Assessment) energyUnknown() string {
	switch {
	case a.NoStart != "":
		return a.NoStart
	case a.Normal == nil || !a.Normal.result.Found:
		return "no shot of the tolerance box could be computed"
	case a.Energy.Basis != OnCeiling && a.Normal.undetermined() &&
		a.Energy.Judged <= a.Energy.Limit: // a failure is one all the same
		return fmt.Sprintf("%d of %d shots in the tolerance box could not be computed", a.Normal.result.Undefined, a.Normal.result.Evaluations)
	case a.Energy.Basis == OnModel:
		return a.Launcher.beyondStudy()
	}
	return ""
}
