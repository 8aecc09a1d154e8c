package worst

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"puffproof/pneumatics/flow"
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

	// A projectile that rests has no muzzle to compare at; its bound is not the model's.
	r.Outcome = pneumatics.Stalled
	assert.Zero(t, RangeExcess(c, r))
}

// A hose on the way to the barrel is outside, a tight one more so.
func TestFactorSeesAHose(t *testing.T) {
	c, r := factorShot(150e3, 0.02)
	c.Paths[0].Hose = flow.SonicConductance(3e-8, 0.3)
	assert.Equal(t, wave.HoseExcess, RangeExcess(c, r))
	i, share := hoseToBarrel(c)
	assert.Zero(t, i)
	assert.InEpsilon(t, 0.75, share, 1e-12)
	c.Paths[0].Hose = flow.SonicConductance(6.1e-8, 0.3)
	assert.Equal(t, wave.OutsideExcess, RangeExcess(c, r))
	// A hose to another place does not matter, one that feeds the barrel alone does.
	c.Paths[0].Hose = flow.Restriction{}
	c.Paths = append(c.Paths, pneumatics.Path{From: 0, To: pneumatics.Atmosphere, Kind: pneumatics.Hose,
		Flow: flow.SonicConductance(1e-8, 0.3)})
	assert.Zero(t, RangeExcess(c, r))
	c.Paths[1].To = pneumatics.BarrelNode
	assert.Equal(t, wave.HoseExcess, RangeExcess(c, r))
}

// The declared factor covers what the wave model found inside the range, and no
// factor is below the floor that the project's rules set, 1.1.
func TestFactorCoversTheStudy(t *testing.T) {
	assert.GreaterOrEqual(t, ModelFactor, 1+wave.InsideExcess)
	assert.GreaterOrEqual(t, ModelFactor, 1.1)
	assert.Greater(t, wave.OutsideExcess, wave.InsideExcess)
	assert.Greater(t, wave.HoseExcess, wave.OutsideExcess)
}

// A hose that feeds the firing valve through a fitting raises the factor like the
// same hose at the valve itself: it is the same hardware.
func TestAHoseThroughAManifoldIsAHose(t *testing.T) {
	valve, hose := flow.SonicConductance(4e-8, 0.3), flow.HoseFlow(9e-3, 2.5)
	at := &pneumatics.Circuit{Gas: flow.Air(), Volumes: []pneumatics.Volume{{Volume: 1e-3}},
		Paths: []pneumatics.Path{{From: 0, To: pneumatics.BarrelNode, Kind: pneumatics.Valve, Flow: valve, Hose: hose}}}
	through := &pneumatics.Circuit{Gas: at.Gas, Volumes: []pneumatics.Volume{{Volume: 1e-3}, {Volume: 5e-6}},
		Paths: []pneumatics.Path{{From: 0, To: 1, Kind: pneumatics.Hose, Flow: hose},
			{From: 1, To: pneumatics.BarrelNode, Kind: pneumatics.Valve, Flow: valve}}}
	_, a := hoseToBarrel(at)
	_, b := hoseToBarrel(through)
	assert.InEpsilon(t, a, b, 1e-12, "one ratio of conductances, by two ways")
	through.Volumes[1].Volume = 1e-3 // a vessel of its own
	path, _ := hoseToBarrel(through)
	assert.Equal(t, -1, path)
}

// A hose outside of what the two models were compared on has no factor: longer than 3 m,
// after the valve, or passing less than a twentieth of what its valve does.
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
	assert.Empty(t, of(hose(10e-3, 3, launcher.HoseBefore)))
	assert.Contains(t, of(hose(10e-3, 3.01, launcher.HoseBefore)), "longer than the 3 m")
	banded := hose(10e-3, 3, launcher.HoseBefore)
	banded.Length.High = 3.01
	assert.Contains(t, of(banded), "longer than the 3 m", "the top of its band")
	assert.Contains(t, of(hose(10e-3, 0.5, launcher.HoseAfter)), "between valve and barrel")
	assert.Contains(t, of(hose(2e-3, 2, launcher.HoseBefore)), "passes less than 5.0 %")
}
