package verdict

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/internal/assessed"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/material"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// vessel.rating: highest pressure, normal or at a single fault, against the
// rating; PVC loses rating in the heat. Without a relief valve the tank sees the
// dead head of 4 bar.
func TestVesselRating(t *testing.T) {
	v := asked(t, sample.Plain(), finding.VesselRating)
	assert.Equal(t, finding.Pass, v.Status)
	assert.Equal(t, 4*sample.Bars, *v.Value)
	assert.Equal(t, 6*sample.Bars, *v.Limit, "the barrel has the lowest rating")
	assert.InEpsilon(t, 1.0/3, *v.Margin, sample.Rounding)
	assert.Equal(t, finding.OnData, v.Basis)

	v = asked(t, sample.Plain(func(l *launcher.Launcher) {
		l.Volumes[0].RatedPressure = sample.Between("", 3*sample.Bars, 5*sample.Bars)
	}), finding.VesselRating)
	assert.Equal(t, finding.Fail, v.Status)
	assert.Equal(t, 3*sample.Bars, *v.Limit, "the low end of the rating")
	assert.NotEmpty(t, v.Advice.String())

	for name, change := range map[string]func(*launcher.Launcher){
		"volumes.tank.rated_pressure": func(l *launcher.Launcher) { l.Volumes[0].RatedPressure = launcher.Band{} },
		"barrel.rated_pressure":       func(l *launcher.Launcher) { l.Barrel.RatedPressure = launcher.Band{} },
		"supply.dead_head":            func(l *launcher.Launcher) { l.Supply.DeadHead = launcher.Band{} },
	} {
		v := asked(t, sample.Plain(change), finding.VesselRating)
		assert.Equal(t, finding.Unknown, v.Status, name)
		assert.Nil(t, v.Value)
		assert.Contains(t, v.Why.String(), name)
	}
	// A failure is not hidden by what is missing elsewhere.
	v = asked(t, sample.Plain(func(l *launcher.Launcher) {
		l.Volumes[0].RatedPressure, l.Barrel.RatedPressure = launcher.Exact("", 1*sample.Bars), launcher.Band{}
	}), finding.VesselRating)
	assert.Equal(t, finding.Fail, v.Status)
}

// PVC at 45 degC = 113 degF keeps 40 % of its water rating (the row of 120 degF
// in the makers' tables, PVCDerating); above 140 degF none.
func TestVesselRatingOfPVC(t *testing.T) {
	pvc := func(hottest float64) finding.Verdict {
		return asked(t, sample.Plain(func(l *launcher.Launcher) {
			l.Volumes[0].Material = "PVC-U pipe"
			l.Supply.DeadHead = launcher.Exact("", 3.6*sample.Bars)
			l.Ambient.Hottest = launcher.Exact("", sample.Kelvin0+hottest)
		}), finding.VesselRating)
	}
	v := pvc(45)
	assert.InEpsilon(t, 4*sample.Bars, *v.Limit, sample.Rounding)
	// (3.6 + 1.01325) 318.15/293.15 - 1.01325 bar: the ideal gas, sealed.
	assert.InDelta(t, 3.9934*sample.Bars, *v.Value, 1e-3*sample.Bars)
	assert.Equal(t, finding.Pass, v.Status, "vessel.material still fails")
	v = pvc(65)
	assert.Equal(t, finding.Fail, v.Status)
	assert.Zero(t, *v.Limit)
}

