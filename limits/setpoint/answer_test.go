package setpoint

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/verdict"
	"puffproof/pneumatics"
)

// Every kind of launcher gets an answer that says what binds and why, with figures
// that are numbers.
func TestSetpointOfEveryKind(t *testing.T) {
	for name, c := range map[string]struct {
		change  func(*launcher.Launcher)
		binding string
		works   bool
	}{
		"no relief valve, strong pump": {func(l *launcher.Launcher) { l.Paths = l.Paths[:1] }, "energy.fault", true},
		"no switch, strong pump":       {func(l *launcher.Launcher) { l.Switch = nil }, "ladder.order", true},
		"no supply":                    {func(l *launcher.Launcher) { l.Supply = nil }, "ladder.order", true},
		"no dead head":                 {func(l *launcher.Launcher) { l.Supply.DeadHead = launcher.Band{} }, "ladder.order", true},
		"no ratings": {func(l *launcher.Launcher) {
			l.Volumes[0].RatedPressure, l.Barrel.RatedPressure = launcher.Band{}, launcher.Band{}
		}, "ladder.order", true},
		"narrow relief valve": {func(l *launcher.Launcher) { l.Paths[1].Flow = sample.Orifice(0.2*sample.Millimetres, 0.62) },
			"relief.capacity", false},
		"low rating": {func(l *launcher.Launcher) { l.Volumes[0].RatedPressure = launcher.Exact("r", 0.45*sample.Bars) }, "vessel.rating", true},
	} {
		s := solverFor(sample.Plain(sample.Orderly, c.change)).out
		assert.Equal(t, c.works, s.Works, "%s: %s", name, s.Why.String())
		assert.Equal(t, c.binding, s.Binding, "%s: %s", name, s.Why.String())
		assert.NotEmpty(t, s.Why.String(), name)
		assert.NotEmpty(t, s.Ladder, name)
		for _, r := range s.Ladder {
			assert.False(t, math.IsNaN(r.Gauge+r.Low+r.High) || math.IsInf(r.Gauge+r.Low+r.High, 0), "%s: %s", name, r.Name)
		}
		if s.Works && s.CutOut != nil {
			assert.Less(t, *s.CutIn, *s.CutOut, name)
			require.NotNil(t, s.ReliefFullFlowMax, name)
			assert.LessOrEqual(t, *s.CutOut, *s.ReliefFullFlowMax, name)
		}
	}
}

// A regulator between tank and dose: the answer is for the sensed tank, and what
// the regulator could do when it fails open is told.
func TestSetpointWithARegulator(t *testing.T) {
	l := sample.Plain(sample.Orderly)
	l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "dose", Volume: launcher.Exact("volumes.dose.volume", 0.1e-3),
		RatedPressure: launcher.Exact("volumes.dose.rated_pressure", 10*sample.Bars), RatedForGas: launcher.Yes, Material: "steel"})
	l.Paths[0].From = "dose"
	l.Paths = append(l.Paths, launcher.PathSpec{Name: "regulator", From: "tank", To: "dose", Kind: pneumatics.Regulator,
		Flow:        sample.Orifice(2*sample.Millimetres, 0.7),
		SetPressure: sample.Between("paths.regulator.set_pressure", 0.18*sample.Bars, 0.22*sample.Bars),
		Creep:       sample.Between("paths.regulator.creep", 0, 0.05*sample.Bars),
		Droop:       launcher.Exact("paths.regulator.droop", 0.05*sample.Bars)})
	s := solverFor(l).out
	assert.True(t, s.Works, s.Why.String())
	var told []string
	for _, one := range s.Source.Turned {
		told = append(told, one.What.String())
	}
	assert.Contains(t, told, "regulator regulator failed open")
}

