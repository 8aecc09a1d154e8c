package worst

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
	"puffproof/pneumatics/line"
	"puffproof/pneumatics/wave"
)

// factorShot is a shot of 5 g in a bore of 10 cm2 and 0.2 m, with invented figures:
// it leaves at a barrel pressure [Pa] and after a time of travel [s].
func factorShot(pressure, travelTime float64) (*pneumatics.Circuit, *pneumatics.Result) {
	c := &pneumatics.Circuit{Gas: flow.Air(), Ambient: pneumatics.Ambient{Pressure: 101325, Temperature: 293.15},
		Barrel: pneumatics.Barrel{Present: true, Area: 1e-3, DeadVolume: 50e-6, Travel: 0.2, Mass: 5e-3},
		Paths: []pneumatics.Path{{Name: "fire", From: 0, To: pneumatics.BarrelNode, Kind: pneumatics.Valve,
			Flow: flow.SonicConductance(4e-8, 0.3)}}}
	return c, &pneumatics.Result{Outcome: pneumatics.Left, FinalSpeed: 10, MuzzleSpeed: 10, BarrelExit: pressure, ExitTime: travelTime}
}

// The air behind weighs p V/(R T m): 0.25 L at 150 kPa is 0.446 g, 0.09 of 5 g;
// sound needs 0.25 m/343 m/s = 0.73 ms for the length. Computed by hand.
func TestFactorGrowsOutsideTheRange(t *testing.T) {
	c, r := factorShot(150e3, 0.02)
	rule := wave.RuleOf(c, r)
	assert.InDelta(t, 0.0891, rule.GasRatio, 0.0001)
	assert.InDelta(t, 27.5, rule.SoundTimes, 0.1)
	assert.Zero(t, RangeExcess(c, r))

	c, r = factorShot(400e3, 0.02) // 0.24 of the mass
	assert.Equal(t, wave.OutsideExcess, RangeExcess(c, r))
	c, r = factorShot(150e3, 0.005) // 6.9 times
	assert.Equal(t, wave.OutsideExcess, RangeExcess(c, r))
	assert.InEpsilon(t, (1+wave.OutsideExcess)*0.25, JudgedEnergy(0)(c, r), 1e-12, "5 g at 10 m/s, raised")

	// It grows over the last fifth before the end, without a step that a search would not climb.
	c, r = factorShot(303e3, 0.02) // 0.18 of the mass, nine tenths of the range: half
	assert.InDelta(t, wave.OutsideExcess/2, RangeExcess(c, r), 1e-3)
	assert.Contains(t, ExcessWhy(c, r).String(), "near the end of the range")
	last := RangeExcess(c, r)
	for p := 303e3; p < 350e3; p += 100 {
		c, r = factorShot(p, 0.02)
		assert.InDelta(t, last, RangeExcess(c, r), 0.02*wave.OutsideExcess)
		last = RangeExcess(c, r)
	}

	// A projectile that rests has no muzzle to compare at; its bound is not the model's.
	r.Outcome = pneumatics.Stalled
	assert.Zero(t, RangeExcess(c, r))
}

// The air of a hose that a shot passes counts with that behind the projectile: 0.6 g of
// it, 0.5 L of ambient air at 1.204 kg/m3, are 0.12 of 5 g. Beyond the range a hose has its own allowance.
func TestFactorCountsTheAirOfHoses(t *testing.T) {
	c, r := factorShot(150e3, 0.02)
	fire := &c.Paths[0]
	fire.OpenIn = pneumatics.SetOf(pneumatics.Firing)
	fire.After = []line.Piece{{Bore: 16e-3, Length: 0.5e-3 / (math.Pi / 4 * 16e-3 * 16e-3)}}
	rule := wave.RuleOf(c, r)
	assert.InDelta(t, 0.1204, rule.HoseRatio, 0.0001)
	assert.InDelta(t, 0.0891+0.1204, rule.GasRatio, 0.0002)
	assert.Equal(t, wave.HoseExcess, RangeExcess(c, r))
	assert.Contains(t, ExcessWhy(c, r).String(), "with that of its hoses, weighs 0.21 of it")
	fire.After[0].Length /= 2
	assert.Zero(t, RangeExcess(c, r))
	// A hose that no shot passes does not count: of a vent, of a valve that is shut then.
	for _, change := range []func(){func() { fire.To = pneumatics.Atmosphere },
		func() { fire.OpenIn = pneumatics.SetOf(pneumatics.Charging) }} {
		fire.After[0].Length, fire.To, fire.OpenIn = 9, pneumatics.BarrelNode, pneumatics.SetOf(pneumatics.Firing)
		change()
		assert.Zero(t, wave.RuleOf(c, r).HoseRatio)
	}
}

