package assessment

import (
	"context"

	"puffproof/limits/doubt"
	"puffproof/limits/recall"
	"puffproof/limits/search"
)

// recalled adds what a stage computes, or what it computed before of the same: see package recall. What is picked by a function or
// starts from other shots is computed each time.
func (s stage) recalled(ctx context.Context, a *Assessment, o Options) error {
	if o.OnlyFaults != nil || o.Seeds != nil {
		return s.compute(a, ctx, o)
	}
	before := a.Launcher
	done, err := recall.Once(ctx, func() recall.Key { return s.key(ctx, a, o) }, func() (*Assessment, error) {
		if err := s.compute(a, ctx, o); err != nil {
			return nil, err
		}
		now := *a
		if now.Launcher == before {
			now.Launcher = nil
		}
		return &now, nil
	})
	if err == nil {
		s.take(a, done)
	}
	return err
}

// key is all that a stage depends on. Of the answers of the checklist only faults ask.
func (s stage) key(ctx context.Context, a *Assessment, o Options) recall.Key {
	of := *a.Launcher
	if s.is != FaultStage {
		of.Checklist, of.Altered, of.RecordTrouble = nil, nil, ""
	}
	return recall.Key{"stage", s.is, a.Computed & (EnergyStage | StuckStage | EmptyingStage | FaultStage), search.Strength(ctx), &of,
		o.Measured, a.Limits, o.Day, o.Depth, o.Sheets, o.Roughly, o.Pairs, o.Tame, o.Want.Has(FaultStage)}
}

// take takes over what a stage gave.
func (s stage) take(a, done *Assessment) {
	switch s.is {
	case EnergyStage:
		a.Energy, a.Normal, a.Wave, a.NoStart, a.Measured, a.Eye = done.Energy, done.Normal, done.Wave, done.NoStart, done.Measured, done.Eye
		if done.Launcher != nil && a.Launcher != done.Launcher {
			a.Launcher = doubt.Held(a.Launcher)
		}
	case StuckStage:
		a.Stuck, a.Plugged = done.Stuck, done.Plugged
	case ObjectStage:
		a.Misuse, a.DeadHead = done.Misuse, done.DeadHead
	case EmptyingStage:
		a.Loading, a.Emptying, a.Revealed = done.Loading, done.Emptying, done.Revealed
	case FaultStage:
		a.Faults, a.Revealed = done.Faults, done.Revealed
	case FlightStage:
		a.Flights, a.NoFlight = done.Flights, done.NoFlight
	case SoundStage:
		a.Sound = done.Sound
	case BudgetStage:
		a.Budget = done.Budget
	}
}