// Without a dead head, or without any supply, nobody knows where the pressure ends
// at a fault: the figures then rest on the relief valve, and the answer says that
// it is not known.
func TestSetpointOfAnUnknownSupply(t *testing.T) {
	known := solverFor(sample.Plain(sample.Orderly)).out
	assert.Empty(t, known.Unknown.String())
	for name, change := range map[string]func(*launcher.Launcher){
		"no supply":    func(l *launcher.Launcher) { l.Supply = nil },
		"no dead head": func(l *launcher.Launcher) { l.Supply.DeadHead = launcher.Band{} },
	} {
		s := solverFor(sample.Plain(sample.Orderly, change)).out
		assert.Contains(t, s.Unknown.String(), "dead_head", name)
		require.NotNil(t, s.CutOut, name)
		assert.LessOrEqual(t, *s.CutOut, *known.CutOut+1*settingStep, "%s: the relief valve still bounds it", name)
	}
}

// A gauge that is not stated counts with an error: never a higher cut-out than with
// a good gauge. Class 4 of twice the cut-out is 8 % of it (own arithmetic).
func TestMissingGaugeNeverRaisesTheCutOut(t *testing.T) {
	assert.InDelta(t, 0.08*sample.Bars, launcher.AssumedGaugeError(1*sample.Bars), 1e-6) // rounding
	assert.InDelta(t, 0.05*sample.Bars, launcher.AssumedGaugeError(0.1*sample.Bars), 1e-6)
	without := func(l *launcher.Launcher) { l.Switch = nil }
	withGauge := func(l *launcher.Launcher) {
		without(l)
		l.Gauges = []launcher.GaugeSpec{{On: "tank", Range: launcher.Exact("gauge.range", 1.6*sample.Bars), Class: 4}}
	}
	high := func(change func(*launcher.Launcher)) *solver { return solverFor(sample.Plain(sample.Orderly, change)) }
	bare, poor := high(without), high(withGauge)
	assert.Positive(t, bare.chain.launcher.Switch.GaugeError.High)
	assert.InDelta(t, 0.064*sample.Bars, poor.chain.launcher.Switch.GaugeError.High, 1e-6, "class 4 of 1.6 bar")
	assert.Less(t, poor.chain.cutOut, bare.chain.cutOut)
	assert.Positive(t, bare.chain.launcher.Switch.Differential.High, "an assumed switch has a differential too")
}

// What the design has otherwise than the answer rests on is said first, and an input
// that is missing leaves the answer unknown.
func TestAnswerAgainstTheDesignAsItIs(t *testing.T) {
	stated := func(l *launcher.Launcher) {
		l.Switch.Differential = launcher.Exact("pressure_switch.differential", 0.02*sample.Bars)
	}
	fine := solverFor(sample.Plain(sample.Orderly, stated))
	assert.Empty(t, fine.out.AsItIs.String())
	assert.Empty(t, fine.out.Unknown.String())
	high := func(l *launcher.Launcher) { MoveRelief(&l.Paths[l.ReliefOnSupply()], 1.2*sample.Bars) }
	assert.Contains(t, solverFor(sample.Plain(sample.Orderly, stated, high)).out.AsItIs.String(), "set too high")
	bare := func(l *launcher.Launcher) { l.Paths = slices.Delete(l.Paths, l.ReliefOnSupply(), l.ReliefOnSupply()+1) }
	without := solverFor(sample.Plain(sample.Orderly, stated, bare))
	assert.Contains(t, without.out.AsItIs.String(), "no relief valve")
	assert.Contains(t, without.out.Relief.String(), "full flow at most")
	assert.Contains(t, solverFor(sample.Plain(sample.Orderly, func(l *launcher.Launcher) { l.Switch = nil })).out.AsItIs.String(),
		"no pressure switch")
	for missing, w := range map[string]*launcher.Launcher{
		"volumes.tank.rated_pressure": sample.Plain(sample.Orderly, stated,
			func(l *launcher.Launcher) { l.Volumes[0].RatedPressure = launcher.Band{} }),
		"barrel.rated_pressure": sample.Plain(sample.Orderly, stated,
			func(l *launcher.Launcher) { l.Barrel.RatedPressure = launcher.Band{} }),
		"supply.free_air":              sample.Plain(sample.Orderly, stated, func(l *launcher.Launcher) { l.Supply.FreeAir = launcher.Band{} }),
		"pressure_switch.differential": sample.Plain(sample.Orderly, func(l *launcher.Launcher) { l.Switch.Differential = launcher.Band{} }),
	} {
		assert.Contains(t, solverFor(w).out.Unknown.String(), missing)
	}
}