// vessel.material: rated for gas or not, water pipe never.
func TestVesselMaterial(t *testing.T) {
	tank := func(material string, forGas launcher.Answer) finding.Verdict {
		return asked(t, sample.Plain(func(l *launcher.Launcher) { l.Volumes[0].Material, l.Volumes[0].RatedForGas = material, forGas }),
			finding.VesselMaterial)
	}
	assert.Equal(t, finding.Pass, tank("steel", launcher.Yes).Status)
	assert.Equal(t, finding.Pass, tank("aluminium", launcher.Yes).Status)
	for _, m := range []string{"PVC", "cPVC", "PVC-U, grey", "drain pipe", "HT waste pipe", "polyvinyl chloride", "orange KG pipe", "HT-Rohr",
		"wood and glue", "plywood", "paper tube", "3D printed PLA", "PLA", "printed nylon", "acrylic", "Pappe", "steel with acrylic ends"} {
		v := tank(m, launcher.Yes)
		assert.Equal(t, finding.Fail, v.Status, "%s whatever is printed on it", m)
		assert.Equal(t, 1.0, *v.Value)
	}
	for _, m := range []string{"PETG", "Kanalgrundrohr", "Einmachglas", "steel-look resin", "steel-reinforced rubber", "rubber hose",
		"pot metal"} {
		v := tank(m, launcher.Yes)
		assert.Equal(t, finding.Unknown, v.Status, "%s is no word that is known", m)
		assert.Contains(t, v.Why.String(), "volumes.tank.material")
		assert.Contains(t, v.Advice.String(), "stainless")
		assert.Equal(t, finding.Fail, tank(m, launcher.No).Status, m)
	}
	for _, known := range append(strings.Split(material.Known(), ", "), strings.Split(material.KnownPlastics(), ", ")...) {
		assert.Equal(t, finding.Pass, tank(known, launcher.Yes).Status, "%s is what people are told to choose from", known)
		assert.Contains(t, tank("PETG", launcher.Yes).Advice.String(), known)
	}
	assert.Equal(t, finding.Fail, tank("steel", launcher.No).Status)
	assert.Equal(t, finding.Fail, tank("steel", launcher.Unanswered).Status, "no answer counts as no")
	for _, m := range []string{"", "unknown", "dunno", "not known", "?", "plastic", " Metal "} {
		v := tank(m, launcher.Yes)
		assert.Equal(t, finding.Unknown, v.Status, "%q names no material", m)
		assert.Contains(t, v.Why.String(), "volumes.tank.material")
	}
}

// barrel.blocked: a tight ball and a fast valve compress the air ahead far above
// the tank. Upper bound without valve data: p_t (1 - 1/r) = pa (r^0.4 - 1)/0.4,
// p = pa r^1.4; 0.95 bar gauge gives 3.06 bar gauge. Source: that closed form, worked
// in testdata/reference/plugged.csv. The wave of the valve, which has the whole bore, counts beside it: at
// most what is thrown back above 0.95 bar, up to 2.1 times that (launcher.BaseWave).
func TestBarrelBlocked(t *testing.T) {
	blocked := func(changes ...func(*launcher.Launcher)) finding.Verdict {
		l := sample.Plain(append([]func(*launcher.Launcher){func(l *launcher.Launcher) {
			l.Supply.DeadHead = launcher.Exact("", 0.95*sample.Bars)
		}}, changes...)...)
		p, err := worst.ComputePlugged(assessed.Weakly(), l, nil)
		require.NoError(t, err)
		return Of(&assessment.Assessment{Computed: assessed.All, Launcher: l, Plugged: p}, finding.BarrelBlocked)
	}
	fast := func(l *launcher.Launcher) {
		l.Paths[0].Flow, l.Paths[0].OpeningTime = sample.Cv(60), launcher.Exact("", 0)
		l.Projectile.Breakaway, l.Projectile.Sliding = launcher.Exact("", 0), launcher.Exact("", 0)
		l.Volumes[0].Volume = launcher.Exact("", 0.2)
		l.Barrel.DeadVolume = launcher.Exact("", 1*sample.Millilitres)
	}
	v := blocked(fast)
	assert.Equal(t, finding.OnCircuit, v.Basis)
	assert.Greater(t, *v.Value, 2.4*sample.Bars, "several times the tank's pressure")
	assert.Less(t, *v.Value, (3.10+1.1*0.95)*sample.Bars, "the bound, with the two masses of gas moving")
	assert.Contains(t, v.Why.String(), "its wave is thrown back")
	assert.Equal(t, finding.Pass, v.Status)
	assert.Contains(t, v.Why.String(), "compresses the air ahead")
	assert.Equal(t, finding.Fail, blocked(fast, func(l *launcher.Launcher) {
		l.Barrel.RatedPressure = launcher.Exact("", 2*sample.Bars)
	}).Status)

	slow := blocked(func(l *launcher.Launcher) { l.Paths[0].Flow = sample.Cv(0.05) })
	assert.InEpsilon(t, 0.95*sample.Bars, *slow.Value, 0.1, "a slow valve stays near the tank's pressure")
	assert.Equal(t, finding.Unknown, blocked(func(l *launcher.Launcher) { l.Barrel.RatedPressure = launcher.Band{} }).Status)
	assert.Equal(t, finding.Unknown, blocked(func(l *launcher.Launcher) { l.Supply.DeadHead = launcher.Band{} }).Status)
}

