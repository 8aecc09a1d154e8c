package verdict

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/control"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// muzzle.sealed: p V/(V + dead volume + 1 L) against 0.1 bar (limits, body and
// mouth). By hand: 0.95 bar 0.25 L/(0.25 + 0.04 + 1) L = 0.184 bar, 0.18 in two
// digits.
func TestMuzzleSealed(t *testing.T) {
	sealed := func(changes ...func(*launcher.Launcher)) finding.Verdict {
		return asked(t, sample.Plain(changes...), finding.MuzzleSealed)
	}
	dose := func(v float64) func(*launcher.Launcher) {
		return func(l *launcher.Launcher) { l.Volumes[0].Volume = launcher.Exact("", v*1e-3) }
	}
	v := sealed(dose(0.25))
	assert.Equal(t, finding.Fail, v.Status)
	assert.InEpsilon(t, 0.95*sample.Bars*0.25/(0.25+0.04+1), *v.Value, sample.Rounding)
	assert.InDelta(t, 0.18*sample.Bars, *v.Value, 0.005*sample.Bars)
	assert.Equal(t, 0.1*sample.Bars, *v.Limit)
	assert.Equal(t, finding.Pass, sealed(dose(0.1), wiredSupply).Status)
	assert.Equal(t, finding.Pass, sealed(dose(0.1), wiredSupply, func(l *launcher.Launcher) { l.Barrel.SealGuard = "slots" }).Status,
		"no guard is needed")
	v = sealed(dose(0.25), func(l *launcher.Launcher) { l.Barrel.SealGuard = "slots" })
	assert.Equal(t, finding.Conditional, v.Status)
	assert.Equal(t, finding.OnProcedure, v.Basis)
	assert.Equal(t, []string{finding.ItemSealGuard}, v.Items)
	assert.Contains(t, v.Condition.String(), "slots")
	assert.Negative(t, *v.Margin, "the figure stays that of a failure")
	assert.Equal(t, finding.Fail, sealed(dose(0.25), func(l *launcher.Launcher) { l.Barrel.SealGuard = "  " }).Status)
	assert.Equal(t, finding.Unknown, sealed(func(l *launcher.Launcher) { l.Switch, l.Supply = nil, nil }).Status)
}

// projectile.choking: a ball that passes 44.45 mm is a small ball (16 CFR 1117), a
// part that fits 31.7 mm a small part (16 CFR 1501.4).
func TestProjectileChoking(t *testing.T) {
	const year = 365.25 * 86400
	ball := func(d, age float64) finding.Verdict {
		return asked(t, sample.Plain(func(l *launcher.Launcher) {
			l.Projectile.Diameter = launcher.Exact("", d*sample.Millimetres)
			if age > 0 {
				l.Event = &launcher.EventSpec{Youngest: launcher.Exact("", age*year)}
			}
		}), finding.ProjectileChoking)
	}
	assert.Equal(t, finding.Pass, ball(45, 3).Status)
	assert.Equal(t, finding.OnData, ball(45, 3).Basis)
	for _, age := range []float64{2.9, 0.01, 0} { // 0: not stated
		of := ball(45, age)
		assert.Equal(t, finding.Conditional, of.Status, "a bitten-off piece passes the gauge")
		assert.Equal(t, []string{finding.ItemTugAndBite}, of.Items)
		assert.Contains(t, of.Condition.String(), "nothing comes off")
		// Where such a child is, as the design says, that it gets nothing into the mouth is no condition that holds.
		assert.Equal(t, age == 0, strings.Contains(of.Condition.String(), "no child under three"), "%g years", age)
		assert.Contains(t, of.Source, "16 CFR 1501.4(b)(2)")
		assert.Positive(t, *of.Margin)
	}
	assert.Equal(t, finding.Fail, ball(44, 2).Status)
	assert.Negative(t, *ball(44, 2).Margin)
	four := ball(44, 4)
	assert.Equal(t, finding.Conditional, four.Status)
	assert.Equal(t, finding.OnProcedure, four.Basis)
	assert.Contains(t, four.Condition.String(), "under three")
	assert.Equal(t, []string{finding.ItemTugAndBite}, four.Items)
	assert.InDelta(t, 44*sample.Millimetres, *four.Value, 1e-12)
	assert.Negative(t, *four.Margin)
	assert.Equal(t, finding.Unknown, ball(44, 0).Status)
	rocket := asked(t, sample.Plain(sample.OverTube, func(l *launcher.Launcher) {
		l.Event = &launcher.EventSpec{Youngest: launcher.Exact("", 3*year)}
	}), finding.ProjectileChoking)
	assert.Equal(t, finding.Pass, rocket.Status, "40 mm do not fit the cylinder of 31.7 mm")
	none := asked(t, sample.Plain(func(l *launcher.Launcher) { l.Projectile.Diameter = launcher.Band{} }), finding.ProjectileChoking)
	assert.Equal(t, finding.Unknown, none.Status)
}

