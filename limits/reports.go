package limits

import (
	"context"
	"slices"

	"puffproof/limits/assessment"
	"puffproof/limits/checklist"
	"puffproof/limits/fault"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
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

// beforeShots are the verdicts that must hold before anybody shoots a launcher to measure it: of what may burst, of what
// limits the pressure, of what empties it, of dates. What it shoots with may be what the shots are to find out.
var beforeShots = [...]string{finding.VesselRating, finding.VesselMaterial, finding.BarrelBlocked, finding.LadderOrder,
	finding.ReliefCapacity, finding.ReliefRating, finding.HeatSoak, finding.VentShutdown, finding.VentPowerLoss, finding.VentTrapped,
	finding.BarrelJammed, finding.LoadingEmpty, finding.DatesPast, finding.DesignTemplate}

// Plan makes a plan of shots to measure; it refuses one for a launcher that must not be filled yet. Day and error are as
// of assessment.Make.
func Plan(ctx context.Context, l *launcher.Launcher, day string) (*measure.ShotPlan, error) {
	a, err := assessment.Make(ctx, l, assessment.Options{Day: day, Sheets: vent.SlowEndOnly,
		Want: assessment.EnergyStage | assessment.StuckStage | assessment.EmptyingStage | assessment.FaultStage})
	if err != nil {
		return nil, err
	}
	if why := notReady(a); why != nil {
		return &measure.ShotPlan{Limit: a.Limits.Total.Value, Refused: why}, nil
	}
	return measure.Plan(ctx, l, day)
}

// notReady says why a launcher must not be filled; nil: it may.
func notReady(a *assessment.Assessment) finding.Text {
	var bad []finding.Text
	for _, id := range beforeShots {
		switch v := verdict.Of(a, id); v.Status {
		case finding.Fail:
			bad = append(bad, finding.Say("%s fails (%s)", v.Title, v.ID))
		case finding.Unknown:
			if v.ID != "" {
				bad = append(bad, finding.Say("%s is not known (%s)", v.Title, v.ID))
			}
		}
	}
	if len(bad) == 0 {
		return nil
	}
	return finding.Say("it must not be filled before this is mended: %s", finding.Join(bad, "; "))
}

// ItemsOn is the checklist of what was assessed as of another day, an ISO date: an answer that was written down since counts, and an
// item that it speaks against is open again. An answer that has only expired by then stays: Launcher.FirstPast tells of those.
func ItemsOn(a *assessment.Assessment, day string) []finding.Item {
	then := *a
	then.Day = day
	out := checklist.Answered(&then)
	for _, before := range checklist.Answered(a) {
		i := finding.IndexOfItem(out, before.ID)
		if i >= 0 && out[i].Done == nil && before.Done != nil && len(before.Done.Shows) == 0 && before.Done.HoldsUntil() < day {
			out[i] = before
		}
	}
	return checklist.InTurn(out)
}
