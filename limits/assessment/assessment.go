package assessment

import (
	"puffproof/limits/benchmark"
	"puffproof/limits/budget"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/sound"
	"puffproof/limits/stopwatch"
	"puffproof/limits/vent"
	"puffproof/limits/worst"
)

// Assessment is all that is computed of a launcher before anything is judged:
// plain data, each stage computed once. Verdicts, checklist, reports and papers
// are functions of it.
type Assessment struct {
	Day      string                // of the question, an ISO date; "" none: no dated answer counts
	Stated   *launcher.Launcher    // as the design states it
	Launcher *launcher.Launcher    // with the bands that measurements narrowed
	Limits   launcher.EnergyLimits // that the energies are held against
	NoStart  finding.Text          // why the highest start pressure, or what pushes besides, is unknown; "" known
	Computed Stages                // the stages whose figures are here; those of another are no answer

	Energy   *worst.EnergyReport
	Normal   *worst.Case // the worst case of normal operation; nil: not computed
	Eye      []benchmark.EyeFigure
	Measured *measure.Report       // nil: no measurements
	Wave     *worst.WaveComparison // nil: not asked for

	Stuck    worst.Stuck
	Plugged  worst.Plugged
	Misuse   []worst.MisuseCase
	DeadHead float64 // judged energy of shots from up to the supply's dead head [J]; NaN: not asked or not known
	Emptying *vent.Report
	Loading  *vent.Loading       // what state loading leaves in the volumes; nil: not asked yet
	Revealed map[string][]string // by item, the faults that it shows and that nobody notices without it
	Faults   *fault.Report
	Flights  *measure.FlightReport // where the projectile lands; nil: not known
	NoFlight finding.Text          // why it is not
	Sound    *sound.Report         // how loud a shot is; nil: not known, as the energies are not
	Budget   *budget.Report        // what the judged energy is made of; nil: not asked
	Logs     Logs                  // of tests of the real launcher
}

// Parts are the vessels and the barrel with the highest pressures in them, the barrel's
// as computed where it was.
func (a *Assessment) Parts() []launcher.Part {
	parts := a.Launcher.Parts()
	if b := &parts[len(parts)-1]; a.Plugged.Behind > 0 { // in the place of the bound
		feeds := b.Top / launcher.Rush
		b.Top = max(feeds, worst.Peak(a.Plugged.Behind, feeds))
		b.Why = finding.Words("what feeds it, or the air of its hose rushing in behind a projectile that does not move")
	}
	return parts
}

// ventInput is what the emptying is computed from.
func (a *Assessment) ventInput() vent.Input {
	return vent.Input{Launcher: a.Launcher, Limits: a.Limits, Normal: a.Normal, Stuck: a.Stuck, Loading: a.Loading}
}

// faultInput is what the faults are run on.
func (a *Assessment) faultInput(only func(id string) bool) fault.Input {
	in := fault.Input{Launcher: a.Launcher, Limits: a.Limits, Normal: a.Normal, NormalUnknown: a.EnergyUnknown(), Emptying: a.Emptying,
		Loading: a.Loading, Day: a.Day, Only: only}
	if a.Computed&StuckStage != 0 {
		in.Plugged = &a.Plugged
	}
	return in
}

// Logs are the readings of a gauge on the real launcher, judged; nil where none was read.
type Logs struct {
	Vent *stopwatch.Answer // of an emptying
	Leak *vent.LeakAnswer  // of a leak-down
}

// EnergyUnknown says why the energies cannot be judged; nil where they can.
func (a *Assessment) EnergyUnknown() finding.Text {
	switch {
	case len(a.NoStart) != 0:
		return a.NoStart
	case a.Normal == nil || !a.Normal.Result.Found:
		return finding.Words("no shot of the tolerance box could be computed")
	case a.Energy.Basis != finding.OnCeiling && a.Normal.Undetermined() &&
		a.Energy.Judged <= a.Energy.Limit: // a failure is one all the same
		return finding.Notes(finding.Say("%d of %d shots in the tolerance box could not be computed", a.Normal.Result.Undefined,
			a.Normal.Result.Evaluations), a.Normal.Narrow)
	case a.Energy.ModelCounts() && a.Energy.Judged <= a.Energy.Limit && !a.Wave.Compared():
		return worst.BeyondStudy(a.Launcher)
	}
	return nil
}
