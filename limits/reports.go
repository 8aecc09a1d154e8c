package limits

import (
	"context"
	"slices"

	"puffproof/limits/assessment"
	"puffproof/limits/checklist"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
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

// Faults runs every single fault of every part, and pairs. Day and error are as of
// assessment.Make.
func Faults(ctx context.Context, l *launcher.Launcher, day string, pairs fault.PairChoice) (*fault.Report, error) {
	a, err := assessment.Make(ctx, l, assessment.Options{Day: day, Pairs: pairs, Want: assessment.StuckStage | assessment.FaultStage})
	if err != nil {
		return nil, err
	}
	return FaultReportOf(a), nil
}

// FaultReportOf gives the single faults with their verdicts and items, and the pairs as the checklist stands.
func FaultReportOf(a *assessment.Assessment) *fault.Report {
	r := *a.Faults
	all := checklist.Of(a)
	r.Pairs = r.WithOpenTests(func(item string) bool {
		i := slices.IndexFunc(all, func(it finding.Item) bool { return it.ID == item })
		return i < 0 || all[i].Done == nil
	})
	r.Verdicts = verdict.Judge(a, assessment.FaultStage)
	r.Items = launcher.Answered(checklist.FaultItems(a), a.Launcher, a.Day)
	return &r
}

// Empty judges how a launcher empties: on shutdown and when power is lost, from every
// state, from the highest pressure the ladder allows. Day and error are as of
// assessment.Make.
func Empty(ctx context.Context, l *launcher.Launcher, day string) (*vent.Report, error) {
	a, err := assessment.Make(ctx, l, assessment.Options{Day: day, Sheets: vent.FullSheets,
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