// Figures to set by are whole millibars and hold when copied, in bar to three
// decimals or in psi to two (1 psi = 6894.757 Pa, NIST SP 811), rounded down.
func TestFiguresToSetByHoldWhenCopied(t *testing.T) {
	l := sample.Plain(sample.Orderly, func(l *launcher.Launcher) {
		l.Ambient.Temperature, l.Ambient.Hottest = launcher.Exact("t", 288.15), launcher.Exact("h", 303.15)
	})
	s := solverFor(l).out
	for _, step := range []float64{100, 0.01 * 6894.757, 0.1} {
		down := func(p float64) float64 { return step * math.Floor(p/step+1e-6) }
		w := l.Clone()
		w.Switch.CutOut = MovedBand(l.Switch.CutOut, down(*s.CutOut))
		w.Switch.CutIn = MovedBand(l.Switch.CutIn, down(*s.CutIn))
		for _, id := range []string{"ladder.order", "switch.band", "heat.soak"} {
			v := asked(t, w, id)
			assert.Equal(t, finding.Pass, v.Status, "%s at %v Pa: %s", id, step, v.Why.String())
		}
	}
	assert.Zero(t, math.Mod(*s.CutOut, settingStep))
}

// A rating below all else binds, and is the highest pressure at a fault.
func TestSetpointBindsOnARating(t *testing.T) {
	l := toleranced(rand.New(rand.NewPCG(5, 6)))
	l.Volumes[0].RatedPressure = launcher.Exact("volumes.tank.rated_pressure", 0.2*sample.Bars)
	s := settingOf(t, l, Options{})
	assert.Equal(t, "vessel.rating", s.Binding)
	require.NotNil(t, s.ReliefFullFlowMax)
	assert.Equal(t, 0.2*sample.Bars, *s.ReliefFullFlowMax)
}

// What the answer proposes passes the check's own ladder verdicts, and where no
// cut-out works a change is shown with its figures.
func TestAnswerPassesTheLadderVerdicts(t *testing.T) {
	l := toleranced(rand.New(rand.NewPCG(8, 9)))
	s := settingOf(t, l, Options{})
	require.True(t, s.Works, s.Why.String())
	settled := l.Clone()
	settled.Switch.CutOut = MovedBand(l.Switch.CutOut, *s.CutOut)
	settled.Switch.CutIn = MovedBand(l.Switch.CutIn, *s.CutIn)
	MoveRelief(&settled.Paths[settled.ReliefOnSupply()], *s.ReliefSet)
	for _, id := range []string{finding.LadderOrder, finding.ReliefCapacity, finding.ReliefRating, finding.SwitchBand, finding.HeatSoak} {
		v := asked(t, settled, id)
		assert.Equal(t, finding.Pass, v.Status, "%s: %s", v.ID, v.Why.String())
	}
	for i := 1; i < len(s.Ladder); i++ {
		assert.GreaterOrEqual(t, s.Ladder[i].Gauge, s.Ladder[i-1].Gauge, s.Ladder[i].Name)
	}
	require.NotEmpty(t, s.Sensitivity)
	for i := 1; i < len(s.Sensitivity); i++ {
		assert.LessOrEqual(t, s.Sensitivity[i].CutOut, s.Sensitivity[i-1].CutOut)
	}
}

