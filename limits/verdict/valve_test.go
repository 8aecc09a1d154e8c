package verdict

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
	"puffproof/pneumatics"
)

func TestValveDifferential(t *testing.T) {
	valve := func(changes ...func(*launcher.Launcher)) finding.Verdict {
		return asked(t, sample.Plain(changes...), finding.ValveDifferential)
	}
	needs := func(p float64) func(*launcher.Launcher) {
		return func(l *launcher.Launcher) { l.Paths[0].MinDifferential = launcher.Exact("", p) }
	}
	assert.Equal(t, finding.NotApplicable, valve().Status)
	v := valve(needs(0.5 * sample.Bars))
	assert.Equal(t, finding.Pass, v.Status, "the cut-in is 0.6 bar")
	assert.InEpsilon(t, 0.2, *v.Margin, sample.Rounding)
	assert.Equal(t, finding.Fail, valve(needs(0.7*sample.Bars)).Status)
	assert.Equal(t, finding.Fail, valve(needs(0.1*sample.Bars), func(l *launcher.Launcher) { l.Switch = nil }).Status,
		"without a switch it can be fired from nothing")
	v = valve(needs(0.7*sample.Bars), func(l *launcher.Launcher) { l.Paths[0].MinDifferential.Assumed = true })
	assert.Equal(t, finding.Unknown, v.Status)
	assert.Nil(t, v.Margin)
	v = valve(needs(0), func(l *launcher.Launcher) { l.Switch = nil })
	assert.Equal(t, finding.Pass, v.Status)
	assert.False(t, *v.Margin < 0)
}

// stored.energy: isentropic, 201.6 J per litre at 2 bar (limits, pressure table), against 19310 J, on each side; apart from
// it, a vessel rated above 50 bar L holds on its marking, and fails only where it is home-made.
func TestStoredEnergy(t *testing.T) {
	stored := func(volume, p, rated float64, changes ...func(*launcher.Launcher)) finding.Verdict {
		return asked(t, sample.Plain(append(changes, func(l *launcher.Launcher) {
			v := &l.Volumes[0]
			v.Volume, v.RatedPressure = launcher.Exact("", volume*1e-3), launcher.Exact("", rated*sample.Bars)
			l.Supply.DeadHead = launcher.Exact("", p*sample.Bars)
		})...), finding.StoredEnergy)
	}
	v := stored(10, 2, 5)
	assert.Equal(t, finding.Pass, v.Status, "50 bar L are not above 50 bar L")
	assert.InDelta(t, 2016, *v.Value, 0.5, "201.6 J per litre, four digits")
	assert.Equal(t, 19310.0, *v.Limit)
	assert.Equal(t, finding.Pass, stored(95.7, 2, 0.1).Status, "19293 J")
	assert.Equal(t, finding.Fail, stored(95.9, 2, 0.1).Status, "19333 J")
	v = stored(10, 2, 5.1)
	assert.Equal(t, finding.Conditional, v.Status, "51 bar L: its marking and document")
	assert.Equal(t, []string{finding.ItemLabels}, v.Items)
	assert.Contains(t, v.Why.String(), "51 bar L")
	for name, made := range map[string]func(*launcher.Launcher){
		"a proof test": func(l *launcher.Launcher) { l.Volumes[0].ProofTest = "15 bar, water, 2026-03-01" },
		"its material": func(l *launcher.Launcher) { l.Volumes[0].Material = "steel, home-made" },
	} {
		v = stored(10, 2, 5.1, made)
		assert.Equal(t, finding.Fail, v.Status, name)
		assert.Contains(t, v.Why.String(), "home-made")
		assert.Equal(t, finding.Pass, stored(10, 2, 5, made).Status, name)
	}
	blank := func(l *launcher.Launcher) { l.Volumes[0].RatedPressure = launcher.Band{} }
	u := asked(t, sample.Plain(func(l *launcher.Launcher) { l.Supply.DeadHead = launcher.Band{} }), finding.StoredEnergy)
	assert.Equal(t, finding.Unknown, u.Status)
	u = asked(t, sample.Plain(blank, func(l *launcher.Launcher) {
		l.Volumes[0].Volume, l.Supply.DeadHead = launcher.Exact("", 30e-3), launcher.Exact("", 2*sample.Bars)
	}), finding.StoredEnergy)
	assert.Equal(t, finding.Unknown, u.Status, "60 bar L at its highest pressure, of no known rating")
}

// The valve that needs the most decides, against the low end of the cut-in; stored energy
// counts the largest vessel of the band.
func TestValveAndStoreTakeTheBadEnds(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) {
		l.Switch.CutIn = sample.Between("", 0.5*sample.Bars, 0.7*sample.Bars)
		second := l.Paths[0]
		second.Name, second.MinDifferential = "second", sample.Between("", 0.2*sample.Bars, 0.4*sample.Bars)
		l.Paths[0].MinDifferential = launcher.Exact("", 0.1*sample.Bars)
		l.Paths = append(l.Paths, second)
	})
	v := asked(t, l, finding.ValveDifferential)
	assert.InDelta(t, 0.5*sample.Bars, *v.Value, 1e-9)
	assert.InDelta(t, 0.4*sample.Bars, *v.Limit, 1e-9)
	l.Volumes[0].Volume = sample.Between("", 9e-3, 11e-3)
	l.Supply.DeadHead = launcher.Exact("", 2*sample.Bars)
	assert.InDelta(t, 201.6*11, *asked(t, l, finding.StoredEnergy).Value, 0.6, "2 bar 11 L, four digits")
}