// The declared factor covers what the wave model found inside the range, and no
// factor is below the floor that the project's rules set, 1.1.
func TestFactorCoversTheStudy(t *testing.T) {
	assert.GreaterOrEqual(t, ModelFactor, 1+wave.InsideExcess)
	assert.GreaterOrEqual(t, ModelFactor, 1.1)
	assert.Greater(t, wave.OutsideExcess, wave.InsideExcess)
	assert.Greater(t, wave.HoseExcess, wave.OutsideExcess)
}

// A hose outside of what the two models were compared on has no factor: longer than 5 m,
// or passing less than a tenth of what its valve does; the verdict says what would change that.
func TestBeyondStudy(t *testing.T) {
	of := func(h launcher.HoseSpec) string {
		l := sample.Plain()
		l.Paths[0].Hose = &h
		return BeyondStudy(l).String()
	}
	hose := func(bore, length float64, side launcher.HoseSide) launcher.HoseSpec {
		return launcher.HoseSpec{Bore: launcher.Exact("", bore), Length: launcher.Exact("", length), Side: side}
	}
	assert.Empty(t, BeyondStudy(sample.Plain()).String())
	for _, side := range []launcher.HoseSide{launcher.HoseBefore, launcher.HoseAfter} {
		assert.Empty(t, of(hose(10e-3, 5, side)))
		assert.Contains(t, of(hose(10e-3, 5.01, side)), "longer than the 5 m")
		banded := hose(10e-3, 5, side)
		banded.Length.High = 5.01
		assert.Contains(t, of(banded), "longer than the 5 m", "the top of its band")
		assert.Contains(t, of(hose(3e-3, 2, side)), "less than the 10 % down to which")
		assert.Contains(t, of(hose(3e-3, 2, side)), "check --thorough")
	}
}

// A shot through such a hose counts as one outside the range.
func TestAHoseBeyondTheStudyIsOutside(t *testing.T) {
	c, r := factorShot(150e3, 0.02)
	c.Paths[0].OpenIn = pneumatics.SetOf(pneumatics.Firing)
	for length, excess := range map[float64]float64{5: 0, 5.1: wave.HoseExcess} {
		c.Paths[0].After = []line.Piece{{Bore: 7e-3, Length: length}}
		assert.Equal(t, excess, RangeExcess(c, r), "%g m", length)
	}
	assert.Contains(t, ExcessWhy(c, r).String(), "over random launchers with a hose")
}

// What counts for more beyond the range is in the judged energy, not in the computed one: 3 J that were raised by the excess.
func TestEnergiesTellComputedFromJudged(t *testing.T) {
	c, r := factorShot(400e3, 0.02)
	w := &Case{Value: 3, Shot: r, Circuit: *c}
	computed, judged := w.Energies()
	assert.InEpsilon(t, 3/(1+wave.OutsideExcess), computed, 1e-12)
	assert.InEpsilon(t, 3*ModelFactor, judged, 1e-12)
	c, r = factorShot(150e3, 0.02)
	computed, _ = (&Case{Value: 3, Shot: r, Circuit: *c}).Energies()
	assert.InEpsilon(t, 3, computed, 1e-12, "inside it nothing is raised")
}