// Where a relief valve as it is set leaves no room for any cut-out the answer sets it up, and holds as check judges it once that is
// entered, relief valve, cut-out and cut-in together, with the design's tolerances in share.
func TestAReliefValveThatIsSetUpHoldsWhenEntered(t *testing.T) {
	t.Parallel()
	l := sample.Plain(sample.Orderly, func(l *launcher.Launcher) {
		l.Switch.Differential = launcher.Exact("pressure_switch.differential", 0.02*sample.Bars)
		p := &l.Paths[l.ReliefOnSupply()]
		p.SetPressure, p.FullFlowPressure = sample.Between("set", 0.03*sample.Bars, 0.05*sample.Bars), launcher.Exact("full", 0.06*sample.Bars)
		p.ReseatPressure = launcher.Exact("reseat", 0.02*sample.Bars)
	})
	s := settingOf(t, l, Options{})
	require.True(t, s.Works, s.Why.String())
	require.Empty(t, s.Unmet.String())
	assert.Contains(t, s.AsItIs.String(), "its relief valve is set too low, to 0.040 bar, which leaves room for no cut-out")
	assert.Contains(t, s.Relief.String(), "set it up from 0.040 bar to ")
	assert.False(t, s.Holds())
	w := l.Clone()
	w.Switch.CutOut, w.Switch.CutIn = MovedBand(l.Switch.CutOut, *s.CutOut), MovedBand(l.Switch.CutIn, *s.CutIn)
	w.Switch.GaugeError = w.GaugeErrorFor(l.Switch.GaugeError, *s.CutOut)
	MoveRelief(&w.Paths[w.ReliefOnSupply()], *s.ReliefSet)
	for _, p := range w.Parts() {
		assert.LessOrEqual(t, w.Paths[w.ReliefOnSupply()].FullFlowHigh(), p.Rated.Low, p.Name)
	}
	want := stagesFor(w)
	a, err := assessment.Make(sample.Weakly(), w, assessment.Options{Want: want})
	require.NoError(t, err)
	for _, v := range verdict.OfPressures(a, want) {
		assert.False(t, failsByPressure(&v), "%s: %s", v.ID, v.Why.String())
	}
}

// A soft tip that is confirmed from tomorrow on allows no more today: neither in the
// answer's own limit nor in the verdicts on faults at its settings.
func TestATipConfirmedLaterAllowsNothingYet(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) { // far too strong
		l.Projectile.TipProof = ""
		l.Checklist = []finding.Confirmation{{Item: finding.ItemTip, Who: "A", Date: "2099-01-01", Value: sample.PressedWords,
			Figures: sample.Pressed()}}
	})
	asked := func(day string) (allowed, inFaults float64) {
		s, err := newSolver(sample.Weakly(), l, Options{Day: day})
		require.NoError(t, err)
		failed, _, err := s.faultsOf(l)
		require.NoError(t, err)
		require.NotNil(t, failed)
		return s.allowed, *failed.Limit
	}
	for day, limit := range map[string]float64{"2026-11-28": 0.08, "2099-01-01": 0.5} {
		allowed, inFaults := asked(day)
		assert.InDelta(t, limit, allowed, sample.Rounding, day)
		assert.InDelta(t, limit, inFaults, sample.Rounding, day)
	}
}

// An answer holds only while it is known, works, and the design keeps to it.
func TestAnswerHoldsOnlyAsAWhole(t *testing.T) {
	cut := 0.4 * sample.Bars
	whole := func() Answer { return Answer{Works: true, CutOut: &cut} }
	a := whole()
	assert.True(t, a.Holds())
	said := finding.Words("said")
	for name, change := range map[string]func(*Answer){
		"works":    func(a *Answer) { a.Works = false },
		"unknown":  func(a *Answer) { a.Unknown = said },
		"unmet":    func(a *Answer) { a.Unmet = said },
		"as it is": func(a *Answer) { a.AsItIs = said },
		"too high": func(a *Answer) { stated := 1.01 * cut; a.Stated = &stated },
	} {
		a := whole()
		change(&a)
		assert.False(t, a.Holds(), name)
	}
}