// Of five vessels together what all of them store counts, Baker's
//
//	p V/0.4 (1 - (pa/p)^(0.4/1.4))
//
// (W. E. Baker et al., Explosion Hazards and Evaluation, title from memory), in the thinnest
// air of the band, in which it expands furthest.
func TestStoredEnergyOfAllVesselsTogether(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) {
		l.Volumes[0].Volume, l.Supply.DeadHead = launcher.Exact("", 10e-3), launcher.Exact("", 2*sample.Bars)
		l.Ambient.Pressure = launcher.Band{Set: true, Nominal: 101325, Low: 90e3, High: 105e3}
		for range 4 {
			l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "more", Volume: launcher.Exact("", 10e-3)})
		}
	})
	for i := range l.Volumes[1:] {
		v := &l.Volumes[i+1]
		v.Name += string(rune('a' + i))
		l.Paths = append(l.Paths, launcher.PathSpec{Name: "to " + v.Name, From: "tank", To: v.Name, Kind: pneumatics.Orifice,
			Flow: sample.Orifice(5e-3, 0.75)})
	}
	v := asked(t, l, finding.StoredEnergy)
	assert.InEpsilon(t, 5*290e3*10e-3/0.4*(1-math.Pow(90./290, 0.4/1.4)), *v.Value, sample.Rounding)
	assert.Equal(t, 19310.0, *v.Limit)
}

// A valve of which no drive is stated may be a piloted one: what rests on its opening at any pressure holds only while it does. One that is
// said to be direct, or states its least differential, is what it says.
func TestAValveWithoutADriveIsNotTakenForDirect(t *testing.T) {
	const direct, unsaid = 0.04, 0.15 // s, what opens slowest of its drive
	with := func(usual float64, changes ...func(*launcher.Launcher)) *launcher.Launcher {
		l := sample.VentedTank()
		for i := range l.Paths {
			l.Paths[i].Usual = usual
		}
		for _, change := range changes {
			change(l)
		}
		return l
	}
	emptying := func(l *launcher.Launcher) finding.Verdict {
		return Of(assessed.Emptying(t, l, vent.SlowEndOnly), finding.VentTrapped)
	}
	assert.Equal(t, finding.Pass, emptying(with(direct)).Status)
	v := emptying(with(unsaid))
	assert.Equal(t, finding.Conditional, v.Status)
	assert.Contains(t, v.Condition.String(), "paths.vent")
	assert.NotContains(t, v.Condition.String(), "paths.fire")
	assert.Equal(t, []string{finding.ItemVentTest}, v.Items)

	fires := func(l *launcher.Launcher) finding.Verdict {
		return Of(assessed.Stated(t, l), finding.ValveDifferential)
	}
	assert.Equal(t, finding.NotApplicable, fires(with(direct)).Status)
	v = fires(with(unsaid))
	assert.Equal(t, finding.Conditional, v.Status)
	assert.Contains(t, v.Condition.String(), "paths.fire")
	needs := func(l *launcher.Launcher) { l.Paths[0].MinDifferential = launcher.Exact("", 0) }
	assert.Equal(t, finding.Pass, fires(with(unsaid, needs)).Status, "it is stated to need none")
}

// Behind a switch a supply of unknown delivery fills on for nobody knows how far.
func TestASupplyOfUnknownDeliveryStopsOnlyIfItDoes(t *testing.T) {
	of := func(l *launcher.Launcher) finding.Verdict { return asked(t, l, finding.HeatSoak) }
	hot := func(l *launcher.Launcher) { l.Ambient.Hottest = launcher.Exact("", sample.Kelvin0+25) }
	require.Equal(t, finding.Pass, of(sample.Plain(hot)).Status)
	v := of(sample.Plain(hot, func(l *launcher.Launcher) { l.Supply.FreeAir = launcher.Band{} }))
	assert.Equal(t, finding.Conditional, v.Status)
	assert.Equal(t, []string{finding.ItemSwitchTest}, v.Items)
	assert.Contains(t, v.Condition.String(), "supply.free_air is not stated")
}

// A vessel without a rating is marked no better than one with a high one.
func TestAVesselWithoutARatingIsNotTakenForAWeakOne(t *testing.T) {
	v := asked(t, sample.Plain(func(l *launcher.Launcher) { l.Volumes[0].RatedPressure = launcher.Band{} }), finding.StoredEnergy)
	assert.Equal(t, finding.Conditional, v.Status)
	assert.Equal(t, []string{finding.ItemLabels}, v.Items)
	assert.Contains(t, v.Condition.String(), "tank")
}
