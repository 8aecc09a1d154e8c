package limits

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics"
)

// A firing valve that opens without power shoots when the plug is pulled: no action,
// no guard makes that clean, however small the energy.
func TestPowerLossThatShootsIsNoCleanVent(t *testing.T) {
	l := dumped()
	l.pathNamed("fire").Unpowered = pneumatics.Open
	a := assessedVent(t, l)
	e, v := a.Emptying, ventPowerLoss(a)
	assert.Equal(t, Fail, v.Status)
	assert.Contains(t, v.Why, "shot.unasked")
	for _, p := range e.Pushes {
		assert.InDelta(t, p.Energy*ModelFactor, p.Judged, 1e-12, "one figure in verdict and screen")
	}
}

// A push so slow that the air has one pressure all along, out of a barrel at whose
// muzzle that has just fallen to the ambient pressure, has the work of the isentropic
// expansion from V0 to V1 = V0 (p0/pa)^(1/gamma), less that against the ambient air:
//
//	E = (p0 V0 - pa V1)/(gamma - 1) - pa (V1 - V0)
//
// (first law; for instance Moran and Shapiro, Fundamentals of Engineering
// Thermodynamics, chapter 3, from memory). The same is left for a shot from the target,
// whose bound is the availability of all the air, V (p ln(p/pa) - (p - pa)) (the same,
// chapter 7). 2 %: what a wide valve, a heavy projectile and the column of air ahead of
// it still take.
func TestAPushIsTheWorkOfTheAir(t *testing.T) {
	const volume, target, pa = 2e-3, 4000.0, 101325.0
	expanded := func(gauge float64) (energy, travel float64) {
		v1 := volume * math.Pow((pa+gauge)/pa, 1/1.4)
		return ((pa+gauge)*volume-pa*v1)/0.4 - pa*(v1-volume), (v1 - volume) / circle(41*millimetres)
	}
	emptied := func(travel float64) *VentReport {
		return judgedOnly(t, plain(partsOff, friction(0, 0), func(l *Launcher) {
			l.Paths[0].Flow, l.Paths[0].OpeningTime = orifice(60*millimetres, 0.9), Exact("", 1e-4)
			l.Paths[0].OpenIn |= pneumatics.SetOf(pneumatics.Off)
			l.Barrel.Travel, l.Barrel.DeadVolume = Exact("", travel), Exact("", 1e-7)
			l.Projectile.Mass = Exact("", 2)
			l.Supply.DeadHead = Exact("", 1e5)
			l.Venting = &VentingSpec{Target: Exact("", target), Within: Exact("", 60)}
		}))
	}
	energy, travel := expanded(1e5)
	e := emptied(travel)
	require.InDelta(t, 1e5, e.Start, 0)
	require.NotEmpty(t, e.Pushes)
	for _, p := range e.Pushes {
		assert.Equal(t, "left", p.Outcome)
		assert.InEpsilon(t, energy, p.Energy, 0.02, p.Scenario)
		assert.InEpsilon(t, math.Sqrt(2*p.Energy/2), p.Speed, 1e-9)
		assert.InEpsilon(t, 1.25*p.Energy, p.Judged, 1e-12, "the model factor")
	}
	energy, travel = expanded(target)
	e = emptied(travel)
	assert.InEpsilon(t, 1.25*energy, e.LeftShot, 0.02)
	const p = pa + target
	assert.InEpsilon(t, (volume+1e-7)*(p*math.Log(p/pa)-target), e.Left, 1e-9)
}