// No answer has a figure in its words, where a reader in other units would meet it.
func TestAnswerHasItsFiguresTyped(t *testing.T) {
	for name, change := range map[string]func(*launcher.Launcher){
		"orderly": func(*launcher.Launcher) {},
		"no switch": func(l *launcher.Launcher) {
			l.Switch, l.Gauges = nil, []launcher.GaugeSpec{{On: "tank", Range: launcher.Exact("", 1.6*sample.Bars), Class: 4}}
		},
		"no relief": func(l *launcher.Launcher) { l.Paths = l.Paths[:1] },
		"low":       func(l *launcher.Launcher) { l.Volumes[0].RatedPressure = launcher.Exact("r", 0.45*sample.Bars) },
		"lowest":    func(l *launcher.Launcher) { l.Volumes[0].RatedPressure = launcher.Exact("r", 0.2*sample.Bars) },
		"unknown":   func(l *launcher.Launcher) { l.Supply.DeadHead = launcher.Band{} },
		"turned up": func(l *launcher.Launcher) { l.Switch.AdjustableTo = launcher.Exact("", 3*sample.Bars) },
	} {
		assert.Empty(t, sample.FiguresInWords(solverFor(sample.Plain(sample.Orderly, change)).out), name)
	}
	assert.Empty(t, sample.FiguresInWords(SizeQuestion{Limit: 0.5, Bore: 0.04}.notes()))
}

// A small dose holds at every pressure that the supply reaches; with the firing valve stuck
// open while the tank fills it, all of the tank's air pushes: that asks for less than normal
// running does. The settings found pass energy.fault as check judges
// it; those without the fault do not.
func TestSingleFaultsLowerTheSettings(t *testing.T) {
	t.Parallel()
	feed := sample.ValveIn(pneumatics.Charging)
	feed.Flow = sample.Orifice(8*sample.Millimetres, 0.75)
	l := sample.TwoTanks(feed)
	l.Volumes[1].Volume = launcher.Exact("volumes.dose.volume", 0.1e-3)
	sample.Friction(0, 0)(l) // else one that sticks asks for less, objects do, and a mouth on the muzzle
	l.Barrel.ObjectControl, l.Barrel.SealGuard = []string{"loaded by the adult in charge"}, "slots"
	solved, err := newSolver(sample.Weakly(), l, Options{})
	require.NoError(t, err)
	require.NoError(t, solved.settings())
	require.Contains(t, solved.loweredBy.String(), "fire stuck open while charging")
	require.Contains(t, solved.out.Why.String(), "a single fault asks for it")
	free := solved.caps
	free.normal = askedFor{}
	for _, c := range []struct {
		set    chain
		passes bool
	}{{solved.chain, true}, {solved.solved(free), false}} {
		a, err := assessment.Make(sample.Weakly(), c.set.launcher, assessment.Options{Want: assessment.FaultStage})
		require.NoError(t, err)
		assert.Equal(t, c.passes, verdict.Of(a, finding.EnergyFault).Status == finding.Pass)
	}
}

// Where no cut-out works, what takes the room is told as it is: band, gauge's error and overshoot together.
func TestWhatLeavesNoRoomIsAddedUp(t *testing.T) {
	l := sample.Plain(sample.Orderly)
	l.Switch.CutOut = sample.Between("pressure_switch.cut_out", 0.30*sample.Bars, 0.34*sample.Bars)
	l.Switch.GaugeError = sample.Between("pressure_switch.gauge_error", -0.5*sample.Bars, 0.5*sample.Bars)
	s := &solver{l: l, chain: chain{launcher: l, fault: 0.4 * sample.Bars, set: 0.5 * sample.Bars}}
	assert.Contains(t, s.whyNone().String(), "take "+finding.Bar(0.54*sample.Bars+l.Overshoot()).String()+" and more")
}