// The part that is used most decides, not the first or the one with the lowest rating.
func TestTheMostUsedPartDecides(t *testing.T) {
	v := asked(t, sample.Plain(func(l *launcher.Launcher) {
		l.Volumes[0].RatedPressure = launcher.Exact("", 5*sample.Bars)
	}), finding.VesselRating)
	assert.Equal(t, 5*sample.Bars, *v.Limit)
	assert.Contains(t, v.Why.String(), "volumes.tank")
}

// A hose whose rating is stated decides as a vessel does; with one without, the verdict holds only while its print says enough.
func TestAHoseDecidesWhereItsRatingIsStated(t *testing.T) {
	verdict := func(rated launcher.Band) finding.Verdict {
		return asked(t, sample.Plain(func(l *launcher.Launcher) {
			l.Paths = append(l.Paths, launcher.PathSpec{Name: "dump", From: "tank", To: "atmosphere", Kind: pneumatics.HandValve,
				Flow: sample.Orifice(2e-3, 0.75), Hose: &launcher.HoseSpec{Bore: launcher.Exact("", 6e-3), Length: launcher.Exact("", 1),
					RatedPressure: rated}})
		}), finding.VesselRating)
	}
	v := verdict(launcher.Band{})
	assert.Equal(t, finding.Conditional, v.Status)
	assert.Contains(t, v.Condition.String(), "paths.dump.hose 4.00 bar or more")
	assert.Equal(t, finding.Pass, verdict(launcher.Exact("", 4*sample.Bars)).Status)
	v = verdict(launcher.Exact("", 3.9*sample.Bars))
	assert.Equal(t, finding.Fail, v.Status)
	assert.Contains(t, v.Why.String(), "paths.dump.hose")
}

// A part without any strength left is used without bound, also where nothing is in it.
func TestAPartWithoutStrengthDecides(t *testing.T) {
	v := asked(t, sample.Plain(func(l *launcher.Launcher) {
		l.Switch, l.Supply.DeadHead = nil, launcher.Exact("", 0)
		l.Barrel.Material, l.Ambient.Temperature = "PVC pipe", launcher.Exact("", sample.Kelvin0+65)
	}), finding.VesselRating)
	assert.Zero(t, *v.Value)
	assert.Zero(t, *v.Limit)
	assert.Contains(t, v.Why.String(), "barrel")
}

// barrel.blocked: a row on each side of the rating.
func TestBarrelBlockedAtItsRating(t *testing.T) {
	for value, want := range map[float64]finding.Status{2e5: finding.Pass, above(2e5): finding.Fail} {
		v := Of(&assessment.Assessment{Computed: assessed.All, Launcher: sample.Plain(), Plugged: worst.Plugged{Value: value, Limit: 2e5}},
			finding.BarrelBlocked)
		assert.Equal(t, want, v.Status, value)
		assertFigure(t, value, v.Value, "pressure")
	}
}

// A hose of which no rating is stated holds no better than one with a weak one: what it takes is told, and everything that is held against
// the lowest of the ratings rests on its print.
func TestAHoseWithoutARatingIsNoPass(t *testing.T) {
	with := func(rated launcher.Band) *launcher.Launcher {
		return sample.Plain(func(l *launcher.Launcher) {
			l.Paths[0].Hose = &launcher.HoseSpec{Bore: launcher.Exact("", 8e-3), Length: launcher.Exact("", 0.4), RatedPressure: rated,
				Material: "rubber"}
			l.Ambient.Hottest = launcher.Exact("", sample.Kelvin0+25)
			l.Volumes[0].RatedPressure, l.Barrel.RatedPressure = launcher.Exact("", 20*sample.Bars), launcher.Exact("", 20*sample.Bars)
		})
	}
	for rated, want := range map[float64]finding.Status{20 * sample.Bars: finding.Pass, 1e3: finding.Fail, 0: finding.Conditional} {
		band := launcher.Exact("", rated)
		if rated == 0 {
			band = launcher.Band{}
		}
		for _, id := range []string{finding.VesselRating, finding.HeatSoak} {
			v := asked(t, with(band), id)
			assert.Equal(t, want, v.Status, "%s, rated %g: %s", id, rated, v.Why)
			if want == finding.Conditional {
				assert.Contains(t, v.Condition.String(), "paths.fire.hose", id)
				assert.Equal(t, []string{finding.ItemLabels}, v.Items, id)
			}
		}
	}
	v := asked(t, with(launcher.Band{}), finding.VesselRating)
	assert.Contains(t, v.Condition.String(), "8.18 bar or more",
		"twice what the dead head of 4 bar comes to in the heat, (5.013 298.15/293.15 - 1.013) bar: the wave of a shot's air is thrown back")
}
