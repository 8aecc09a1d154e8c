package pneumatics

import (
	"runtime"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestRunAllocatesNothing: after the first run of a circuit a Sim works without
// the heap, events, phases, heat and relief valve included.
func TestRunAllocatesNothing(t *testing.T) {
	c, sc := whale()
	vented := *sc
	vented.To, vented.Heat, vented.Until, vented.NoProjectile = Off, Convection, 20, true
	plain, psc := referenceShots()[0].circuit()
	sticky, ssc := stickyBall(0.4, 30)
	ssc.Volumes = []Condition{{standardAtmosphere + 0.9e5, roomTemperature}}
	watch := []Watch{{0, standardAtmosphere + 5e3}}
	hose, hsc := rocketOnHose(1.2, true)
	var s Sim
	for name, run := range map[string]func(){
		"reference shot": func() { s.Run(plain, psc, Options{}) },
		"whale":          func() { s.Run(c, sc, Options{Tolerance: 1e-5, NoPeak: true}) },
		"sticky ball":    func() { s.Run(sticky, &ssc, Options{}) },
		"venting":        func() { s.Run(c, &vented, Options{Watch: watch}) },
		"ceiling":        func() { s.Ceiling(c, sc, 0) },
		"hose as a line": func() { s.Run(hose, hsc, Options{Tolerance: 1e-5, NoPeak: true}) },
	} {
		run()
		run()
		assert.Zero(t, testing.AllocsPerRun(5, run), name)
	}
}

// achieved is a tolerance at which the reference shots are right to 1e-6.
const achieved = 1e-5

// TestAchievedAccuracy: what the benchmarks below rest on.
func TestAchievedAccuracy(t *testing.T) {
	for _, k := range referenceShots() {
		c, sc := k.circuit()
		r := new(Sim).Run(c, sc, Options{Tolerance: achieved, NoPeak: true})
		require.Equal(t, Left, r.Outcome)
		assert.InEpsilon(t, k.speed, r.MuzzleSpeed, 1e-6)
		assert.InEpsilon(t, k.exitTime, r.ExitTime, 1e-6)
		assert.InEpsilon(t, k.barrelExit, r.BarrelExit, 1e-6)
	}
}

// BenchmarkShot is a reference shot right to 1e-6 (TestAchievedAccuracy).
func BenchmarkShot(b *testing.B) {
	for _, k := range referenceShots() {
		b.Run(k.name, func(b *testing.B) {
			c, sc := k.circuit()
			var s Sim
			b.ReportAllocs()
			evaluations := 0
			for b.Loop() {
				evaluations = s.Run(c, sc, Options{Tolerance: achieved, NoPeak: true}).Evaluations
			}
			b.ReportMetric(float64(evaluations), "rhs/op")
		})
	}
}

// BenchmarkShotThreeVolumes is the full model with tank, dose, barrel, hose, gap
// and the push after the muzzle.
func BenchmarkShotThreeVolumes(b *testing.B) {
	c, sc := whale()
	c.Paths[0].OpenIn = SetOf(Charging, Firing)
	var s Sim
	b.ReportAllocs()
	for b.Loop() {
		s.Run(c, sc, Options{Tolerance: achieved, NoPeak: true})
	}
}

// BenchmarkShotOnlyLeaving is the same as a search asks for it, with the tank shut off.
func BenchmarkShotOnlyLeaving(b *testing.B) {
	c, sc := whale()
	sc.SupplyRuns = true
	var s Sim
	b.ReportAllocs()
	for b.Loop() {
		s.Run(c, sc, Options{Tolerance: achieved, NoPeak: true, OnlyLeaving: true})
	}
}

// BenchmarkVenting is a minute of venting with natural convection.
func BenchmarkVenting(b *testing.B) {
	c, sc := whale()
	sc.To, sc.Heat, sc.Until = Off, Convection, 60
	var s Sim
	b.ReportAllocs()
	for b.Loop() {
		s.Run(c, sc, Options{Settle: true})
	}
}

// BenchmarkToleranceSample is the rate of shots with varied designs on all cores;
// 100000 of them take 100000 divided by the reported shots/s.
func BenchmarkToleranceSample(b *testing.B) {
	workers := runtime.GOMAXPROCS(0)
	shots := 0
	start := time.Now()
	for b.Loop() {
		var group sync.WaitGroup
		for w := range workers {
			group.Go(func() { sampleShots(1000, uint64(w)) })
		}
		group.Wait()
		shots += 1000 * workers
	}
	b.ReportMetric(float64(shots)/time.Since(start).Seconds(), "shots/s")
}

// sampleShots varies valve, mass and pressure of the whale by 10 %.
func sampleShots(n int, seed uint64) {
	c, sc := whale()
	var s Sim
	state := seed*2654435761 + 1
	vary := func() float64 {
		state = state*6364136223846793005 + 1442695040888963407
		return 0.9 + 0.2*float64(state>>40)/float64(1<<24)
	}
	flow, mass, gauge := c.Paths[1].Flow, c.Barrel.Mass, sc.Volumes[0].Pressure-c.Ambient.Pressure
	for range n {
		c.Paths[1].Flow, c.Barrel.Mass = flow.Scaled(vary()), mass*vary()
		p := c.Ambient.Pressure + gauge*vary()
		sc.Volumes[0].Pressure, sc.Volumes[1].Pressure = p, p
		s.Run(c, sc, Options{Tolerance: achieved, NoPeak: true})
	}
}

// TestSimsDoNotShare: runs on all cores at once give what one gives (with -race
// also that nothing is shared).
func TestSimsDoNotShare(t *testing.T) {
	c, sc := whale()
	want := new(Sim).Run(c, sc, Options{}).FinalEnergy
	var group sync.WaitGroup
	got := make([]float64, 8)
	for i := range got {
		group.Go(func() {
			var s Sim
			for range 20 {
				got[i] = s.Run(c, sc, Options{}).FinalEnergy
			}
		})
	}
	group.Wait()
	for _, e := range got {
		assert.Equal(t, want, e)
	}
}