// The harder of the loosest and the firmest hold counts: held firmly the projectile of
// a slow valve goes from more pressure.
func TestTheFirmestHoldIsPushedToo(t *testing.T) {
	energy := func(low, high float64) float64 {
		l := ventedTank()
		l.Paths[0].Unpowered = pneumatics.Open
		l.Projectile.Breakaway, l.Projectile.Restart = between("", low, high), between("", low, high)
		v := newVenter(VentInput{Launcher: l}, 1e5, 5000)
		e := &VentReport{}
		require.NoError(t, v.push(e, ventScenario{PowerLost, pneumatics.Armed}))
		require.Len(t, e.Pushes, 1)
		return e.Pushes[0].Energy
	}
	loose, firm := energy(0, 0), energy(20, 20)
	assert.Greater(t, math.Abs(firm-loose), 0.1*min(loose, firm))
	assert.InEpsilon(t, max(loose, firm), energy(0, 20), 1e-9, "the same run")
}

// The expected time lies in its own bracket, also where volumes empty through one
// another.
func TestTheExpectedTimeLiesInItsBracket(t *testing.T) {
	chained := ventedTank()
	chained.Volumes = append(chained.Volumes, VolumeSpec{Name: "dose", Volume: between("", 0.9e-3, 1.1e-3)})
	chained.Paths = append(chained.Paths, PathSpec{Name: "join", From: "dose", To: "tank", Kind: pneumatics.Orifice,
		Flow: orifice(1e-3, 0.75)})
	for name, l := range map[string]*Launcher{"two dumps": dumped(), "chained": chained} {
		for _, c := range emptied(t, l).Cases {
			assert.LessOrEqual(t, c.Expected, c.Slowest, name+" "+c.Scenario+" "+c.Volume)
			assert.LessOrEqual(t, c.Fastest, c.Expected, name+" "+c.Scenario+" "+c.Volume)
		}
	}
}

// A short that opens the feed while loading: it does not shoot by itself, but it
// says what the dose then holds. A relief valve that is set too high is latent, and
// with a welded switch as bad as one that sticks.
func TestFeedAndReliefFaultsThatNeedASecondOne(t *testing.T) {
	r, err := Faults(weakly(), dumped(), FaultOptions{Pairs: EveryPair})
	require.NoError(t, err)
	feed := faultNamed(t, r.Faults, "feed.energised-unasked.loading")
	assert.Equal(t, NoEffect, feed.Effect)
	high := faultNamed(t, r.Faults, "relief.set-too-high-or-opens-late")
	assert.True(t, high.Latent)
	assert.Equal(t, ItemReliefTest, high.RevealedBy)
	worst := map[string]float64{}
	for _, p := range r.Pairs {
		if p.ID == "pressure-switch.welded-never-stops-the-supply" {
			worst[p.With] = p.Judged
		}
	}
	assert.Positive(t, worst["relief.stuck-shut"])
	assert.InDelta(t, worst["relief.stuck-shut"], worst["relief.set-too-high-or-opens-late"], 1e-9)
}

// A push begins with what the volumes hold: all of it, or while loading what the vents
// of that state have left.
func TestAPushBeginsWithWhatLoadingLeft(t *testing.T) {
	l := ventedTank()
	start := func(from pneumatics.State, air *loadingAir) float64 {
		v := newVenter(VentInput{Launcher: l, Loading: air}, 1e5, 5000)
		one := v.pushSetup(v.ends[fastEnd][0], ventScenario{Shutdown, from}, 0)
		return one.sc.Volumes[0].Pressure - one.c.Ambient.Pressure
	}
	vented := &loadingAir{rest: []float64{3000}, empty: []bool{true}}
	for _, c := range []struct {
		from pneumatics.State
		air  *loadingAir
		want float64
	}{
		{pneumatics.Armed, vented, 1e5},
		{pneumatics.Loading, vented, 3000},
		{pneumatics.Loading, &loadingAir{rest: []float64{3000}, empty: []bool{false}}, 1e5},
		{pneumatics.Loading, &loadingAir{rest: []float64{2e5}, empty: []bool{true}}, 1e5},
		{pneumatics.Loading, nil, 1e5},
	} {
		assert.InDelta(t, c.want, start(c.from, c.air), 1e-6, "%s %+v", c.from, c.air)
	}
}
