package limits

import (
	"context"
)

// Check judges a launcher: every verdict, worst first. The error is as of Assess.
func Check(ctx context.Context, l *Launcher, o Options) (Report, error) {
	a, err := Assess(ctx, l, o)
	if err != nil {
		return Report{}, err
	}
	return a.Report(), nil
}

// Report judges what was assessed. It needs every stage.
func (a *Assessment) Report() Report {
	r := Report{Verdicts: judge(a, 0), Energy: a.Energy, Measured: a.Measured, Wave: a.Wave, Eye: a.Eye, Assumed: a.Launcher.assumed()}
	if a.Measured != nil {
		r.Notes = append(r.Notes, a.Measured.Remarks...)
	}
	if note := modelRange(a); note != "" {
		r.Notes = append(r.Notes, note)
	}
	r.Notes = append(r.Notes, jamNotes(a)...)
	r.Items = checklist(a)
	r.close(measuredDecides(a))
	return r
}

// Faults runs every single fault of every part. The error is as of Assess.
func Faults(ctx context.Context, l *Launcher, o FaultOptions) (*FaultReport, error) {
	a, err := Assess(ctx, l, Options{Day: o.Day, Pairs: o.Pairs, Want: StuckStage | FaultStage})
	if err != nil {
		return nil, err
	}
	return a.FaultReport(), nil
}

// FaultReport gives the single faults with their verdicts and items.
func (a *Assessment) FaultReport() *FaultReport {
	r := *a.Faults
	r.Verdicts = judge(a, FaultStage)
	r.Items = answered(faultItems(a), a.Launcher, a.Day)
	return &r
}

// Empty judges how a launcher empties: on shutdown and when power is lost, from
// every state, from the highest pressure the ladder allows. The error is as of Assess.
func Empty(ctx context.Context, l *Launcher, o VentOptions) (*VentReport, error) {
	a, err := Assess(ctx, l, Options{Day: o.Day, Sheets: FullSheets, Want: StuckStage | EmptyingStage})
	if err != nil {
		return nil, err
	}
	return a.VentReport(), nil
}

// VentReport gives the emptying with its verdicts and items.
func (a *Assessment) VentReport() *VentReport {
	r := *a.Emptying
	r.Verdicts = judge(a, EmptyingStage)
	r.Items = answered(ventItems(a), a.Launcher, a.Day)
	return &r
}

// FaultOptions steer Faults. The zero value looks at single faults and at the
// pairs with a latent one.
type FaultOptions struct {
	// Pairs asks for every pair of faults.
	Pairs PairChoice
	// Day is as in Options.
	Day string
}

// VentOptions steer Empty. The zero value is right.
type VentOptions struct {
	// Day is as in Options: an answer of the checklist with a later date closes nothing.
	Day string
}