// A supply with an open way into the barrel blows on for as long as lips stay sealed, however little it delivers: up to its dead head,
// where nothing ends it sooner. One that stands still as it is fired does not. Once a second of it was counted, and 2 L/min passed: 20 kPa
// in 1.1 L take it 6 s.
// wiredSupply has the supply's motor in a wiring that is stated: what has current when it is fired, the reader holds to the file.
func wiredSupply(l *launcher.Launcher) {
	l.Control = &control.Wiring{Parts: []control.Part{{Name: "motor", Kind: control.Load, Moves: []string{control.Supply}}}}
}

// A supply that is only said to stand still while it is fired is a condition: no pass rests on it. What is wired shows it; an arm does not.
func TestMuzzleSealedWhileTheSupplyIsSaidToStandStill(t *testing.T) {
	said := func(changes ...func(*launcher.Launcher)) finding.Verdict {
		return asked(t, sample.Plain(append([]func(*launcher.Launcher){func(l *launcher.Launcher) {
			l.Switch, l.Volumes[0].Volume = nil, launcher.Exact("", 0.1e-3)
			l.Supply.DeadHead = launcher.Exact("", 0.2*sample.Bars)
		}}, changes...)...), finding.MuzzleSealed)
	}
	by := func(k launcher.SupplyKind) func(*launcher.Launcher) {
		return func(l *launcher.Launcher) { l.Supply.Kind = k }
	}
	guard := func(l *launcher.Launcher) { l.Barrel.SealGuard = "slots" }
	v := said(wiredSupply)
	assert.Equal(t, finding.Pass, v.Status)
	assert.InEpsilon(t, 0.2*sample.Bars*0.1/1.14, *v.Value, sample.Rounding)
	for name, v := range map[string]finding.Verdict{"said": said(), "a hand pump, wired": said(by(launcher.HandPump), wiredSupply)} {
		assert.Equal(t, finding.Conditional, v.Status, name)
		assert.Equal(t, 0.2*sample.Bars, *v.Value, name)
		assert.Negative(t, *v.Margin, name)
	}
	v = said(guard)
	assert.Equal(t, []string{finding.ItemSealGuard}, v.Items, "a guard holds it back whatever runs")
	assert.Equal(t, finding.Pass, said(func(l *launcher.Launcher) { l.Supply.DeadHead = launcher.Exact("", 0.09*sample.Bars) }).Status,
		"it cannot reach the limit")
}

func TestMuzzleSealedCountsWhatASupplyBlows(t *testing.T) {
	blown := func(litres float64, states ...pneumatics.State) finding.Verdict {
		return asked(t, sample.Plain(func(l *launcher.Launcher) {
			l.Switch, l.Volumes[0].Volume = nil, launcher.Exact("", 0.1e-3)
			l.Supply.FreeAir, l.Supply.DeadHead = launcher.Exact("", litres*sample.LitreMinute), launcher.Exact("", 0.2*sample.Bars)
			l.Supply.RunsIn = pneumatics.SetOf(states...)
		}), finding.MuzzleSealed)
	}
	still := blown(4, pneumatics.Charging)
	assert.Equal(t, 0.2*sample.Bars, *still.Value, "what it comes to where it does not stand still")
	assert.Equal(t, finding.Conditional, still.Status)
	assert.Contains(t, still.Condition.String(), "the supply stands still")
	for _, litres := range []float64{0.5, 2, 4, 1500} {
		v := blown(litres, pneumatics.Charging, pneumatics.Firing)
		assert.Equal(t, 0.2*sample.Bars, *v.Value, litres)
		assert.Equal(t, finding.Fail, v.Status, litres)
	}
}

