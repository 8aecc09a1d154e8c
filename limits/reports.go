package limits

import (
	"context"

	"puffproof/limits/assessment"
	"puffproof/limits/checklist"
	"puffproof/limits/fault"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/limits/verdict"
)

// Check judges a launcher: every verdict, worst first. The error is as of
// assessment.Make.
func Check(ctx context.Context, l *launcher.Launcher, o assessment.Options) (Report, error) {
	a, err := assessment.Make(ctx, l, o)
	if err != nil {
		return Report{}, err
	}
	return ReportOf(a), nil
}

// Faults runs every single fault of every part. The error is as of assessment.Make.
func Faults(ctx context.Context, l *launcher.Launcher, o FaultOptions) (*fault.Report, error) {
	a, err := assessment.Make(ctx, l, assessment.Options{Day: o.Day, Pairs: o.Pairs, Want: assessment.StuckStage | assessment.FaultStage})
	if err != nil {
		return nil, err
	}
	return FaultReportOf(a), nil
}

// FaultReportOf gives the single faults with their verdicts and items.
func FaultReportOf(a *assessment.Assessment) *fault.Report {
	r := *a.Faults
	r.Verdicts = verdict.Judge(a, assessment.FaultStage)
	r.Items = launcher.Answered(checklist.FaultItems(a), a.Launcher, a.Day)
	return &r
}

// Empty judges how a launcher empties: on shutdown and when power is lost, from every
// state, from the highest pressure the ladder allows. The error is as of
// assessment.Make.
func Empty(ctx context.Context, l *launcher.Launcher, o VentOptions) (*vent.Report, error) {
	a, err := assessment.Make(ctx, l, assessment.Options{Day: o.Day, Sheets: vent.FullSheets,
		Want: assessment.StuckStage | assessment.EmptyingStage})
	if err != nil {
		return nil, err
	}
	return VentReportOf(a), nil
}

// VentReportOf gives the emptying with its verdicts and items.
func VentReportOf(a *assessment.Assessment) *vent.Report {
	r := *a.Emptying
	r.Verdicts = verdict.Judge(a, assessment.EmptyingStage)
	r.Items = launcher.Answered(checklist.VentItems(a), a.Launcher, a.Day)
	return &r
}

// FaultOptions steer Faults. The zero value looks at single faults and at the
// pairs with a latent one.
type FaultOptions struct {
	// Pairs asks for every pair of faults.
	Pairs fault.PairChoice
	// Day is as in assessment.Options.
	Day string
}

// VentOptions steer Empty. The zero value is right.
type VentOptions struct {
	// Day is as in assessment.Options: an answer of the checklist with a later date closes
	// nothing.
	Day string
}
