package limits

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