// What is always open in the barrel lets out what a weak supply delivers: 2 L/min of air at 20 degC and 1.01325 bar through a sharp hole of
// 2 mm need the pressure of orifice flow, q = Cd A sqrt(2 dp/rho) with Cd 0.75 (incompressible,
// within a hundredth below 1 kPa): 120 Pa, at which the pump, which ends at 20 kPa, has 0.994 of it left.
func TestMuzzleSealedCountsWhatABleedLetsOut(t *testing.T) {
	with := func(bore float64) float64 {
		return *asked(t, sample.Plain(func(l *launcher.Launcher) {
			l.Switch, l.Volumes[0].Volume = nil, launcher.Exact("", 1e-9)
			l.Supply.FreeAir, l.Supply.DeadHead = launcher.Exact("", 2*sample.LitreMinute), launcher.Exact("", 0.2*sample.Bars)
			l.Supply.RunsIn = pneumatics.SetOf(pneumatics.Firing)
			l.Paths = append(l.Paths, launcher.PathSpec{Name: "bleed", From: "barrel", To: "atmosphere", Kind: pneumatics.Orifice,
				Flow: sample.Orifice(bore, 0.75)})
		}), finding.MuzzleSealed).Value
	}
	const q, rho = 2e-3 / 60, 101325 / (287.05 * 293.15)
	area := launcher.Circle(2 * sample.Millimetres)
	assert.InEpsilon(t, 0.5*rho*math.Pow(q*0.994/(0.75*area), 2), with(2*sample.Millimetres), 0.02)
	assert.InEpsilon(t, 0.2*sample.Bars, with(0.1*sample.Millimetres), 0.04, "too narrow: all but the dead head")
}

// The most air and the least room: volumes at their top, the dead volume at its foot, the
// pressure after a day in the sun, regulators at the top of their bands, all volumes that
// feed the barrel. By hand: (95000 + 101325) 318.15/293.15 - 101325 = 111743 Pa from 0.26 L
// into 0.26 + 0.03 + 1 L.
func TestMuzzleSealedTakesTheBadEnds(t *testing.T) {
	v := asked(t, sample.Plain(func(l *launcher.Launcher) {
		l.Ambient.Hottest = launcher.Exact("", sample.Kelvin0+45)
		l.Volumes[0].Volume, l.Barrel.DeadVolume = sample.Between("", 0.24e-3, 0.26e-3), sample.Between("", 30e-6, 50e-6)
	}), finding.MuzzleSealed)
	assert.InEpsilon(t, 111743*0.26/(0.26+0.03+1), *v.Value, 1e-5, "the digits written")
	regulated := sample.TwoTanks(launcher.PathSpec{Kind: pneumatics.Regulator,
		SetPressure: sample.Between("", 0.25*sample.Bars, 0.35*sample.Bars),
		Creep:       sample.Between("", 0, 0.1*sample.Bars)})
	v = asked(t, regulated, finding.MuzzleSealed)
	assert.InEpsilon(t, (0.95e5*2+0.45e5*0.5)/(2.5+0.04+1), *v.Value, sample.Rounding)
	v = asked(t, sample.TwoTanks(), finding.MuzzleSealed)
	assert.Zero(t, *v.Value, "the tank does not reach the barrel")
}

// The smallest projectile of the band and the youngest child decide; on the gauge it passes
// the gauge.
func TestChokingTakesTheBadEnds(t *testing.T) {
	const year = 365.25 * 86400
	ball := func(d, age launcher.Band) finding.Status {
		v := asked(t, sample.Plain(func(l *launcher.Launcher) {
			l.Projectile.Diameter, l.Event = d, &launcher.EventSpec{Youngest: age}
		}), finding.ProjectileChoking)
		assertFigure(t, d.Low, v.Value, "the smallest")
		return v.Status
	}
	four := launcher.Exact("", 4*year)
	assert.Equal(t, finding.Conditional, ball(sample.Between("", 44e-3, 46e-3), four))
	assert.Equal(t, finding.Conditional, ball(launcher.Exact("", 44.45e-3), four))
	assert.Equal(t, finding.Pass, ball(launcher.Exact("", above(44.45e-3)), four))
	assert.Equal(t, finding.Fail, ball(launcher.Exact("", 44e-3), sample.Between("", 2*year, 5*year)))
	assert.Equal(t, finding.Conditional, ball(launcher.Exact("", 44e-3), launcher.Exact("", 3*year)))
}
